// The statements of a book as rows: what each is, what it uses, who uses it, and how many findings it has.
import type { Finding, Row } from "../../core/view.ts";
import type { CheckedBook, Entry } from "../language/check/book.ts";
import { placed } from "../language/syntax/split.ts";
import { plainTitle, typeWords, wordsOf } from "./statement-words.ts";

/** The rows of the book before an edit, with what they were made from. */
interface RowsBefore {
  readonly rows: readonly Row[];
  readonly checked: CheckedBook;
}

/** `before` is given only where neither book depends on others. */
export function rowsOf(
  checked: CheckedBook,
  findings: readonly Finding[],
  before?: RowsBefore,
): readonly Row[] {
  const counts = countFindings(checked, findings);
  // Who uses whom is unchanged where every statement has its name and its uses. Then a row that has not moved
  // is unchanged too.
  const same = before !== undefined && hasSameUses(checked, before.checked) ? before : undefined;
  const usedBy = same ? undefined : usersOf(checked);
  let part = "";
  const own = headOf(checked)?.statement.name?.text ?? "";
  const rows = checked.entries.map((entry, i): Row => {
    if (entry.statement.body.keyword === "part") part = plainTitle(entry);
    const layer = entry.from?.layer ?? own;
    const old = same?.rows[i];
    if (
      old !== undefined &&
      isUnchanged(old, same!.checked.entries[i]!, entry, { part, layer, ...counts[i]! })
    )
      return old;
    return rowOf(entry, {
      part,
      layer,
      ...counts[i]!,
      uses: old?.uses ?? usesOf(checked, i),
      usedBy: old?.usedBy ?? usersBy(usedBy, entry),
    });
  });
  return checked.composition === undefined ? rows : withoutHidden(checked, rows);
}

/** The entry of the book's own head. */
export const headOf = (checked: CheckedBook): Entry | undefined =>
  checked.entries.find((entry) => entry.statement.body.keyword === "book" && entry.from?.own !== false);

function hasSameUses(checked: CheckedBook, before: CheckedBook): boolean {
  if (before.entries.length !== checked.entries.length) return false;
  return checked.entries.every(({ id, statement }, i) => {
    const old = before.entries[i]!;
    return (
      old.statement === statement ||
      (old.id === id &&
        old.statement.body.keyword === statement.body.keyword &&
        old.statement.uses.join() === statement.uses.join())
    );
  });
}

/** What a row shows besides its own statement. */
type Surroundings = Pick<Row, "part" | "layer" | "errors" | "warnings">;

const isUnchanged = (old: Row, before: Entry, entry: Entry, now: Surroundings): boolean =>
  before.checked === entry.checked &&
  before.statement === entry.statement &&
  before.from === entry.from &&
  old.at.start === entry.piece.at.start &&
  old.lead.start === entry.piece.lead.start &&
  old.part === now.part &&
  old.layer === now.layer &&
  old.errors === now.errors &&
  old.warnings === now.warnings;

function rowOf(entry: Entry, around: Surroundings & Pick<Row, "uses" | "usedBy">): Row {
  const { statement, piece, from } = entry;
  const { name, ruleAt } = statement;
  const { keyword } = statement.body;
  const { signature } = entry.checked;
  return {
    id: entry.id,
    keyword: keyword === "add" ? "chart" : keyword,
    part: around.part,
    layer: around.layer,
    own: from?.own ?? true,
    ...(from?.was ? { was: from.was } : {}),
    ...(name ? { name: from?.beneath ?? name.text, nameAt: placed(piece, name.at) } : {}),
    at: piece.at,
    lead: piece.lead,
    ...(ruleAt ? { ruleAt: placed(piece, ruleAt) } : {}),
    ...wordsOf(statement),
    type: signature ? typeWords(signature) : "",
    unit: signature?.unit?.symbol ?? "",
    uses: around.uses,
    usedBy: around.usedBy,
    errors: around.errors,
    warnings: around.warnings,
  };
}

const usesOf = (checked: CheckedBook, i: number): readonly string[] =>
  checked.entries[i]!.statement.uses.flatMap((one) => {
    const at = checked.byName.get(one);
    return at === undefined || at === i ? [] : [checked.entries[at]!.id];
  });

function usersBy(
  usedBy: ReadonlyMap<string, readonly string[]> | undefined,
  { statement: { body, name } }: Entry,
): readonly string[] {
  const prefix = body.keyword === "kind" || body.keyword === "step" ? `${body.keyword} ` : "";
  const key = prefix === "" ? name?.text : `${prefix}${name?.text}`;
  return (key && usedBy?.get(key)) || [];
}

/** A rule that only serves as the value underneath is no row of its own: its users use what replaces it. */
function withoutHidden(checked: CheckedBook, rows: readonly Row[]): readonly Row[] {
  const visible = new Map(
    checked.entries.flatMap((entry) => {
      const hidden = entry.from?.hidden;
      const at = hidden === undefined ? undefined : checked.byName.get(hidden);
      return at === undefined ? [] : [[entry.id, checked.entries[at]!.id] as const];
    }),
  );
  const seen = (ids: readonly string[], self: string) =>
    [...new Set(ids.map((id) => visible.get(id) ?? id))].filter((id) => id !== self);
  return rows.flatMap((row, i) =>
    checked.entries[i]!.from?.hidden === undefined
      ? [{ ...row, uses: seen(row.uses, row.id), usedBy: seen(row.usedBy, row.id) }]
      : [],
  );
}

function usersOf(checked: CheckedBook): Map<string, string[]> {
  const usedBy = new Map<string, string[]>();
  for (const entry of checked.entries) {
    const own = entry.statement.name?.text;
    for (const name of entry.statement.uses) {
      if (name === own) continue;
      const known = usedBy.get(name);
      if (known === undefined) usedBy.set(name, [entry.id]);
      else known.push(entry.id);
    }
  }
  return usedBy;
}

function countFindings(
  checked: CheckedBook,
  findings: readonly Finding[],
): readonly { errors: number; warnings: number }[] {
  const counts = checked.entries.map(() => ({ errors: 0, warnings: 0 }));
  // A book that depends on others has its statements in another order than its text.
  const order = checked.entries.map((_, at) => at);
  if (checked.composition !== undefined)
    order.sort((a, b) => checked.entries[a]!.piece.at.start - checked.entries[b]!.piece.at.start);
  let i = 0;
  for (const finding of findings) {
    while (i + 1 < order.length && checked.entries[order[i + 1]!]!.piece.at.start <= finding.at.start) i++;
    const count = counts[order[i]!];
    if (count === undefined) continue;
    if (finding.weight === "error") count.errors++;
    else if (finding.weight === "warning") count.warnings++;
  }
  return counts;
}
