// The line above the sheet: finding and filtering, what can be done with the chosen statement, and the change
// not accepted yet.
import type { Ref } from "react";
import type { Keyword, Row } from "../../core/view.ts";
import type { Snapshot } from "../client/engine/messages.ts";
import { cellOf, textOfCell } from "./sheet/cells.ts";
import { amendedBy, dropText } from "./sheet/layer-rows.ts";
import type { JobTag } from "../client/storage/stored-work.ts";

const newWords: readonly Keyword[] = [
  "figure",
  "dial",
  "ask",
  "chart",
  "kind",
  "formula",
  "list",
  "step",
  "caution",
  "stop",
  "promise",
  "part",
  "worked",
  "picture",
];

interface ToolbarProps {
  readonly find: string;
  readonly findField: Ref<HTMLInputElement>;
  readonly found: number;
  readonly part: string;
  readonly parts: readonly string[];
  readonly chosen: Row | undefined;
  readonly changed: { readonly rules: number; readonly values: number } | undefined;
  readonly slow: boolean;
  readonly onFind: (text: string) => void;
  readonly onFound: () => void;
  readonly onPart: (part: string) => void;
  readonly onNew: (keyword: Keyword) => void;
  readonly onShift: (by: -1 | 1) => void;
  readonly onToPart: (part: string) => void;
  readonly onRemove: () => void;
  /** A row underneath takes another rule here. */
  readonly onAmend: () => void;
  readonly onAccept: () => void;
  readonly onPutBack: () => void;
}

export function Toolbar(props: ToolbarProps) {
  const { changed } = props;
  return (
    <div className="toolbar" role="toolbar" aria-label="The sheet">
      <FindField {...props} />
      <select
        className="field tool-part"
        aria-label="Show the part"
        value={props.part}
        onChange={(event) => props.onPart(event.target.value)}
      >
        <option value="">All parts</option>
        {props.parts.map((part) => (
          <option key={part}>{part}</option>
        ))}
      </select>
      <select
        className="field tool-new"
        aria-label="New statement below the chosen one"
        value=""
        onChange={(event) => {
          const word = newWords.find((one) => one === event.target.value);
          if (word) props.onNew(word);
        }}
      >
        <option value="">New…</option>
        {newWords.map((word) => (
          <option key={word}>{word}</option>
        ))}
      </select>
      <ChosenTools {...props} />
      <span className="tool-change" aria-live="polite">
        {props.slow && <span className="working">Working it out…</span>}
        {changed && (
          <>
            <span className="change-count">
              <Delta /> {countWords(changed)}
            </span>
            <button type="button" className="button" onClick={props.onPutBack}>
              Put back
            </button>
            <button type="button" className="button main" onClick={props.onAccept}>
              Accept the change
            </button>
          </>
        )}
      </span>
    </div>
  );
}

function FindField(props: ToolbarProps) {
  return (
    <span className="tool-find">
      <input
        ref={props.findField}
        className="field"
        type="search"
        aria-label="Find in names, rules and questions"
        placeholder="Find a rule"
        value={props.find}
        onChange={(event) => props.onFind(event.target.value)}
        onKeyDown={(event) => {
          if (event.key === "Enter" || event.key === "ArrowDown") {
            event.preventDefault();
            props.onFound();
          }
          if (event.key === "Escape") {
            props.onFind("");
            props.onFound();
          }
        }}
      />
      {props.find !== "" && (
        <span className="tool-found" role="status">
          {props.found} found
        </span>
      )}
    </span>
  );
}

/** What can be done with the chosen statement. */
function ChosenTools(props: ToolbarProps) {
  const { chosen } = props;
  const under = chosen !== undefined && !chosen.own;
  const moves = chosen !== undefined && chosen.keyword !== "book" && !under;
  return (
    <span className="tool-row" role="group" aria-label="The chosen statement">
      <button
        type="button"
        className="button bare tool-move"
        disabled={!moves}
        onClick={() => props.onShift(-1)}
      >
        Up
      </button>
      <button
        type="button"
        className="button bare tool-move"
        disabled={!moves}
        onClick={() => props.onShift(1)}
      >
        Down
      </button>
      <select
        className="field tool-move"
        aria-label="Move the chosen statement to a part"
        disabled={!moves || chosen.keyword === "part"}
        value=""
        onChange={(event) => props.onToPart(event.target.value)}
      >
        <option value="">To part…</option>
        {props.parts
          .filter((part) => part !== chosen?.part)
          .map((part) => (
            <option key={part}>{part}</option>
          ))}
      </select>
      {under && amendedBy(chosen) !== "not" && (
        <button type="button" className="button" onClick={props.onAmend}>
          Amend here
        </button>
      )}
      {under ? (
        <button
          type="button"
          className="button bare"
          disabled={dropText(chosen) === undefined}
          onClick={props.onRemove}
        >
          Drop for this yard
        </button>
      ) : (
        <button type="button" className="button bare" disabled={!moves} onClick={props.onRemove}>
          {chosen?.was === undefined ? "Remove" : "Back to the book underneath"}
        </button>
      )}
    </span>
  );
}

/** How many rules and values differ from the accepted ones; undefined while none do. */
export function countChanges(
  snapshot: Snapshot,
  jobs: readonly JobTag[],
): { readonly rules: number; readonly values: number } | undefined {
  const { before } = snapshot;
  if (!before) return undefined;
  const added = new Set(before.added);
  let values = 0;
  for (const row of snapshot.rows) {
    if (added.has(row.id)) continue;
    for (const job of jobs) {
      const view = snapshot.jobs[job.id];
      const old = before.jobs[job.id];
      if (view && old && textOfCell(cellOf(row, job, view)) !== textOfCell(cellOf(row, job, old)))
        values += 1;
    }
  }
  // A heading that came along with a rule is none itself.
  const headings = new Set(snapshot.rows.filter((row) => row.keyword === "part").map((row) => row.id));
  const rules =
    Object.keys(before.rules).length +
    before.added.filter((id) => !headings.has(id)).length +
    before.gone.length;
  return { rules: rules === 0 ? before.added.length : rules, values };
}

function countWords({ rules, values }: { readonly rules: number; readonly values: number }): string {
  if (rules === 0) return "Only spacing or comments changed";
  const moved = values === 0 ? "no value moved" : `${values} ${values === 1 ? "value" : "values"} moved`;
  return `${rules} ${rules === 1 ? "rule" : "rules"} changed, ${moved}`;
}

/** The triangle that marks a revision on a drawing. */
const Delta = () => (
  <svg viewBox="0 0 14 12" width="14" height="12" aria-hidden="true">
    <path d="M7 1l6 10H1z" fill="none" stroke="currentColor" strokeWidth="1.4" />
  </svg>
);
