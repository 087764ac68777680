// What stands on a job card instead of the work or before it: stops, cautions, what it waits for, why there
// is no work. And the reason that any line of it has.
import type { AskView, CardLine, JobView } from "../../core/view.ts";
import { PiecesText } from "../ui/parts/pieces-text.tsx";
import { basisWords } from "../ui/parts/state-words.ts";
import { reasonWords } from "../ui/words/engine-words.ts";
import { type Say, useWords } from "../ui/words/words.ts";
import { reasons } from "./card-facts.ts";

type OnWhy = (name: string) => void;

export function Stops({ stops, onWhy }: { readonly stops: readonly CardLine[]; readonly onWhy?: OnWhy }) {
  const say = useWords();
  const word = say(stops.every((stop) => stop.refers) ? "card.refer" : "card.stop");
  return (
    <section className="card-stops">
      <div className="card-stops-inside">
        <h3>
          <span>{word}</span> {say("card.withheld")}
        </h3>
        <ul>
          {stops.map((stop) => (
            <li key={stop.id}>
              <p className="card-says">
                <PiecesText pieces={stop.pieces} onWhy={onWhy} />
              </p>
              {stop.thenPieces && (
                <p className="card-says">
                  {say("card.then")} <PiecesText pieces={stop.thenPieces} onWhy={onWhy} />
                </p>
              )}
              <Reason line={stop} onWhy={onWhy} />
            </li>
          ))}
        </ul>
      </div>
    </section>
  );
}

interface CautionsProps {
  readonly cautions: readonly CardLine[];
  readonly asks: readonly AskView[];
  readonly onWhy?: OnWhy;
}

/** Cautions that apply, and those that may: of these it names the questions that are still open. */
export function Cautions({ cautions, asks, onWhy }: CautionsProps) {
  const say = useWords();
  return (
    <section className="card-cautions">
      <h3>{say("card.cautions")}</h3>
      <ul>
        {cautions.map((caution) => (
          <li key={caution.id}>
            <p className="card-says">
              {caution.mayApply && <b>{mayApplyWords(caution.mayApply, asks, say)} </b>}
              <PiecesText pieces={caution.pieces} onWhy={onWhy} />
            </p>
            <Reason line={caution} onWhy={onWhy} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function mayApplyWords(waitsFor: readonly string[], asks: readonly AskView[], say: Say): string {
  const questions = waitsFor.map((name) => asks.find((ask) => ask.name === name)?.question ?? name);
  return say("card.may-apply", { questions: questions.join(" · ") });
}

interface WaitingProps {
  readonly job: JobView;
  readonly asks: readonly AskView[];
  /** Takes up a question; without it the questions are only listed. */
  readonly onAsk?: (name: string) => void;
}

export function Waiting({ job, asks, onAsk }: WaitingProps) {
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
      {job.oneOf?.map((group) => (
        <p key={group.join()}>
          {say("card.one-of", {
            questions: group
              .map((name) => asks.find((ask) => ask.name === name)?.question ?? name)
              .join(" · "),
          })}
        </p>
      ))}
    </section>
  );
}

interface ImpossibleProps {
  readonly job: JobView;
  readonly asks: readonly AskView[];
  readonly onWhy?: OnWhy;
}

/**
 * Why there is no work. Of an answer that cannot be used it names the question, so that it can be answered
 * again.
 */
export function Impossible({ job, asks, onWhy }: ImpossibleProps) {
  const say = useWords();
  return (
    <section className="card-impossible">
      <h3>{say("card.impossible")}</h3>
      <ul>
        {reasons(job).map(({ says, cause, of }) => (
          <li key={says}>
            <p className="card-says">
              {questionOf(job, asks, says)} {reasonWords(cause, says, say)}
            </p>
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

/** The question whose answer cannot be used for this reason. */
function questionOf(job: JobView, asks: readonly AskView[], says: string): React.ReactNode {
  const finding = job.findings.find((one) => one.says === says);
  const ask = finding && asks.find(({ name }) => name === finding.ask);
  return ask && <b>{ask.question}</b>;
}

/**
 * The reason and its source, and the way to ask further. Common practice is said once for the whole card, not
 * at every line.
 */
export function Reason({ line, onWhy }: { readonly line: CardLine; readonly onWhy?: OnWhy }) {
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
