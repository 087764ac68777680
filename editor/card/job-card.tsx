// The job card: what stops the job, what to beware of, the work in order with its amounts and times, and what
// it all rests on. Made for screen and paper.
import { useState } from "react";
import type { Signed } from "../../core/record.ts";
import type { Answers, AskView, CardLine, ToleranceView, JobView } from "../../core/view.ts";
import { DoubtLines } from "./doubt-lines.tsx";
import { PiecesText } from "../ui/parts/pieces-text.tsx";
import { StateMark } from "../ui/parts/state-mark.tsx";
import { basisWords, minutesWords, stateMeans } from "../ui/parts/state-words.ts";
import { reasonWords } from "../ui/words/engine-words.ts";
import { useWords } from "../ui/words/words.ts";
import type { Say } from "../ui/words/words.ts";
import { answerMeans, answerText } from "./ask-lists.tsx";
import { meant, useMeaning } from "./meanings.ts";
import { useLater } from "./use-later.ts";
import { answeredAsks, cardTotals, reasons, restsOnPractice } from "./card-facts.ts";
import "./job-card.css";
import type { Ticked } from "../client/storage/stored-work.ts";

export interface UnderNamed {
  readonly name: string;
  readonly edition: number | undefined;
}

export interface JobCardProps {
  readonly title: string;
  readonly edition: number | undefined;
  /** Books that it amends, the nearest first; left out for a book that stands alone. */
  readonly under?: readonly UnderNamed[];
  readonly asks: readonly AskView[];
  readonly answers: Answers;
  readonly job: JobView;
  readonly invented?: boolean;
  /** Any number can be asked why; without it numbers are only printed bold. */
  readonly onWhy?: (name: string) => void;
  /** Takes up a question that the job waits for. */
  readonly onAsk?: (name: string) => void;
  readonly headingRef?: React.Ref<HTMLHeadingElement>;
  /** Steps ticked off, kept by whoever keeps the job; without it the card keeps them while it is shown. */
  readonly ticked?: Ticked;
  readonly onTicked?: (ticked: Ticked) => void;
  /** What the tolerances of the answers leave open. */
  readonly doubts?: ToleranceView;
  /** Ticks stand as they are. */
  readonly locked?: boolean;
  /** What the job is called; without it paper has a line for it. */
  readonly jobName?: string;
  /** Names the book's content: its first letters stand on the card. */
  readonly print?: string;
  /** Drawn at a step; `place` counts from 1. */
  readonly besideStep?: (step: CardLine, place: number) => React.ReactNode;
  /** Drawn before what the card rests on. */
  readonly onCard?: React.ReactNode;
  /** Who signed the job; without it paper has a line to be signed by hand. */
  readonly signed?: Signed;
}

/** A card of more lines than this is set a little smaller on paper, so that it keeps to one page. */
const many = 21;

export function JobCard(props: JobCardProps) {
  const { job, title, edition, onWhy } = props;
  const say = useWords();
  const later = useLater();
  const stack = stackOn(props.under, say);
  return (
    <section
      className={`card is-${job.state}${job.steps.length + job.cautions.length > many ? " is-long" : ""}`}
      aria-labelledby="card-heading"
    >
      <span className="card-hole" aria-hidden="true" />
      <header className="card-head">
        <h2 id="card-heading" tabIndex={-1} ref={props.headingRef}>
          {say("card.heading")}
        </h2>
        <p className="card-book">
          {edition === undefined ? title : say("card.comma-edition", { title, edition })}
          {stack}
          {props.invented && <b className="invented">{say("card.invented")}</b>}
        </p>
        <p className="card-state">
          <StateMark state={job.state} large />
          <span>{stateMeans(job.state, say)}</span>
        </p>
        <p className="card-paper">
          {say("card.job")} {props.jobName ? <b>{props.jobName}</b> : <i />} {say("card.date")}
          <i className="is-short" />
        </p>
      </header>
      <p className="card-defers">{say("card.defers")}</p>
      {job.stops.length > 0 && <Stops stops={job.stops} onWhy={onWhy} />}
      {job.state === "impossible" && <Impossible job={job} onWhy={onWhy} />}
      {job.broken.length > 0 && (
        <section className="card-broken">
          <h3>{say("card.broken")}</h3>
          <ul>
            {job.broken.map((promise) => (
              <li key={promise.id}>{promise.says}</li>
            ))}
          </ul>
        </section>
      )}
      {job.cautions.length > 0 && <Cautions cautions={job.cautions} onWhy={onWhy} />}
      <DoubtLines doubts={props.doubts} asks={props.asks} onAsk={props.onAsk} />
      {job.state === "waiting" && <Waiting {...props} />}
      {job.state === "ready" && <Steps {...props} />}
      {later && <later.Drawings job={job} />}
      {props.onCard}
      <Rests {...props} />
    </section>
  );
}

