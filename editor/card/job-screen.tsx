// The technician's screen: what is still waited for first, one large question at a time, and the job card
// beside or below it.
import { useEffect, useRef, useState } from "react";
import type { Answers, AskView, SensitivityView, JobView, TraceView, UnitSystem } from "../../core/view.ts";
import type { CardProofs } from "../client/engine/messages.ts";
import { minutesWords } from "../ui/parts/state-words.ts";
import { StateMark } from "../ui/parts/state-mark.tsx";
import { reasonWords } from "../ui/words/engine-words.ts";
import { useWords } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";
import { AnswerList, QuestionList } from "./ask-lists.tsx";
import { cardTotals } from "./card-facts.ts";
import { JobCard, stackOn } from "./job-card.tsx";
import type { JobCardProps, UnderNamed } from "./job-card.tsx";
import type { Drafts } from "./drafts.ts";
import { groupAsks } from "./job-order.ts";
import { Question } from "./question.tsx";
import { useLater } from "./use-later.ts";
import "./job.css";
import type { Ticked } from "../client/storage/stored-work.ts";

export interface JobScreenProps {
  readonly title: string;
  readonly edition: number | undefined;
  readonly under?: readonly UnderNamed[];
  readonly asks: readonly AskView[];
  readonly answers: Answers;
  readonly job: JobView;
  /** `undefined` takes an answer back. */
  readonly onAnswer: (name: string, text: string | undefined) => void;
  readonly onWhy: (name: string, depth?: TraceView["depth"]) => Promise<TraceView | undefined>;
  readonly units: UnitSystem;
  /** Drawn beside the title: what is set for this device. */
  readonly head?: React.ReactNode;
  /** The job is made up for show and says so. */
  readonly invented?: boolean;
  /** Steps ticked off, to be kept with the answers; without it they last as long as the screen. */
  readonly ticked?: Ticked;
  readonly onTicked?: (ticked: Ticked) => void;
  /** What is typed and not yet taken, by question; kept likewise. */
  readonly drafts?: Drafts;
  readonly onDrafts?: (drafts: Drafts) => void;
  /** What is proved of this job: which questions still matter, and what the tolerances leave open. */
  readonly proofs?: CardProofs;
  /** The nearest other answers at which something turns; without it no list of them is offered. */
  readonly onCloseCalls?: () => Promise<readonly SensitivityView[] | undefined>;
  /** Nothing can be answered or ticked any more: the card alone stands. */
  readonly locked?: boolean;
  readonly jobName?: JobCardProps["jobName"];
  readonly print?: JobCardProps["print"];
  /** Drawn at a step, e.g. its timer; `place` counts from 1. */
  readonly besideStep?: JobCardProps["besideStep"];
  /** Drawn on the card before what it rests on: what was really used, and the like. */
  readonly onCard?: JobCardProps["onCard"];
  readonly signed?: JobCardProps["signed"];
}

