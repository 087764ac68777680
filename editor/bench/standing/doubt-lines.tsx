// What the tolerances of a job leave open, on its card: decisions that may turn, and what to measure again.
import type { AskView, DoubtView } from "../../../core/view.ts";
import "./job-proofs.css";

/** More open decisions than this are counted; one more measurement settles most of them at once. */
const most = 5;

/** Draws nothing where no tolerance is given. */
export function DoubtLines(props: { readonly doubts: DoubtView | undefined; readonly asks: readonly AskView[]; readonly onAsk?: (name: string) => void }) {
  const { doubts, onAsk } = props;
  if (doubts === undefined) return null;
  const again = doubts.measureAgain;
  const question = props.asks.find((ask) => ask.name === again)?.question;
  if (doubts.open.length === 0) return <p className="doubts-none">Within the tolerances given nothing turns: every decision stays as it is.</p>;
  return (
    <section className="doubts">
      <h3>Within the tolerances this may turn</h3>
      <ul>{doubts.open.slice(0, most).map((one) => <li key={one.id}>{sentence(one.says)}</li>)}</ul>
      {doubts.open.length > most && <p>And {doubts.open.length - most} more.</p>}
      {again !== undefined && (
        <p className="doubts-again">
          {onAsk ? <button type="button" className="tap is-soft" onClick={() => onAsk(again)}>Measure {again} again</button> : <b>Measure {again} again</b>}
          {question !== undefined && <span>{question}</span>}
        </p>
      )}
    </section>
  );
}

/** The engine's words begin small; here each is a sentence of its own. What to do about it stands once below. */
const sentence = (says: string): string => {
  const bare = says.replace(/: measure again$/, "");
  return `${bare.charAt(0).toUpperCase()}${bare.slice(1)}.`;
};
