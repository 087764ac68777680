// Asks of which one is enough: those named together behind `first known of` and its like, as long as none of
// them is answered.
import type { Statement } from "../../language/syntax/tree.ts";
import type { Plan } from "../plan/plan.ts";
import type { Evaluation } from "./evaluate.ts";

const found = new WeakMap<Plan, readonly (readonly string[])[]>();

/** Each such group that the job waits for, in the order of the book, as names of asks. */
export function oneOfThese(
  { plan, given }: Evaluation,
  waiting: readonly string[],
): readonly (readonly string[])[] {
  const groups = found.get(plan) ?? groupsOf(plan);
  found.set(plan, groups);
  return groups.filter(
    (group) => group.some((name) => waiting.includes(name)) && !group.some((name) => given.has(name)),
  );
}

function groupsOf({ checked }: Plan): readonly (readonly string[])[] {
  const groups = new Map<string, readonly string[]>();
  const isAsk = (name: string) =>
    checked.entries[checked.byName.get(name) ?? -1]?.statement.body.keyword === "ask";
  for (const { statement } of checked.entries)
    for (const names of namedTogether(statement))
      if (names.length > 1 && names.every(isAsk)) groups.set(names.join(), names);
  return [...groups.values()];
}

const together = new WeakMap<Statement, readonly (readonly string[])[]>();

/** The names behind each `first known of`, `smallest known of` and `largest known of` of a statement. */
function namedTogether(statement: Statement): readonly (readonly string[])[] {
  const known = together.get(statement);
  if (known !== undefined) return known;
  const names: string[][] = [];
  const visit = (part: unknown): void => {
    if (typeof part !== "object" || part === null) return;
    const { is, what, items } = part as { is?: string; what?: string; items?: readonly { name?: string }[] };
    if (is === "of-known" && what !== "count") names.push(items!.map((item) => item.name ?? ""));
    for (const one of Object.values(part)) visit(one);
  };
  if (statement.text.includes("known")) visit([statement.body, statement.clauses]);
  together.set(statement, names);
  return names;
}