export function JobScreen(props: JobScreenProps) {
  const { asks, answers, job } = props;
  const say = useWords();
  const later = useLater();
  const [chosen, setChosen] = useState<string>();
  const [ownDrafts, setOwnDrafts] = useState<Drafts>({});
  const drafts = props.drafts ?? ownDrafts;
  const setDrafts = (next: Drafts) => {
    setOwnDrafts(next);
    props.onDrafts?.(next);
  };
  const [why, setWhy] = useState<string>();
  const heading = useRef<HTMLHeadingElement>(null);
  const card = useRef<HTMLHeadingElement>(null);
  const [moved, setMoved] = useState(0);
  const groups = groupAsks(asks, answers, job, props.proofs?.matters);
  const current = props.locked ? undefined : (asks.find((ask) => ask.name === chosen) ?? groups.toAsk[0]);

  // After a press the reader is taken along: to the next question, or to the card once nothing is left to
  // ask.
  useEffect(() => {
    if (moved === 0) return;
    (heading.current ?? card.current)?.focus({ preventScroll: false });
    // On a phone what is pressed last would lie over the field: the question is brought up until all of it is
    // in sight.
    const question = heading.current?.closest(".question");
    if (question && question.getBoundingClientRect().bottom > innerHeight)
      question.scrollIntoView({ block: "start" });
  }, [moved, current?.name]);

  const choose = (name: string) => {
    setChosen(name);
    setMoved((count) => count + 1);
  };
  const leave = () => {
    setChosen(undefined);
    setMoved((count) => count + 1);
  };
  const give = (name: string, text: string | undefined) => {
    const { [name]: _given, ...kept } = drafts;
    setDrafts(kept);
    setChosen(undefined);
    setMoved((count) => count + 1);
    props.onAnswer(name, text);
  };
  const faultOf = (ask: AskView) => {
    const found = job.findings.find((finding) => finding.ask === ask.name);
    return found && reasonWords(found.cause, found.says, say);
  };

  const settled = current === undefined;
  const questions = (
    <div className="job-asks" key="asks">
      {current && (
        <Question
          key={current.name}
          ask={current}
          answer={answers[current.name]}
          fault={faultOf(current)}
          units={props.units}
          draft={drafts[current.name]}
          onDraft={(draft) => setDrafts({ ...drafts, [current.name]: draft })}
          onAnswer={(text) => give(current.name, text)}
          onLeave={current === groups.toAsk[0] ? undefined : leave}
          headingRef={heading}
        />
      )}
      {!settled && (
        <AnswerList
          asks={groups.answered.filter((ask) => ask !== current)}
          answers={answers}
          job={job}
          onChoose={choose}
        />
      )}
      <QuestionList
        title={say("ask.after")}
        asks={groups.toAsk.filter((ask) => ask !== current)}
        onChoose={choose}
      />
      <QuestionList
        title={say("ask.cautions")}
        asks={groups.cautions.filter((ask) => ask !== current)}
        onChoose={choose}
      />
      <QuestionList
        title={say("ask.needless")}
        asks={groups.needless.filter((ask) => ask !== current)}
        onChoose={choose}
      />
      <QuestionList
        title={say("ask.not-needed")}
        asks={groups.notNeeded.filter((ask) => ask !== current)}
        onChoose={choose}
      />
    </div>
  );
  const jobCard = (
    <JobCard
      key="card"
      title={props.title}
      edition={props.edition}
      under={props.under}
      asks={asks}
      answers={answers}
      job={job}
      invented={props.invented}
      onWhy={setWhy}
      onAsk={props.locked ? undefined : choose}
      headingRef={card}
      ticked={props.ticked}
      onTicked={props.onTicked}
      doubts={props.proofs?.doubts}
      jobName={props.jobName}
      print={props.print}
      locked={props.locked}
      besideStep={props.besideStep}
      onCard={props.onCard}
      signed={props.signed}
    />
  );
  return (
    <div className={`job is-${job.state}${settled ? " is-settled" : ""}`}>
      <header className="job-head">
        <h1 className="job-title">
          {props.title}{" "}
          {props.edition !== undefined && (
            <small>
              {say("book.edition", { edition: props.edition })}
              {stackOn(props.under, say)}
            </small>
          )}
          {props.invented && <small className="invented">{say("card.invented")}</small>}
        </h1>
        {props.head}
      </header>
      <div className="job-bar">
        <p className="job-state" role="status">
          <StateMark state={job.state} /> <span>{stateLine(job, groups.toAsk.length, say)}</span>
        </p>
        {settled && (
          <button type="button" className="job-jump is-print" onClick={() => window.print()}>
            {say("bar.print")}
          </button>
        )}
        {!settled && (
          <button type="button" className="job-jump" onClick={() => card.current?.focus()}>
            {say("bar.card")}
          </button>
        )}
      </div>
      {props.locked ? jobCard : settled ? [jobCard, questions] : [questions, jobCard]}
      {props.onCloseCalls && later && <later.CloseCalls about={job} onAsk={props.onCloseCalls} />}
      {why !== undefined && later && (
        <later.WhySheet
          name={why}
          onWhy={props.onWhy}
          units={props.units}
          answers={answers}
          asks={asks}
          onCloseCalls={props.onCloseCalls}
          onAsk={
            props.locked
              ? undefined
              : (name) => {
                  setWhy(undefined);
                  choose(name);
                }
          }
          onClose={() => setWhy(undefined)}
        />
      )}
    </div>
  );
}

function stateLine(job: JobView, left: number, say: Say): string {
  const unusable = job.findings.length;
  if (unusable > 0 && job.state !== "stopped")
    return unusable === 1 ? say("state.unusable.one") : say("state.unusable", { count: unusable });
  switch (job.state) {
    case "ready": {
      const totals = cardTotals(job.steps);
      const steps =
        job.steps.length === 1 ? say("state.steps.one") : say("state.steps", { count: job.steps.length });
      return totals.takes > 0
        ? say("state.of-work", { steps, time: minutesWords(totals.takes, say) })
        : steps;
    }
    case "waiting":
      if (left === 0) return say("state.for-an-answer");
      return left === 1 ? say("state.for.one") : say("state.for", { count: left });
    case "stopped":
      return say("state.withheld");
    case "impossible":
      return say("state.no-steps");
  }
}
