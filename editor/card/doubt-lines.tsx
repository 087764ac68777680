// What the tolerances of a job leave open, on its card: decisions that may turn, and what to measure again.
import type { AskView, JobView, OpenDecision } from "../../core/view.ts";
import { type Say, useWords } from "../ui/words/words.ts";
import { toMeasureAgain } from "./card-facts.ts";
import { type Meaning, useMeaning } from "./meanings.ts";
import "./job-proofs.css";

/** Draws nothing where no tolerance is given. */
export function DoubtLines(props: {
  readonly job: JobView;
  readonly asks: readonly AskView[];
  readonly onAsk?: (name: string) => void;
}) {
  const { job, onAsk } = props;
  const { doubts } = job;
  const say = useWords();
  const meaning = useMeaning();
  if (doubts === undefined) return null;
  const again = props.asks.find((ask) => ask.name === doubts.measureAgain);
  if (doubts.open.length === 0) return <p className="doubts-none">{say("doubt.none")}</p>;
  return (
    <section className="doubts">
      <h3>{say(toMeasureAgain(job) ? "doubt.withheld" : "doubt.heading")}</h3>
      <ul>
        {doubtLines(doubts.open, meaning, say).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
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

/**
 * Stops by their texts, words by what they mean, and how many steps follow. A caution that turns stands among
 * the cautions. No name of the book's language is for a technician to read.
 */
export function doubtLines(open: readonly OpenDecision[], meaning: Meaning, say: Say): readonly string[] {
  const stops = open.flatMap(({ text }) => (text === undefined ? [] : [say("doubt.stop", { text })]));
  const words = open.flatMap(({ doubt }) => {
    if (doubt.code !== "may-be") return [];
    const may = doubt.words.map((word) => meaning(doubt.name, word) || word);
    return [say("doubt.word", { words: may.join(` ${say("doubt.or")} `) || say("doubt.another") })];
  });
  const count = open.filter(({ id }) => id.startsWith("step ")).length;
  const steps = count === 0 ? [] : [count === 1 ? say("doubt.steps.one") : say("doubt.steps", { count })];
  return [...new Set([...stops, ...words, ...steps])];
}
