// Which two texts the editions view compares, and which change alone is read at first.
import { useState } from "react";
import type { Pair } from "../editions/rivals.ts";
import { firstPair } from "../editions/rivals.ts";

export interface ComparisonChoice {
  readonly pair: Pair;
  /** The row whose change alone is read at first. */
  readonly onlyRow: string | undefined;
  /** The version of the draft that is among the texts, if it is of the book with this key. */
  readonly version: (key: string) => number | undefined;
  /** Compares the text in the workbench with another; `row` picks one change of it. */
  readonly compareWith: (before: string, row?: string) => void;
  readonly compareVersion: (key: string, version: number) => void;
  readonly setPair: (pair: Pair) => void;
}

export function useComparisonChoice(): ComparisonChoice {
  const [pair, setPair] = useState(firstPair);
  const [onlyRow, setOnlyRow] = useState<string>();
  const [held, setHeld] = useState<{ readonly key: string; readonly version: number }>();
  return {
    pair,
    onlyRow,
    version: (key) => (held?.key === key ? held.version : undefined),
    compareWith: (before, row) => {
      setPair({ after: "bench", before });
      if (row !== undefined) setOnlyRow(row);
    },
    compareVersion: (key, version) => {
      setHeld({ key, version });
      setPair({ after: "bench", before: `version ${version}` });
    },
    setPair: (next) => {
      setOnlyRow(undefined);
      setPair(next);
    },
  };
}
