// The book as last read, looked up by name and id: for the sheet's rows, the panels and the toolbar.
import { useMemo } from "react";
import type { Finding, KindView, Row } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { drawnRows } from "../sheet/layer-rows.ts";
import { withWords } from "../sheet/shown-row.ts";

export interface BookIndex {
  /** Rows that the sheet can draw, in the book's order. */
  readonly rows: readonly Row[];
  /** Titles of the parts, each once. */
  readonly parts: readonly string[];
  readonly byId: ReadonlyMap<string, Row>;
  readonly byName: ReadonlyMap<string, Row>;
  readonly errors: number;
  readonly warnings: number;
}

const noRows: readonly Row[] = [];
const noKinds: readonly KindView[] = [];

export function useBookIndex(snapshot: Snapshot | undefined): BookIndex {
  const rows = snapshot?.rows ?? noRows;
  const kinds = snapshot?.kinds ?? noKinds;
  const ofRows = useMemo(
    () => ({
      parts: [...new Set(rows.filter((row) => row.keyword === "part").map((row) => row.title))],
      byId: new Map(rows.map((row) => [row.id, row])),
      byName: new Map(rows.flatMap((row) => (row.name === undefined ? [] : [[row.name, row] as const]))),
    }),
    [rows],
  );
  const drawn = useMemo(() => withWords(drawnRows(rows), kinds), [rows, kinds]);
  const countOf = (weight: Finding["weight"]): number =>
    snapshot?.findings.filter((finding) => finding.weight === weight).length ?? 0;
  return { ...ofRows, rows: drawn, errors: countOf("error"), warnings: countOf("warning") };
}
