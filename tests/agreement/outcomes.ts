// What a job does or does not, over any domain: breaks a promise, reaches a row, or falls short of what every
// book owes.
import type { Domain, Value } from "./domain.ts";
import { logicOf } from "./logic.ts";
import type { Meaning } from "./meaning.ts";
import type { SmallBook } from "./syntax.ts";

export type Outcome = <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>) => B;

/**
 * A promise breaks where it comes out no, stopped or not; or cannot come out at all though no stop holds, or
 * may hold yet.
 */
export const breaks =
  (at: number): Outcome =>
  <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>): B => {
    const logic = logicOf(on);
    const promise = meaning.promises[at]!;
    const spared = on.or(logic.isYes(meaning.stopped), logic.isUnknown(meaning.stopped));
    return on.or(logic.isNo(promise), on.and(promise.impossible, on.not(spared)));
  };

export const reaches =
  (key: string): Outcome =>
  <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>): B =>
    on.or(...meaning.reach.flatMap((one) => (one.key === key ? [one.reached] : [])));

/** No stop holds; a stop itself is judged in every job. */
function unstopped<B, N>(id: string, { stopped }: Meaning<B, N>, on: Domain<B, N>): B {
  return id.startsWith("stop ") ? on.yes : on.not(logicOf(on).isYes(stopped));
}

/** Whether the line applies cannot be told, though every ask is answered. */
export const leftOpen =
  (id: string): Outcome =>
  <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>): B =>
    on.and(unstopped(id, meaning, on), on.not(meaning.lines.get(id)!.known));

/** The line applies, and what it shows has no value. */
export const withoutNumber =
  (id: string, book: SmallBook): Outcome =>
  <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>): B => {
    const line = book.statements.find(
      (one) => "when" in one && "name" in one && `${one.is} ${one.name}` === id,
    );
    const shows = line !== undefined && "shows" in line ? line.shows : undefined;
    if (shows === undefined) return on.no;
    const applies = logicOf(on).isYes(meaning.lines.get(id)!);
    return on.and(unstopped(id, meaning, on), applies, on.not(meaning.amounts.get(shows)!.known));
  };

/** No stop holds, and no step applies. */
export const withoutWork: Outcome = <B, N>(meaning: Meaning<B, N>, on: Domain<B, N>): B => {
  const logic = logicOf(on);
  const steps: Value<B, B>[] = [...meaning.lines].flatMap(([id, when]) =>
    id.startsWith("step ") ? [when] : [],
  );
  return on.and(on.not(logic.isYes(meaning.stopped)), ...steps.map((when) => on.not(logic.isYes(when))));
};
