// The part of the record that lists what no job reaches.
import { NothingProved, Settled } from "./record-parts.tsx";
import type { RecordProps } from "./standing-view.tsx";

export function NeverReached({ props, record }: RecordProps) {
  const { view } = record;
  if (view === undefined) return <NothingProved />;
  if (view.never.length === 0)
    return view.done ? (
      <Settled>
        Every row, alternative and line is reached by some job, or it is not settled whether it is.
      </Settled>
    ) : (
      <p className="record-note">Nothing so far.</p>
    );
  return (
    <ul className="never">
      {view.never.map((one) => (
        <li key={`${one.at.start} ${one.says}`}>
          <span className="never-mark" aria-hidden="true" />
          <p>
            {one.says}
            {record.layerOf(one.id) !== undefined && ` (${record.layerOf(one.id)!})`}
          </p>
          <button
            type="button"
            className="button bare"
            onClick={() => props.onGo(one.id, record.outdated ? undefined : one.at)}
          >
            Go there<span className="out-of-sight">: {one.says}</span>
          </button>
        </li>
      ))}
    </ul>
  );
}
