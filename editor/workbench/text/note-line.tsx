// The line below the text: the finding under the cursor with its repair, or what the
// name under the cursor is; and the few things one can do there, each with its keys.
import type { Finding } from "../../../core/view.ts";
import { command, type CommandId } from "./text-commands.ts";
import type { UnderCursor } from "./under-cursor.ts";

export interface NoteLineProps {
  /** Counted from 1. */
  readonly line: number;
  /** The finding to tell, the nearest to the cursor. */
  readonly finding?: Finding;
  /** How many more stand at the same place. */
  readonly more: number;
  readonly findings: number;
  readonly under: UnderCursor;
  readonly readOnly: boolean;
  run(id: CommandId): void;
}

export function NoteLine({ line, finding, more, findings, under, readOnly, run }: NoteLineProps) {
  const repair = finding?.repairs[0];
  return (
    <div className="text-line note-line">
      <span className="note-where label">line {line}</span>
      <div className="note-says" role="status">
        {finding !== undefined ? (
          <div className={`finding ${finding.weight}`}>
            <p>
              {finding.says}
              {more > 0 && <span className="note-more"> And {more} more here.</span>}
            </p>
            {finding.witness !== undefined && <p className="note-witness">For example: {finding.witness}</p>}
            {repair !== undefined && !readOnly && <p className="note-witness">The repair: {repair.says}</p>}
          </div>
        ) : (
          <p className="note-about">{aboutLine(under, findings)}</p>
        )}
      </div>
      <div className="note-actions">
        {repair !== undefined && !readOnly && <Does id="repair" main title={repair.says} run={run} />}
        {under.places !== undefined && <Does id="where-set" run={run} />}
        {under.places !== undefined && !readOnly && <Does id="rename" run={run} />}
        {findings > 0 && <Does id="next-finding" run={run} />}
        <Does id="find" run={run} />
      </div>
    </div>
  );
}

function Does({
  id,
  main = false,
  title,
  run,
}: {
  readonly id: CommandId;
  readonly main?: boolean;
  readonly title?: string;
  run(id: CommandId): void;
}) {
  const { says, keys } = command(id);
  return (
    <button
      type="button"
      className={main ? "button main" : "button"}
      title={title}
      onClick={() => run(id)}
      aria-keyshortcuts={keys.replace("Page ", "Page").replace("Ctrl", "Control").replace("Cmd", "Meta")}
    >
      {/* biome-ignore lint/a11y/noAriaHiddenOnFocusable: a kbd takes no focus. */}
      {says} <kbd aria-hidden="true">{keys}</kbd>
    </button>
  );
}

function aboutLine({ places, about }: UnderCursor, findings: number): string {
  if (about !== undefined) return [about.name, ...about.lines.slice(0, 2)].join(" · ");
  if (places !== undefined)
    return `${places.name} stands in ${places.all.length} ${places.all.length === 1 ? "place" : "places"}`;
  if (findings === 0) return "Nothing found in this book.";
  return findings === 1 ? "One finding in this book." : `${findings} findings in this book.`;
}
