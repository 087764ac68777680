// What the tolerances of a job leave open, on its card: decisions that may turn, and what to measure again.
import type { AskView, JobView } from "../../core/view.ts";
import { doubtWords } from "../ui/words/engine-words.ts";
import { useWords } from "../ui/words/words.ts";
import { toMeasureAgain } from "./card-facts.ts";
import "./job-proofs.css";

/** More open decisions than this are counted; one more measurement settles most of them at once. */
const most = 5;

/** Draws nothing where no tolerance is given. */
export function DoubtLines(props: {
  readonly job: JobView;
  readonly asks: readonly AskView[];
  readonly onAsk?: (name: string) => void;
}) {
  const { job, onAsk } = props;
  const { doubts } = job;
  const say = useWords();
  if (doubts === undefined) return null;
  const again = props.asks.find((ask) => ask.name === doubts.measureAgain);
  if (doubts.open.length === 0) return <p className="doubts-none">{say("doubt.none")}</p>;
  return (
    <section className="doubts">
      <h3>{say(toMeasureAgain(job) ? "doubt.withheld" : "doubt.heading")}</h3>
      <ul>
        {doubts.open.slice(0, most).map((one) => (
          <li key={one.id}>{doubtWords(one.doubt, say)}</li>
        ))}
      </ul>
      {doubts.open.length > most && <p>{say("doubt.more", { count: doubts.open.length - most })}</p>}
      {again !== undefined && (
        <p className="doubts-again">
          {doubts.turnsAt && <span>{say("doubt.turns-at", doubts.turnsAt)} </span>}
          {onAsk ? (
            <button type="button" className="tap is-soft" onClick={() => onAsk(again.name)}>
              {say("doubt.again", { question: again.question })}
            </button>
          ) : (
            <b>{say("doubt.again", { question: again.question })}</b>
          )}
        </p>
      )}
    </section>
  );
}
