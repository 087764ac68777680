// The head of the record: what may be said of the book, its figures, and how far the proof is.
import { ProofProgress } from "./proof-progress.tsx";
import { Field } from "./record-parts.tsx";
import { Seal } from "./stamp.tsx";
import type { RecordProps } from "./standing-view.tsx";
import { claim, mayBeSaid, noticedPercent } from "./standing-words.ts";

export function RecordHead({ props, record }: RecordProps) {
  const { snapshot, proving } = props;
  const { view, outdated } = record;
  const said = mayBeSaid(outdated ? undefined : view, snapshot.findings, snapshot.worked);
  return (
    <header className="record-head">
      <div className="record-said">
        <h2 id="record-heading">How the book stands</h2>
        <blockquote className="record-claim">{claim}</blockquote>
        <p className={`record-first is-${said.overall}`}>{said.first}</p>
        <p>{said.then}</p>
        {outdated && (
          <p className="record-note">
            The book has changed since it was last proved. The lines below get their verdicts again one by
            one.
          </p>
        )}
      </div>
      <div className="record-seal">
        <Seal overall={said.overall} />
      </div>
      <RecordFields props={props} record={record} />
      <ProofProgress
        proving={proving}
        text={snapshot.text}
        onStop={props.onStop}
        onGoOn={props.onGoOn}
        onKeep={props.onKeep}
      />
    </header>
  );
}

function RecordFields({ props, record }: RecordProps) {
  const { snapshot, proving } = props;
  const { view, promises, owed } = record;
  const { guard } = proving;
  const proved = (goals: typeof owed): string =>
    view && !record.outdated
      ? `${goals.filter((goal) => goal.verdict === "proved").length} of ${goals.length}`
      : "…";
  return (
    <dl className="record-fields">
      <Field label="Book">{snapshot.name || "without a name"}</Field>
      <Field label="Edition">{snapshot.edition ?? "none"}</Field>
      <Field label="Promises kept">{proved(promises)}</Field>
      <Field label="Owed and kept">{proved(owed)}</Field>
      <Field label="Examples as expected">
        {snapshot.worked.filter((one) => one.passes).length} of {snapshot.worked.length}
      </Field>
      <Field label="Changes noticed">
        {guard && guard.view.tried > 0
          ? `${noticedPercent(guard.view)} %${guard.view.done ? "" : " so far"}`
          : "…"}
      </Field>
    </dl>
  );
}
