// What opening a cell of the sheet does: its text is edited, its chart or its why is opened, or a sentence
// says why it cannot be edited. A book underneath is never written into: an edit of its row is an own
// statement.
import type { Row } from "../../../core/view.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import type { Column } from "./cell-steps.ts";
import { amendFirst, amendedBy } from "./layer-rows.ts";
import { editedSpan } from "./statement-text.ts";

export type Opening =
  /** The text of this column is edited, beginning with `first`. */
  | { readonly does: "edit"; readonly column: Column; readonly first: string }
  | { readonly does: "open-why" }
  | { readonly does: "open-chart"; readonly name: string }
  | { readonly does: "amend-whole" }
  | { readonly does: "refuse"; readonly says: string };

export interface OpeningContext {
  readonly text: string;
  readonly jobs: readonly JobTag[];
  readonly readOnly: boolean;
  /** Typed over the cell: it takes the place of the answer. */
  readonly typed?: string;
}

const refuse = (says: string): Opening => ({ does: "refuse", says });

export function openingOf(row: Row, column: Column, context: OpeningContext): Opening {
  if (typeof column === "object" && row.keyword !== "ask") return { does: "open-why" };
  if (context.readOnly) return refuse("Another tab is editing this book.");
  if (typeof column === "object") {
    const answers = context.jobs.find((one) => one.id === column.job)?.answers;
    return { does: "edit", column, first: context.typed ?? answers?.[row.name ?? ""] ?? "" };
  }
  return row.own ? ownOpening(row, column, context.text) : amendOpening(row, column);
}

function ownOpening(row: Row, column: "name" | "rule" | "basis", text: string): Opening {
  // A statement without a name is edited by its rule.
  const edited = column === "name" && !row.nameAt && row.keyword !== "part" ? "rule" : column;
  if (edited === "rule" && row.keyword === "chart") return { does: "open-chart", name: row.name ?? "" };
  if (edited === "name" && row.keyword !== "part")
    return { does: "edit", column: edited, first: row.name ?? "" };
  if (edited === "basis") return { does: "edit", column: edited, first: row.basis ?? "" };
  const at = editedSpan(text, row);
  return { does: "edit", column: edited, first: text.slice(at.start, at.end) };
}

function amendOpening(row: Row, column: "name" | "rule" | "basis"): Opening {
  if (column === "name" && row.name !== undefined)
    return refuse(`Its name is given in ${row.layer}. Its rule can be amended here.`);
  switch (amendedBy(row)) {
    case "rule":
      return column === "basis"
        ? { does: "amend-whole" }
        : { does: "edit", column: "rule", first: amendFirst(row) };
    case "chart":
      return column === "basis"
        ? refuse(`Its basis stands in ${row.layer}.`)
        : { does: "open-chart", name: row.name ?? "" };
    case "statement":
      return { does: "amend-whole" };
    case "not":
      return refuse(`This stands in ${row.layer} and is kept as it is there.`);
  }
}
