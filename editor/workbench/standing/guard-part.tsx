// How the worked examples guard the book: what none of them reaches, and small changes to a rule that none of
// them notices.
import { useState } from "react";
import type { Span } from "../../../core/span.ts";
import type { MutationTestView, Row, UnnoticedView } from "../../../core/view.ts";
import { Answered } from "./goal-line.tsx";
import { count, noticedPercent, rowWords } from "./standing-words.ts";

export interface GuardPartProps {
  readonly guard: MutationTestView | undefined;
  readonly running: boolean;
  /** The view is of the text as it was before the last edit. */
  readonly old: boolean;
  readonly rowById: (id: string) => Row | undefined;
  readonly readOnly: boolean;
  readonly onGo: (id: string, at?: Span) => void;
  readonly onLay: (change: UnnoticedView) => void;
  readonly onExample: (change: UnnoticedView) => void;
}

/** Lists longer than this are cut, and the rest is shown when asked for. */
const page = 12;

export function GuardPart(props: GuardPartProps) {
  const { guard, rowById } = props;
  const [shown, setShown] = useState(page);
  if (guard === undefined)
    return (
      <p className="record-note">
        {props.running ? "This is tried once the rest is settled." : "Not tried yet."}
      </p>
    );
  return (
    <div className="guard">
      <p>
        Each rule is changed by one small step (a limit moved, a comparison turned, a row dropped), and the
        examples are worked again. A change that no example notices could slip into the book unseen.{" "}
        <b>
          {count(guard.tried, "change", "changes")} tried{guard.done ? "" : ` of ${guard.all}`};{" "}
          {guard.noticed} noticed ({noticedPercent(guard)} %).
        </b>
        {!guard.done && (props.running ? " The rest is being tried." : " The rest is not tried.")}
        {props.old && " This is how it was before the last edit."}
      </p>
      {guard.unnoticed.length > 0 && (
        <>
          <h4>Not noticed by any example</h4>
          <ol className="unnoticed">
            {guard.unnoticed.slice(0, shown).map((change) => {
              const row = rowById(change.id);
              return (
                <li key={change.says}>
                  <p>
                    {change.says}
                    {row && (
                      <button
                        type="button"
                        className="link"
                        onClick={() => props.onGo(change.id, props.old ? undefined : change.at)}
                      >
                        Go there<span className="out-of-sight">: {rowWords(row)}</span>
                      </button>
                    )}
                  </p>
                  {change.job ? (
                    <>
                      <p className="goal-job-head">A job in which it comes out otherwise</p>
                      <Answered answers={change.job} />
                    </>
                  ) : (
                    <p className="record-note">
                      No job was found in which it comes out otherwise: it may make no difference.
                    </p>
                  )}
                  {change.job && (
                    <span className="unnoticed-does">
                      {change.worked !== undefined && (
                        <button
                          type="button"
                          className="button"
                          disabled={props.readOnly}
                          onClick={() => props.onExample(change)}
                        >
                          Make it an example
                        </button>
                      )}
                      <button type="button" className="button bare" onClick={() => props.onLay(change)}>
                        Lay it alongside
                      </button>
                    </span>
                  )}
                </li>
              );
            })}
          </ol>
          {guard.unnoticed.length > shown && (
            <button type="button" className="button" onClick={() => setShown(shown + 40)}>
              {guard.unnoticed.length - shown} more
            </button>
          )}
        </>
      )}
      {guard.unreached.length > 0 && (
        <details className="owed-all">
          <summary>{notReached(guard.unreached.length)} reached by no worked example</summary>
          <ul>
            {guard.unreached.map((one) => (
              <li key={`${one.at.start} ${one.says}`}>
                <button
                  type="button"
                  className="link"
                  onClick={() => props.onGo(one.id, props.old ? undefined : one.at)}
                >
                  {one.says}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
      {guard.done && guard.unnoticed.length === 0 && <p>Every small change that was tried is noticed.</p>}
    </div>
  );
}

const notReached = (many: number): string =>
  count(many, "row, alternative or line is", "rows, alternatives and lines are");
