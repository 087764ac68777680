// The marks of the rules that are drawn, asked for in one question and kept: a rule that has not changed is
// never asked for again.
import { useEffect, useRef, useState } from "react";
import type { Row } from "../../../core/view.ts";
import type { Mark } from "../../../engine/index.ts";
import { asStatement, marksOfRule } from "./rule-ink.tsx";

export type AskInks = (statements: readonly string[]) => Promise<readonly (readonly Mark[])[] | undefined>;

/** So many are kept before all are forgotten. */
const most = 20_000;

export function useInks(rows: readonly Row[], ask: AskInks): (row: Row) => readonly Mark[] | undefined {
  const kept = useRef(new Map<string, readonly Mark[]>());
  const asked = useRef(new Set<string>());
  const [, draw] = useState(0);
  const wanted = rows.filter(
    (row) =>
      row.keyword !== "part" &&
      row.rule !== "" &&
      !kept.current.has(asStatement(row)) &&
      !asked.current.has(asStatement(row)),
  );
  useEffect(() => {
    if (wanted.length === 0) return;
    const statements = wanted.map(asStatement);
    for (const statement of statements) asked.current.add(statement);
    void ask(statements).then((inks) => {
      for (const statement of statements) asked.current.delete(statement);
      if (!inks) return;
      if (kept.current.size > most) kept.current.clear();
      wanted.forEach((row, n) => kept.current.set(statements[n] ?? "", marksOfRule(row, inks[n] ?? [])));
      draw((count) => count + 1);
    });
  });
  return (row) => kept.current.get(asStatement(row));
}
