// What the card says goes into the work, line by line, so that a technician only has to enter lot numbers and what was otherwise.
import type { UsedLine } from "../../../../core/record.ts";
import type { Row } from "../../../../core/view.ts";
import { fillerFor } from "../mixing/mix.ts";
import type { Mix, Part } from "../mixing/mix.ts";
import { writeAmount } from "../mixing/amounts.ts";

export interface Prefilled { readonly line: string; readonly what: string; readonly amount: string }

/** One line for each part of each mix that is not entered yet; the amount is that of all its cups. */
export function prefilled(mixes: readonly Mix[], used: readonly UsedLine[], rows: readonly Row[]): readonly Prefilled[] {
  const entered = new Set(used.map((line) => line.line));
  return mixes
    .flatMap((mix) => [lineOf(mix, "base", mix.base), lineOf(mix, "hardener", mix.hardener), ...(mix.filler && fillerFor(mix, mix.base.amount) !== undefined ? [lineOf(mix, "filler", mix.filler)] : [])])
    .map((line) => ({ ...line, what: titleOf(line.what, rows) }))
    .filter((line) => !entered.has(line.line));
}

const lineOf = (mix: Mix, role: string, part: Part): Prefilled => ({
  line: `${mix.id} ${role}`, what: part.name,
  amount: mix.cups === 1 ? part.text : (writeAmount(part.amount * mix.cups, part.measure)[0] ?? part.text),
});

/** What a reader calls a value of the book: its title, else its name in plain words. */
export function titleOf(name: string, rows: readonly Row[]): string {
  const row = rows.find((one) => one.name === name && (one.keyword === "figure" || one.keyword === "dial" || one.keyword === "ask"));
  return row?.title || name.replaceAll("-", " ");
}
