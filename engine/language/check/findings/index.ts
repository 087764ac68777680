// From a fault and its facts to the finding that a person reads.
import type { Finding, Repair } from "../../../../core/view.ts";
import type { Span } from "../../../../core/span.ts";
import { nearest } from "../did-you-mean.ts";
import { type Piece, placed } from "../../syntax/split.ts";
import type { Fault } from "../../syntax/tree.ts";
import { AMOUNTS } from "./amounts.ts";
import { BOOK } from "./book.ts";
import { CHARTS } from "./charts.ts";
import type { FindingKind } from "./define.ts";
import { LAYERS } from "./layers.ts";
import { NAMES } from "./names.ts";
import { WRITING } from "./writing.ts";

export const FINDING_KINDS: readonly FindingKind[] = [
  ...WRITING,
  ...NAMES,
  ...AMOUNTS,
  ...CHARTS,
  ...BOOK,
  ...LAYERS,
];

const byCode = new Map(FINDING_KINDS.map((kind) => [kind.code, kind]));

/** Places in the fault count from where the statement begins; without one, from the beginning of the book. */
export function toFinding(
  { code, at, facts }: Fault,
  piece: Pick<Piece, "at" | "text" | "lines"> | undefined,
): Finding {
  const shift = (span: Span): Span => (piece === undefined ? span : placed(piece, span));
  const kind = byCode.get(code);
  if (kind === undefined) throw new Error(`There is no finding ${code}.`);
  const full =
    "words" in facts && "word" in facts && !("near" in facts)
      ? { ...facts, near: nearest(String(facts.word), facts.words as string[]) }
      : facts;
  const mends = (facts.mends ?? []) as readonly {
    says: string;
    edits: readonly { at: Span; text: string }[];
  }[];
  const near = (full as { near?: string }).near;
  const repairs: Repair[] = mends.map((mend) => ({
    says: mend.says,
    edits: mend.edits.map((edit) => ({ at: shift(edit.at), text: edit.text })),
  }));
  if (repairs.length === 0 && near !== undefined && code === "syntax/statement")
    repairs.push({ says: `Write ${near}`, edits: [{ at: shift(at), text: near }] });
  const also = ((facts.also ?? []) as readonly { at?: Span; absolute?: Span; says: string }[]).map((one) => ({
    at: one.absolute ?? shift(one.at!),
    says: one.says,
  }));
  if (facts.elsewhere) also.push({ at: facts.elsewhere as Span, says: "set here first" });
  if (facts.leftAt && facts.rightAt)
    also.push(
      { at: shift(facts.leftAt as Span), says: String(facts.left) },
      { at: shift(facts.rightAt as Span), says: String(facts.right) },
    );
  return {
    code,
    weight: kind.weight,
    at: (facts.here as Span | undefined) ?? shift(at),
    says: kind.says(full),
    also,
    repairs,
    ...(typeof facts.witness === "string" ? { witness: facts.witness } : {}),
  };
}
