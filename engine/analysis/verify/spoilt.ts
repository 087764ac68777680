// Statements whose value no job can show, since they or something that they depend on have a finding. Nothing
// is proved or broken of those: the finding says what there is to say.
import type { Entry } from "../../language/check/book.ts";
import type { Plan } from "../../program/plan/plan.ts";

/** Answers for the names that a statement mentions, whether one of them is spoilt. */
export function spoiltNames(plan: Plan): (names: readonly string[]) => boolean {
  const known = new Map<Entry, boolean>();
  const entryOf = (name: string): Entry | undefined =>
    plan.checked.entries[plan.checked.byName.get(name.replace(/\(\)$/, "")) ?? -1];
  const isSpoilt = (entry: Entry): boolean => {
    const before = known.get(entry);
    if (before !== undefined) return before;
    // Names in a loop come back here.
    known.set(entry, false);
    const spoilt =
      entry.statement.body.keyword === "unreadable" ||
      hasFaultyPart(entry) ||
      anySpoilt(entry.statement.needs);
    known.set(entry, spoilt);
    return spoilt;
  };
  const anySpoilt = (names: readonly string[]): boolean =>
    names.some((name) => {
      const entry = entryOf(name);
      return entry !== undefined && isSpoilt(entry);
    });
  return anySpoilt;
}

/** Whether a part of the statement's rules has a finding of its own. */
export const hasFaultyPart = ({ checked }: Entry): boolean =>
  checked.faults.length > 0 &&
  [checked.rule, checked.when, checked.ask?.take, checked.list, checked.chart?.rows].some(isFaulty);

function isFaulty(part: unknown): boolean {
  if (typeof part !== "object" || part === null) return false;
  if ("does" in part && part.does === "none" && "reason" in part)
    return (part.reason as { readonly code: string }).code === "part-finding";
  return Object.values(part).some(isFaulty);
}
