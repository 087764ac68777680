// Writing statements into the book: new ones below the chosen row, and examples that guard a rule.
import type { Finding, Keyword, UnnoticedView } from "../../../core/view.ts";
import { drawnRows } from "../sheet/layer-rows.ts";
import { firstText } from "../sheet/statement-text.ts";
import { exampleEdit } from "../standing/as-example.ts";
import type { WorkbenchParts } from "./use-workbench.ts";

export interface StatementActions {
  /** Opens a new statement below the chosen row. */
  readonly begin: (keyword: Keyword) => void;
  /** Puts the statement that was being written into the book; undefined drops it. */
  readonly endDraft: (typed: string | undefined) => void;
  /** Writes a worked example that notices a change nothing noticed. */
  readonly addExample: (change: UnnoticedView) => void;
  readonly repair: (finding: Finding) => void;
  /** Makes the first repair offered for the chosen row. */
  readonly repairHere: () => void;
}

export function statementActions(parts: WorkbenchParts): StatementActions {
  const { store, edits, draft, setDraft, filter, chosen, book } = parts;
  /** A new statement is not hidden by the search or the part that it was written under. */
  const unhideChosen = (): void => {
    const { snapshot, chosen: place } = store.state();
    if (snapshot && place && !filter.shows(drawnRows(snapshot.rows), place.row)) filter.clear();
  };
  const addExample = async (change: UnnoticedView): Promise<void> => {
    const outline = change.worked === undefined ? undefined : await store.outline();
    const written =
      outline !== undefined &&
      change.worked !== undefined &&
      (await store.statement(exampleEdit(change.worked, outline.rows)));
    if (written) store.tell(`Wrote a worked example that guards ${change.id}. Undo takes it out.`);
    else store.tell("The example could not be written into the book.", "trouble");
  };
  return {
    begin: (keyword) =>
      setDraft({
        after: chosen.place?.row ?? parts.snapshot?.rows.at(-1)?.id,
        text: firstText(keyword, new Set(book.byName.keys())),
      }),
    endDraft: (typed) => {
      setDraft(undefined);
      if (typed !== undefined) void edits.insert(draft?.after, typed).then(unhideChosen);
    },
    addExample: (change) => void addExample(change),
    repair: (finding) => void edits.repair(finding),
    repairHere: () => {
      const finding = parts.rowFindings.find((one) => one.repairs.length > 0);
      if (finding) void edits.repair(finding);
      else store.tell("No repair is offered for the chosen rule.");
    },
  };
}
