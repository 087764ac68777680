// The worked examples in the record: how many come out as expected, and those that do not.
import { useState } from "react";
import type { Row, WorkedView } from "../../../core/view.ts";
import { Settled } from "./record-parts.tsx";
import { Stamp } from "./stamp.tsx";
import type { StandingViewProps } from "./standing-view.tsx";
import { count } from "./standing-words.ts";

const atFirst = 6;
const more = 40;

export function Examples(props: {
  readonly worked: readonly WorkedView[];
  readonly rows: readonly Row[];
  readonly onGo: (id: string) => void;
  readonly onLay: StandingViewProps["onLay"];
}) {
  const { worked } = props;
  const [shown, setShown] = useState(atFirst);
  const failing = worked.filter((one) => !one.passes);
  const idOf = (name: string): string | undefined =>
    props.rows.find((row) => row.keyword === "worked" && row.name === name)?.id;
  if (worked.length === 0) return <p className="record-note">The book has no worked examples.</p>;
  if (failing.length === 0)
    return (
      <Settled>
        {worked.length === 1 ? "The 1 worked example comes" : `All ${worked.length} worked examples come`} out
        as expected.
      </Settled>
    );
  return (
    <>
      <p>
        {worked.length - failing.length} of {count(worked.length, "worked example", "worked examples")} come
        out as expected. These do not:
      </p>
      <ul className="goals">
        {failing.slice(0, shown).map((one) => (
          <FailingExample
            key={one.name}
            example={one}
            id={idOf(one.name)}
            onGo={props.onGo}
            onLay={props.onLay}
          />
        ))}
      </ul>
      {failing.length > shown && (
        <button type="button" className="button" onClick={() => setShown(shown + more)}>
          {failing.length - shown} more
        </button>
      )}
    </>
  );
}

function FailingExample(props: {
  readonly example: WorkedView;
  /** Its row; undefined where it is not in the sheet. */
  readonly id: string | undefined;
  readonly onGo: (id: string) => void;
  readonly onLay: StandingViewProps["onLay"];
}) {
  const { example, id } = props;
  const failed = example.expects.filter((expect) => !expect.holds);
  return (
    <li className="goal is-broken">
      <span className="goal-verdict">
        <Stamp verdict="broken" />
        <span>Fails</span>
      </span>
      <div className="goal-says">
        <p>
          <b>{example.name}</b> {example.title}
        </p>
        <ul>
          {failed.map((expect) => (
            <li key={expect.what}>
              {expect.what}: wanted {expect.wanted}, comes out {expect.got}
            </li>
          ))}
        </ul>
        {failed.length === 0 && <p>Its values come out, but it breaks a promise of the book.</p>}
        {id !== undefined && (
          <button
            type="button"
            className="button"
            onClick={() => props.onLay(example.answers, example.name, id)}
          >
            Lay it alongside
          </button>
        )}
      </div>
      {id !== undefined && (
        <button type="button" className="button bare goal-go" onClick={() => props.onGo(id)}>
          Go there<span className="out-of-sight">: worked {example.name}</span>
        </button>
      )}
    </li>
  );
}
