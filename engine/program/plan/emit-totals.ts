// What is said of all lines together: whether the job is stopped, and how many steps there are and how long they take.
import type { CheckedBook } from "../../language/check/book.ts";
import type { OfSteps } from "../../language/check/rule.ts";
import { apartFrom, blockOf } from "./block.ts";
import { constant, copyInto, emit, newMaker, push, read } from "./emitter.ts";
import { wordOf } from "./statement-kind.ts";
import { K } from "./op.ts";
import { STOPPED_NAME, placeOf, stepsName } from "./registers.ts";
import type { Block, Places } from "./plan.ts";

/** `stopped` is yes when any stop holds: one block after all of them. */
export function stopsBlock(checked: CheckedBook, places: Places, old: Block | undefined): Block {
  // The same stops as before: the block serves on, and so does all that was proved of what rests on it.
  const key = checked.entries.flatMap((entry) => (wordOf(entry) === "stop" ? [placeOf(places, entry.id)] : [])).join();
  if (old?.key === key) return old;
  const maker = newMaker(places, 0);
  const place = placeOf(places, STOPPED_NAME);
  const stops = checked.entries.flatMap((entry) => (wordOf(entry) === "stop" ? [read(maker, placeOf(places, entry.id))] : []));
  const any = stops.reduce((a, b) => emit(maker, K.or, a, b, { start: 0, end: 0 }), constant(maker, 0));
  copyInto(maker, place, any, { start: 0, end: 0 });
  return blockOf(maker, apartFrom("stopped"), key, { outputs: [place], when: place });
}

/** How many steps apply and how long they take and wait, all told: one block after all of them; none where no rule asks. */
export function stepsBlock(checked: CheckedBook, places: Places, byId: ReadonlyMap<string, Block>, old: Block | undefined): Block | undefined {
  if (checked.byName.has("steps") || !checked.entries.some((entry) => entry.statement.uses.includes("steps"))) return undefined;
  const steps = checked.entries.flatMap((entry) => (wordOf(entry) === "step" ? [{ when: placeOf(places, entry.id), block: byId.get(entry.id) }] : []));
  const key = steps.map(({ when, block }) => (block === undefined ? `${when}` : `${when} ${block.takes} ${block.waits}`)).join();
  if (old?.key === key) return old;
  const maker = newMaker(places, 0);
  const at = { start: 0, end: 0 };
  const whats: readonly OfSteps[] = ["count", "takes", "waits"];
  const outputs = whats.map((what) => {
    const place = placeOf(places, stepsName(what));
    const all = steps.map(({ when, block }) => {
      const applies = read(maker, when);
      if (what === "count") return applies;
      const time = block?.[what] ?? -1;
      // A step that does not apply takes no time, whether its time is known or not.
      const own = time < 0 ? constant(maker, 0) : read(maker, time);
      const d = places.next++;
      push(maker, { k: K.select, d, a: applies, b: own, c: constant(maker, 0), x: undefined, at });
      return d;
    });
    copyInto(maker, place, all.length === 0 ? constant(maker, 0) : all.reduce((a, b) => emit(maker, K.add, a, b, at)), at);
    return place;
  });
  return blockOf(maker, apartFrom("steps"), key, { outputs });
}
