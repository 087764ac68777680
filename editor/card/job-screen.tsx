// The technician's screen: what is still waited for first, one large question at a time, and the job card
// beside or below it.
import type { Answers, AskView, SensitivityView, JobView, TraceView, UnitSystem } from "../../core/view.ts";
import type { CardProofs } from "../client/engine/messages.ts";
import type { Ticked } from "../client/storage/stored-work.ts";
import { StateMark } from "../ui/parts/state-mark.tsx";
import { useWords } from "../ui/words/words.ts";
import type { UnderNamed } from "./book-stack.ts";
import { stackOn } from "./book-stack.ts";
import type { Drafts } from "./answer-drafts.ts";
import { JobAsks } from "./job-asks.tsx";
import { JobCard } from "./job-card.tsx";
import type { JobCardProps } from "./job-card.tsx";
import { stateLine } from "./state-line.ts";
import { useJobScreen } from "./use-job-screen.ts";
import type { JobScreenState } from "./use-job-screen.ts";
import { useLater } from "./use-lazy-parts.ts";
// In this order: later rules win over earlier ones.
import "./job-screen.css";
import "./question.css";
import "./measure-aids.css";
import "./choices.css";
import "./ask-lists.css";
import "./why-sheet.css";
import "./only-card-on-paper.css";

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
  /** What is proved of this job: which questions still matter. */
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

interface PartProps {
  readonly screen: JobScreenProps;
  readonly state: JobScreenState;
}

export function JobScreen(props: JobScreenProps) {
  const later = useLater();
  const state = useJobScreen(props);
  const parts: PartProps = { screen: props, state };
  const settled = state.current === undefined;
  const questions = <JobAsks key="asks" {...parts} />;
  const card = <Card key="card" {...parts} />;
  return (
    <div className={`job is-${props.job.state}${settled ? " is-settled" : ""}`}>
      <Head {...props} />
      <Bar {...parts} />
      {props.locked ? card : settled ? [card, questions] : [questions, card]}
      {props.onCloseCalls && later && <later.CloseCalls about={props.job} onAsk={props.onCloseCalls} />}
      <Why {...parts} />
    </div>
  );
}

function Head({ title, edition, under, invented, head }: JobScreenProps) {
  const say = useWords();
  return (
    <header className="job-head">
      <h1 className="job-title">
        {title}{" "}
        {edition !== undefined && (
          <small>
            {say("book.edition", { edition })}
            {stackOn(under, say)}
          </small>
        )}
        {invented && <small className="invented">{say("card.invented")}</small>}
      </h1>
      {head}
    </header>
  );
}

/** The state, and the one thing to do next: print the card, or see it. */
function Bar({ screen: { job }, state }: PartProps) {
  const say = useWords();
  const settled = state.current === undefined;
  return (
    <div className="job-bar">
      <p className="job-state" role="status">
        <StateMark state={job.state} /> <span>{stateLine(job, state.groups.toAsk.length, say)}</span>
      </p>
      {settled && (
        <button type="button" className="job-jump is-print" onClick={() => window.print()}>
          {say("bar.print")}
        </button>
      )}
      {!settled && (
        <button type="button" className="job-jump" onClick={() => state.cardHeading.current?.focus()}>
          {say("bar.card")}
        </button>
      )}
    </div>
  );
}

function Card({ screen, state }: PartProps) {
  return (
    <JobCard
      title={screen.title}
      edition={screen.edition}
      under={screen.under}
      asks={screen.asks}
      answers={screen.answers}
      job={screen.job}
      invented={screen.invented}
      onWhy={state.setWhy}
      onAsk={screen.locked ? undefined : state.choose}
      headingRef={state.cardHeading}
      ticked={screen.ticked}
      onTicked={screen.onTicked}
      jobName={screen.jobName}
      print={screen.print}
      locked={screen.locked}
      besideStep={screen.besideStep}
      onCard={screen.onCard}
      signed={screen.signed}
    />
  );
}

/** The answer to "why?" about one value, over the screen. A question taken up there closes it. */
function Why({ screen, state }: PartProps) {
  const later = useLater();
  const { why, setWhy, choose } = state;
  if (why === undefined || !later) return null;
  const takeUp = (name: string): void => {
    setWhy(undefined);
    choose(name);
  };
  return (
    <later.WhySheet
      name={why}
      onWhy={screen.onWhy}
      units={screen.units}
      answers={screen.answers}
      asks={screen.asks}
      onCloseCalls={screen.onCloseCalls}
      onAsk={screen.locked ? undefined : takeUp}
      onClose={() => setWhy(undefined)}
    />
  );
}
