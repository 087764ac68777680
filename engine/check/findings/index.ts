// From a fault and its facts to the finding that a person reads.
import type { Finding, Repair } from "../../../core/view.ts";
import { type Span, shift } from "../../../core/span.ts";
import { nearest } from "../near.ts";
import type { Fault } from "../../syntax/tree.ts";
import { AMOUNTS } from "./amounts.ts";
import { BOOK } from "./book.ts";
import { CHARTS } from "./charts.ts";
import type { FindingKind } from "./define.ts";
import { NAMES } from "./names.ts";
import { WRITING } from "./writing.ts";

export const FINDING_KINDS: readonly FindingKind[] = [...WRITING, ...NAMES, ...AMOUNTS, ...CHARTS, ...BOOK];

const byCode = new Map(FINDING_KINDS.map((kind) => [kind.code, kind]));

/** `from` is where the statement begins in the book; places in the fault count from there. */
export function toFinding({ code, at, facts }: Fault, from: number): Finding {
  const kind = byCode.get(code);
  if (kind === undefined) throw new Error(`There is no finding ${code}.`);
  const full = "words" in facts && "word" in facts && !("near" in facts) ? { ...facts, near: nearest(String(facts.word), facts.words as string[]) } : facts;
  const mends = (facts.mends ?? []) as readonly { says: string; edits: readonly { at: Span; text: string }[] }[];
  const near = (full as { near?: string }).near;
  const repairs: Repair[] = mends.map((mend) => ({ says: mend.says, edits: mend.edits.map((edit) => ({ at: shift(edit.at, from), text: edit.text })) }));
  if (repairs.length === 0 && near !== undefined && code === "syntax/statement") repairs.push({ says: `Write ${near}`, edits: [{ at: shift(at, from), text: near }] });
  const also = ((facts.also ?? []) as readonly { at?: Span; absolute?: Span; says: string }[]).map((one) => ({ at: one.absolute ?? shift(one.at!, from), says: one.says }));
  if (facts.elsewhere) also.push({ at: facts.elsewhere as Span, says: "set here first" });
  if (facts.leftAt && facts.rightAt) also.push({ at: shift(facts.leftAt as Span, from), says: String(facts.left) }, { at: shift(facts.rightAt as Span, from), says: String(facts.right) });
  return {
    code, weight: kind.weight, at: shift(at, from), says: kind.says(full), also, repairs,
    ...(typeof facts.witness === "string" ? { witness: facts.witness } : {}),
  };
}
