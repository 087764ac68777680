// The token colours of the rules that are drawn, requested together and cached: a rule that has not changed
// is never requested again.
import { useEffect, useRef, useState } from "react";
import type { Row } from "../../../core/view.ts";
import type { Mark } from "../../../engine/index.ts";
import { asStatement, marksOfRule } from "./coloured-rule.tsx";

export type RequestColours = (
  statements: readonly string[],
) => Promise<readonly (readonly Mark[])[] | undefined>;

/** The cache is emptied when it holds so many. */
const most = 20_000;

export function useTokenColours(
  rows: readonly Row[],
  request: RequestColours,
): (row: Row) => readonly Mark[] | undefined {
  const cache = useRef(new Map<string, readonly Mark[]>());
  const pending = useRef(new Set<string>());
  const [, draw] = useState(0);
  const wanted = rows.filter(
    (row) =>
      row.keyword !== "part" &&
      row.rule !== "" &&
      !cache.current.has(asStatement(row)) &&
      !pending.current.has(asStatement(row)),
  );
  useEffect(() => {
    if (wanted.length === 0) return;
    const statements = wanted.map(asStatement);
    for (const statement of statements) pending.current.add(statement);
    void request(statements).then((colours) => {
      for (const statement of statements) pending.current.delete(statement);
      if (!colours) return;
      if (cache.current.size > most) cache.current.clear();
      wanted.forEach((row, n) => cache.current.set(statements[n] ?? "", marksOfRule(row, colours[n] ?? [])));
      draw((count) => count + 1);
    });
  });
  return (row) => cache.current.get(asStatement(row));
}
