// Edits of rows that belong to a book underneath: they are amended or dropped by statements of the own text.
import type { WorkbenchParts } from "./use-workbench.ts";
import { amendedBy, dropText } from "../sheet/layer-rows.ts";

export interface LayerEdits {
  /** Opens what amends a row: its rule, its chart, or a whole statement. */
  readonly amendRow: (id: string) => void;
  /** Opens a whole statement that replaces a row. */
  readonly amendWhole: (id: string) => void;
  /** Removes an own row; drops a row of a book underneath. */
  readonly remove: (id: string) => void;
}

export function layerEdits(parts: WorkbenchParts): LayerEdits {
  const { store, edits, book, panel, calls, setDraft } = parts;
  const amendWhole = async (id: string): Promise<void> => {
    const text = await store.ask((engine) => engine.insteadOf(parts.state.desk.text, id));
    if (text === undefined) store.tell("This cannot be written anew here. It can be left out with Drop.");
    else setDraft({ after: id, text });
  };
  const keptThere = (layer: string): void =>
    store.tell(`This stands in ${layer} and is kept as it is there.`);
  return {
    amendWhole: (id) => void amendWhole(id),
    amendRow: (id) => {
      const under = book.byId.get(id);
      if (under === undefined) return;
      switch (amendedBy(under)) {
        case "chart":
          panel.show({ is: "chart", name: under.name ?? "" });
          return;
        case "rule":
          store.choose({ row: id, column: "rule" });
          calls.openAmend();
          return;
        case "statement":
          void amendWhole(id);
          return;
        case "not":
          keptThere(under.layer);
          return;
      }
    },
    remove: (id) => {
      const row = book.byId.get(id);
      if (row === undefined || row.own) {
        void edits.remove(id);
        return;
      }
      const drop = dropText(row);
      if (drop === undefined) keptThere(row.layer);
      // Where the language wants a reason the statement is left open for it.
      else if (drop.because) setDraft({ after: id, text: drop.text, caret: drop.text.length - 1 });
      else {
        const says = `${row.keyword} ${row.name ?? ""} is left out here; ${row.layer} keeps it.`;
        void edits.insert(id, drop.text).then(() => store.tell(`${says} Undo brings it back.`));
      }
    },
  };
}
