// Which rows of the sheet are shown: all of them, one part, or those that a search finds.
import { useMemo, useState } from "react";
import type { Row } from "../../../core/view.ts";
import { useEvent } from "../use-event.ts";
import { filterRows } from "../sheet/filter.ts";

export interface RowFilter {
  readonly find: string;
  readonly part: string;
  /** The rows that are left, in the book's order. */
  readonly rows: readonly Row[];
  readonly setFind: (find: string) => void;
  readonly setPart: (part: string) => void;
  readonly clear: () => void;
  /** Whether a row of these would be shown. */
  readonly shows: (rows: readonly Row[], id: string) => boolean;
}

export function useRowFilter(all: readonly Row[]): RowFilter {
  const [find, setFind] = useState("");
  const [part, setPart] = useState("");
  const rows = useMemo(() => filterRows(all, part, find), [all, part, find]);
  return {
    find,
    part,
    rows,
    setFind,
    setPart,
    clear: useEvent(() => {
      setPart("");
      setFind("");
    }),
    shows: (among, id) => filterRows(among, part, find).some((row) => row.id === id),
  };
}
