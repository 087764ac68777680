// Holds the hand-written rules against the engine, value by value, before anything is timed.
import { fromSI } from "../../core/unit.ts";
import { stateOf } from "../../engine/program/eval/frame.ts";
import type { Evaluation } from "../../engine/program/eval/evaluate.ts";
import type { work } from "./hand-written.ts";

type ByHand = NonNullable<ReturnType<typeof work>>;

/** What differs, in words; empty where all values are alike to a relative 1e-9. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one check of each value.
export function differences({ plan, frame }: Evaluation, hand: ByHand): string[] {
  const found: string[] = [];
  const say = (name: string, ours: unknown, theirs: unknown) => {
    found.push(`${name}: engine ${String(ours)}, by hand ${String(theirs)}`);
  };
  const alike = (a: number, b: number) => Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b));
  for (const [label, theirs] of Object.entries(hand.figures)) {
    const [name, column] = label.split(".") as [string, string?];
    const entry = plan.checked.entries[plan.checked.byName.get(name) ?? -1];
    const block = entry && plan.byId.get(entry.id);
    const type = entry?.checked.signature?.type;
    const value =
      block?.values[
        column === undefined
          ? 0
          : type?.is === "row"
            ? type.columns.findIndex((one) => one.name === column)
            : 0
      ];
    if (value === undefined) {
      say(label, "has no such value", theirs);
      continue;
    }
    const number = frame.num[value.register]!;
    const ours =
      stateOf(frame, value.register) !== "known"
        ? undefined
        : value.type.is === "kind"
          ? value.type.words[number]
          : value.type.is === "yes-no"
            ? number === 1
            : value.type.is === "quantity" && value.unit
              ? fromSI(number, value.unit)
              : value.type.is === "temperature"
                ? number - 273.15
                : number;
    if (typeof ours === "number" && typeof theirs === "number" ? !alike(ours, theirs) : ours !== theirs)
      say(label, ours, theirs);
  }
  for (const [kind, blocks, lines] of [
    ["step", plan.steps, hand.steps],
    ["caution", plan.cautions, hand.cautions],
    ["stop", plan.stops, hand.stops],
  ] as const) {
    for (const block of blocks) {
      const name = block.entry.statement.name!.text;
      const theirs = (lines as Record<string, boolean>)[name];
      if (theirs === undefined || frame.num[block.when] !== Number(theirs))
        say(`${kind} ${name}`, frame.num[block.when], theirs);
    }
    if (blocks.length !== Object.keys(lines).length)
      say(`${kind}s`, blocks.length, Object.keys(lines).length);
  }
  for (const [what, times] of [
    ["takes", hand.takes],
    ["waits", hand.waits],
  ] as const) {
    for (const [name, minutes] of Object.entries(times)) {
      const block = plan.byId.get(`step ${name}`)!;
      if (!alike(frame.num[block[what]]! / 60, minutes))
        say(`${name} ${what}`, frame.num[block[what]]! / 60, minutes);
    }
  }
  hand.promises.forEach((kept, i) => {
    if (frame.num[plan.promises[i]!.when] !== Number(kept))
      say(`promise ${i + 1}`, frame.num[plan.promises[i]!.when], kept);
  });
  const list = plan.checked.entries[plan.checked.byName.get("plies")!]!;
  const rows = frame.lists[plan.byId.get(list.id)!.slot];
  if (rows?.count !== hand.plies.length) say("plies", rows?.count, hand.plies.length);
  else
    hand.plies.forEach((ply, i) =>
      [ply.length / 1000, ply.width / 1000, ply.glass / 1000, ply.resin / 1000].forEach((theirs, c) => {
        if (!alike(rows.columns[c]![i]!, theirs))
          say(`ply ${i + 1}, column ${c + 1}`, rows.columns[c]![i], theirs);
      }),
    );
  return found;
}
