// What was really used: the amounts of the card stand ready to be entered with a lot number, and anything
// else can be added.
import { useId, useState } from "react";
import type { JobRecord, UsedLine } from "../../../core/record.ts";
import { newId } from "../../client/storage/hash-text.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Prefilled } from "./prefilled.ts";

type Entered = Pick<UsedLine, "what" | "amount" | "lot" | "note">;

export interface UsedProps {
  readonly used: readonly UsedLine[];
  readonly ready: readonly Prefilled[];
  /** All jobs of the device: a lot number entered before is offered again. */
  readonly jobs: readonly JobRecord[];
  /** `undefined` takes the line away. */
  readonly onEnter: (line: string, entered: Entered | undefined) => void;
}

export function Used({ used, ready, jobs, onEnter }: UsedProps) {
  const say = useWords();
  const [open, setOpen] = useState<string>();
  const edit = (line: string, from: Entered) => (
    <UsedForm
      from={from}
      lots={lotsOf(jobs, from.what)}
      onEnter={(entered) => {
        onEnter(line, entered);
        setOpen(undefined);
      }}
      onLeave={() => setOpen(undefined)}
    />
  );
  return (
    <section className="panel-part no-print" aria-labelledby="used-heading">
      <h3 id="used-heading">{say("record.used")}</h3>
      {ready.length > 0 && <p className="panel-hint">{say("record.used-hint")}</p>}
      <ul className="used-rows">
        {used.map((line) => (
          <li key={line.line}>
            {open === line.line ? (
              edit(line.line, line)
            ) : (
              <div className="used-row">
                <p>
                  <b>{line.what}</b> {line.amount}
                  {line.lot !== "" && ` · ${say("record.lot")} ${line.lot}`}
                  {line.note !== "" && ` · ${line.note}`}
                </p>
                <button type="button" className="button" onClick={() => setOpen(line.line)}>
                  {say("record.change")}
                  <span className="out-of-sight">: {line.what}</span>
                </button>
                <button type="button" className="button" onClick={() => onEnter(line.line, undefined)}>
                  {say("record.remove")}
                  <span className="out-of-sight">: {line.what}</span>
                </button>
              </div>
            )}
          </li>
        ))}
        {ready.map((line) => (
          <li key={line.line}>
            {open === line.line ? (
              edit(line.line, {
                what: line.what,
                amount: line.amount,
                lot: lotsOf(jobs, line.what)[0] ?? "",
                note: "",
              })
            ) : (
              <div className="used-row is-ready">
                <p>
                  <b>{line.what}</b> {say("record.from-card", { amount: line.amount })}
                </p>
                <button type="button" className="button" onClick={() => setOpen(line.line)}>
                  {say("record.take")}
                  <span className="out-of-sight">: {line.what}</span>
                </button>
              </div>
            )}
          </li>
        ))}
        {open === "new" && <li>{edit(`own ${newId()}`, { what: "", amount: "", lot: "", note: "" })}</li>}
      </ul>
      {open !== "new" && (
        <button type="button" className="button" onClick={() => setOpen("new")}>
          {say("record.add-used")}
        </button>
      )}
    </section>
  );
}

function UsedForm({
  from,
  lots,
  onEnter,
  onLeave,
}: {
  readonly from: Entered;
  readonly lots: readonly string[];
  readonly onEnter: (entered: Entered) => void;
  readonly onLeave: () => void;
}) {
  const say = useWords();
  const [typed, setTyped] = useState<Entered>({
    what: from.what,
    amount: from.amount,
    lot: from.lot,
    note: from.note,
  });
  const offered = useId();
  const field = (key: keyof Entered, label: string, list?: string) => (
    <label className={`used-${key}`}>
      <span className="label">{label}</span>
      <input
        className="field"
        value={typed[key]}
        maxLength={200}
        list={list}
        autoCapitalize={key === "lot" ? "characters" : undefined}
        onChange={(event) => setTyped({ ...typed, [key]: event.currentTarget.value })}
      />
    </label>
  );
  return (
    <form
      className="used-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (typed.what.trim() !== "")
          onEnter({
            what: typed.what.trim(),
            amount: typed.amount.trim(),
            lot: typed.lot.trim(),
            note: typed.note.trim(),
          });
      }}
    >
      {field("what", say("record.what"))}
      {field("amount", say("record.amount"))}
      {field("lot", say("record.lot"), offered)}
      {field("note", say("record.note"))}
      <datalist id={offered}>
        {lots.map((lot) => (
          <option key={lot} value={lot} />
        ))}
      </datalist>
      <button type="submit" className="button main" disabled={typed.what.trim() === ""}>
        {say("record.save")}
      </button>
      <button type="button" className="button" onClick={onLeave}>
        {say("record.cancel")}
      </button>
    </form>
  );
}

/** Lot numbers entered for the same material on this device, the last one first. */
export function lotsOf(jobs: readonly JobRecord[], what: string): readonly string[] {
  const lines = jobs
    .flatMap((job) => job.used)
    .filter((line) => line.lot !== "" && line.what === what)
    .sort((a, b) => b.at - a.at);
  return [...new Set(lines.map((line) => line.lot))].slice(0, 8);
}
