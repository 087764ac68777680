// How far the proof is, drawn as a rule that is filled from the left, with the ways to stop it and to go on.
import type { ProvingState } from "../../client/engine/proof-client.ts";

export function ProofProgress(props: {
  readonly proving: ProvingState;
  readonly text: string;
  readonly onStop: () => void;
  readonly onGoOn: () => void;
  readonly onKeep: (keep: boolean) => void;
}) {
  const { proving, text } = props;
  const { standing, guard } = proving;
  const fresh = standing?.text === text ? standing : undefined;
  const freshGuard = guard?.text === text ? guard : undefined;
  const goes =
    proving.wanted !== undefined &&
    proving.trouble === undefined &&
    !(fresh?.view.done && freshGuard?.view.done);
  const guarding = fresh?.view.done === true;
  const [settled, all] = guarding
    ? [freshGuard?.view.tried ?? 0, freshGuard?.view.all ?? 0]
    : [fresh?.view.settled ?? 0, fresh?.view.all ?? 0];
  return (
    <div className="progress no-print">
      <div className="progress-says">
        <p role="status">
          {wordsFor({
            goes,
            guarding,
            fresh: fresh !== undefined,
            done: fresh?.view.done === true && freshGuard?.view.done === true,
            trouble: proving.trouble,
            stopped: proving.stopped === text,
          })}
        </p>
        {goes && all > 0 && (
          <p className="progress-count">
            {settled} of {all}
          </p>
        )}
      </div>
      {goes && (
        <progress
          className="progress-rule"
          aria-label={guarding ? "Small changes tried" : "Settled"}
          max={Math.max(all, 1)}
          value={settled}
        />
      )}
      <span className="progress-does">
        {goes ? (
          <button type="button" className="button" onClick={props.onStop}>
            Stop
          </button>
        ) : (
          (proving.stopped === text || proving.trouble !== undefined) && (
            <button type="button" className="button" onClick={props.onGoOn}>
              Go on
            </button>
          )
        )}
        <label className="progress-keep">
          <input
            type="checkbox"
            checked={proving.keep}
            onChange={(event) => props.onKeep(event.target.checked)}
          />{" "}
          Keep proving while I edit
        </label>
      </span>
    </div>
  );
}

function wordsFor(at: {
  readonly goes: boolean;
  readonly guarding: boolean;
  readonly fresh: boolean;
  readonly done: boolean;
  readonly trouble: string | undefined;
  readonly stopped: boolean;
}): string {
  if (at.trouble !== undefined) return "The proof broke off. Your text is kept.";
  if (at.done) return "All is looked at.";
  if (at.stopped) return "Stopped. What is settled stays.";
  if (!at.goes) return "Not begun.";
  if (at.guarding) return "All is settled. Now small changes are tried against the examples.";
  return at.fresh ? "Looking at all jobs at once." : "Reading the book as it is now.";
}