function Stops({
  stops,
  onWhy,
}: {
  readonly stops: readonly CardLine[];
  readonly onWhy?: (name: string) => void;
}) {
  const say = useWords();
  return (
    <section className="card-stops">
      <div className="card-stops-inside">
        <h3>
          <span>{say("card.stop")}</span> {say("card.withheld")}
        </h3>
        <ul>
          {stops.map((stop) => (
            <li key={stop.id}>
              <p className="card-says">
                <PiecesText pieces={stop.pieces} onWhy={onWhy} />
              </p>
              <Reason line={stop} onWhy={onWhy} />
            </li>
          ))}
        </ul>
      </div>
    </section>
  );
}

function Cautions({
  cautions,
  onWhy,
}: {
  readonly cautions: readonly CardLine[];
  readonly onWhy?: (name: string) => void;
}) {
  const say = useWords();
  return (
    <section className="card-cautions">
      <h3>{say("card.cautions")}</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution.id}>
            <p className="card-says">
              <PiecesText pieces={caution.pieces} onWhy={onWhy} />
            </p>
            <Reason line={caution} onWhy={onWhy} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Waiting({ job, asks, onAsk }: JobCardProps) {
  const say = useWords();
  return (
    <section className="card-waits">
      <h3>{say("card.waits")}</h3>
      <ul>
        {job.waiting.map((name) => {
          const question = asks.find((ask) => ask.name === name)?.question ?? name;
          return (
            <li key={name}>
              {onAsk ? (
                <button type="button" className="ask-row" onClick={() => onAsk(name)}>
                  <span>{question}</span>
                </button>
              ) : (
                question
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

function Impossible({ job, onWhy }: { readonly job: JobView; readonly onWhy?: (name: string) => void }) {
  const say = useWords();
  return (
    <section className="card-impossible">
      <h3>{say("card.impossible")}</h3>
      <ul>
        {reasons(job).map(({ says, cause, of }) => (
          <li key={says}>
            <p className="card-says">{reasonWords(cause, says, say)}</p>
            {onWhy &&
              of.slice(0, 4).map((value) => (
                <button key={value.name} type="button" className="card-why" onClick={() => onWhy(value.name)}>
                  {say("card.why-of", { name: value.name })}
                </button>
              ))}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Steps(props: JobCardProps) {
  const {
    onWhy,
    job: { steps },
  } = props;
  const say = useWords();
  const [own, setOwn] = useState<Ticked>({});
  const ticked = props.ticked ?? own;
  const tick = (step: CardLine, is: boolean) => {
    const { [step.id]: _was, ...kept } = ticked;
    const next = is ? { ...kept, [step.id]: step.text } : kept;
    setOwn(next);
    props.onTicked?.(next);
  };
  const totals = cardTotals(steps);
  const done = steps.filter((step) => ticked[step.id] === step.text).length;
  if (steps.length === 0) return <p className="card-none">{say("card.no-steps")}</p>;
  return (
    <section className="card-steps">
      <h3>
        <span>
          {steps.length === 1 ? say("card.work-in.one") : say("card.work-in", { count: steps.length })}
        </span>
        <span className="card-count on-screen-only">{say("card.done", { done, count: steps.length })}</span>
      </h3>
      <ol>
        {steps.map((step, place) => {
          const is = ticked[step.id] === step.text;
          return (
            <li key={step.id} className={is ? "card-step is-done" : "card-step"}>
              <label className="card-tick">
                <input
                  type="checkbox"
                  checked={is}
                  disabled={props.locked}
                  aria-label={say("card.step-done", { place: place + 1, text: step.text })}
                  onChange={() => tick(step, !is)}
                />
                <span aria-hidden="true">{place + 1}</span>
              </label>
              <div className="card-step-says">
                <p className="card-says">
                  <PiecesText pieces={step.pieces} onWhy={onWhy} spans={props.doubts?.spans} />
                </p>
                <Meant line={step} before={steps.slice(0, place)} />
                {ticked[step.id] !== undefined && !is && (
                  <p className="card-changed">{say("card.step-changed")}</p>
                )}
                <Reason line={step} onWhy={onWhy} />
                {props.besideStep?.(step, place + 1)}
              </div>
              <p className="card-times">
                {step.takes && (
                  <span>
                    <small>{say("card.work")}</small> {step.takes}
                  </span>
                )}
                {step.waits && (
                  <span className="is-wait">
                    <small>{say("card.wait")}</small> {step.waits}
                  </span>
                )}
              </p>
            </li>
          );
        })}
      </ol>
      <p className="card-totals">
        <span>
          <small>{say("card.all-work")}</small> {minutesWords(totals.takes, say)}
        </span>
        <span>
          <small>{say("card.all-waiting")}</small> {minutesWords(totals.waits, say)}
        </span>
        {totals.untimed > 0 && (
          <span>
            <small>{say("card.untimed")}</small>{" "}
            {totals.untimed === 1 ? say("state.steps.one") : say("state.steps", { count: totals.untimed })}
          </span>
        )}
      </p>
    </section>
  );
}

/** The answers that the card rests on, with the book that made it, so that the card can be worked again. */
function Rests(props: JobCardProps) {
  const { job, title, edition } = props;
  const say = useWords();
  const given = answeredAsks(props.asks, props.answers);
  return (
    <footer className="card-rests">
      <h3>{say("card.rests")}</h3>
      {given.length === 0 ? (
        <p className="card-none">{say("card.nothing-answered")}</p>
      ) : (
        <dl>
          {given.map((ask) => (
            <RestsOn key={ask.name} ask={ask} card={props} />
          ))}
        </dl>
      )}
      <div className="card-end">
        <p className="card-made">
          {edition === undefined ? say("card.made", { title }) : say("card.made-edition", { title, edition })}
          {props.under !== undefined &&
            props.under.length > 0 &&
            ` ${say("card.stands-on", { books: props.under.map((one) => editionText(one, say)).join("; ") })}`}
          {props.print !== undefined && ` ${say("card.print", { print: props.print.slice(0, 12) })}`}
          {restsOnPractice(job) && ` ${say("card.practice")}`}
        </p>
        {props.signed === undefined && (
          <p className="card-signed">
            {say("card.done-by")}
            <i /> {say("card.checked-by")}
            <i />
          </p>
        )}
      </div>
    </footer>
  );
}

/** ", on road-panels, edition 1" behind the name of a layer; "" for a book that stands alone. */
export const stackOn = (under: readonly UnderNamed[] | undefined, say: Say): string =>
  (under ?? []).map((one) => say("card.on-book", { book: editionText(one, say) })).join("");

const editionText = ({ name, edition }: UnderNamed, say: Say): string =>
  edition === undefined ? name : say("card.comma-edition", { title: name, edition });

/** On paper the name stands for the question, so that the card keeps to one page. */
function RestsOn({ ask, card }: { readonly ask: AskView; readonly card: JobCardProps }) {
  const { onWhy, onAsk } = card;
  const say = useWords();
  const text = answerText(ask, card.answers, card.job, say);
  const means = answerMeans(ask, card.answers, card.job);
  return (
    <div>
      <dt>
        <span className="on-screen-only">{ask.question}</span>
        <span className="on-paper-only">{ask.name}</span>
      </dt>
      <dd>
        {onWhy ? (
          <button
            type="button"
            className="piece piece-asks"
            onClick={() => onWhy(ask.name)}
            aria-label={say("card.text-why", { text })}
          >
            {text}
          </button>
        ) : (
          text
        )}
        {means !== "" && <span className="word-means">{means}</span>}
        {onAsk && (
          <button
            type="button"
            className="card-why"
            onClick={() => onAsk(ask.name)}
            aria-label={say("card.change-of", { question: ask.question })}
          >
            {say("ask.change")}
          </button>
        )}
      </dd>
    </div>
  );
}

/** What the words of kinds in a step mean: said where each is met first. */
function Meant({ line, before }: { readonly line: CardLine; readonly before: readonly CardLine[] }) {
  const meaning = useMeaning();
  const told = new Set(before.flatMap((one) => meant(one.pieces, meaning).map(({ word }) => word)));
  const fresh = meant(line.pieces, meaning).filter(({ word }) => !told.has(word));
  if (fresh.length === 0) return null;
  return (
    <p className="card-meant">
      {fresh.map(({ word, means }) => (
        <span key={word}>
          <b>{word}</b> {means}
        </span>
      ))}
    </p>
  );
}

/**
 * The reason and its source, and the way to ask further. Common practice is said once for the whole card, not
 * at every line.
 */
function Reason({ line, onWhy }: { readonly line: CardLine; readonly onWhy?: (name: string) => void }) {
  const say = useWords();
  const source =
    line.basis === undefined || line.basis === "practice" ? undefined : basisWords(line.basis, say);
  const says = [line.because, source === undefined ? undefined : `(${source})`]
    .filter((part) => part)
    .join(" ");
  if (says === "" && onWhy === undefined && line.layer === undefined) return null;
  return (
    <p className="card-reason">
      {says}{" "}
      {line.layer !== undefined && (
        <span className="card-layer">
          <span className="out-of-sight">{say("why.stands-in")} </span>
          {line.layer}
        </span>
      )}{" "}
      {onWhy && (
        <button
          type="button"
          className="card-why is-inline"
          onClick={() => onWhy(line.name ?? line.id)}
          aria-label={say("card.why-line", { text: line.text })}
        >
          {say("card.why")}
        </button>
      )}
    </p>
  );
}
