// What the card says goes into the work, line by line, so that a technician only has to enter lot numbers and
// what was otherwise.
import type { UsedLine } from "../../../core/record.ts";
import type { Row } from "../../../core/view.ts";
import type { Say } from "../../ui/words/words.ts";
import type { Mix, Part } from "../mixing/mix.ts";
import { writeAmount } from "../mixing/mix-amounts.ts";

export interface Prefilled {
  readonly line: string;
  readonly what: string;
  readonly amount: string;
}

/** One line for each part of each mix that is not entered yet; the amount is that of all its cups. */
export function prefilled(
  mixes: readonly Mix[],
  used: readonly UsedLine[],
  rows: readonly Row[],
  say: Say,
): readonly Prefilled[] {
  const entered = new Set(used.map((line) => line.line));
  return mixes
    .flatMap((mix) => [
      lineOf(mix, mix.base, rows, say),
      lineOf(mix, mix.hardener, rows, say),
      ...(mix.filler === undefined ? [] : [lineOf(mix, mix.filler, rows, say)]),
    ])
    .filter((line) => !entered.has(line.line));
}

const lineOf = (mix: Mix, part: Part, rows: readonly Row[], say: Say): Prefilled => ({
  line: `${mix.id} ${part.role}`,
  what: mix.title === "" ? partName(part, rows, say) : `${mix.title}: ${partName(part, rows, say)}`,
  amount: mix.cups === 1 ? part.text : (writeAmount(part.amount * mix.cups, part.measure)[0] ?? part.text),
});

/** What a part of a mix is called: by the title that the book gives its value, else by its role. */
export function partName({ name, role }: Part, rows: readonly Row[], say: Say): string {
  const row = rows.find(
    (one) =>
      one.name === name && (one.keyword === "figure" || one.keyword === "dial" || one.keyword === "ask"),
  );
  return row?.title || say(`mix.${role}`);
}
