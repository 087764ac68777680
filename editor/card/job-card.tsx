// The job card: what stops the job, what to beware of, the work in order with its amounts and times, and what
// it all rests on. Made for screen and paper.
import type { Signed } from "../../core/record.ts";
import type { Answers, AskView, CardLine, JobView } from "../../core/view.ts";
import type { Ticked } from "../client/storage/stored-work.ts";
import { StateMark } from "../ui/parts/state-mark.tsx";
import { stateMeans } from "../ui/parts/state-words.ts";
import { useWords } from "../ui/words/words.ts";
import type { UnderNamed } from "./book-stack.ts";
import { stackOn } from "./book-stack.ts";
import { Cautions, Impossible, Stops, Waiting } from "./card-parts.tsx";
import { RestsOn } from "./card-answers.tsx";
import { Steps } from "./card-steps.tsx";
import { toMeasureAgain } from "./card-facts.ts";
import { DoubtLines } from "./doubt-lines.tsx";
import { useLater } from "./use-lazy-parts.ts";
// In this order: later rules win over earlier ones.
import "./job-card.css";
import "./card-steps.css";
import "./card-paper.css";

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
          {props.signed ? (
            <b>{say("card.signed-by", { name: props.signed.name })}</b>
          ) : (
            <span>{stateMeans(job.state, say)}</span>
          )}
        </p>
        <p className="card-paper">
          {say("card.job")} {props.jobName ? <b>{props.jobName}</b> : <i />} {say("card.date")}
          <i className="is-short" />
        </p>
      </header>
      <p className="card-defers">{say("card.defers")}</p>
      {job.stops.length > 0 && <Stops stops={job.stops} onWhy={onWhy} />}
      {job.state === "impossible" && <Impossible job={job} asks={props.asks} onWhy={onWhy} />}
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
      {job.cautions.length > 0 && <Cautions cautions={job.cautions} asks={props.asks} onWhy={onWhy} />}
      <DoubtLines job={job} asks={props.asks} onAsk={props.onAsk} />
      {job.state === "waiting" && !toMeasureAgain(job) && <Waiting {...props} />}
      {job.state === "ready" && <Steps {...props} />}
      {later && <later.Drawings job={job} />}
      {props.onCard}
      <RestsOn {...props} />
    </section>
  );
}
