// The statements of a book's own text by what they bring about: `instead figure width` and `figure width` are
// both the row `figure width`, rows added to a chart are the chart's, and a `drop` is the row that it leaves
// out.
import type { Entry } from "../../language/check/book.ts";
import { oneLine } from "../../program/eval/show.ts";
import { parseStatement } from "../../language/syntax/parse.ts";
import { splitBook } from "../../language/syntax/split.ts";
import type { Statement } from "../../language/syntax/tree.ts";

export interface OwnStatement {
  /** Row id of what it brings about. */
  readonly id: string;
  readonly text: string;
  /** The head of the book, a heading, or a book brought in: it stands whatever else is changed. */
  readonly frame: boolean;
}

const FRAME = new Set(["book", "part", "use"]);

/**
 * In the order of the text; statements of one row are one. `entries` are those of the whole book, `under`
 * those of the book underneath.
 */
export function ownStatements(
  text: string,
  entries: readonly Entry[],
  under: readonly Entry[],
): readonly OwnStatement[] {
  const places = new Map(
    entries.filter((entry) => entry.from?.own !== false).map((entry) => [entry.piece.at.start, entry.id]),
  );
  const out = new Map<string, OwnStatement>();
  for (const piece of splitBook(text)) {
    const statement = parseStatement(piece.text);
    const { keyword } = statement.body;
    const id =
      keyword === "book"
        ? "book"
        : keyword === "part" || keyword === "use"
          ? oneLine(piece.text)
          : keyword === "add" && statement.name
            ? `chart ${statement.name.text}`
            : keyword === "drop"
              ? (under.find((entry) => isDropped(statement, entry))?.id ?? `drop ${piece.at.start}`)
              : (places.get(piece.at.start) ?? `${keyword} ${piece.at.start}`);
    const own = text.slice(piece.lead.start, piece.at.end).replace(/^\n+/, "");
    const known = out.get(id);
    out.set(id, {
      id,
      text: known === undefined ? own : `${known.text}\n\n${own}`,
      frame: FRAME.has(keyword),
    });
  }
  return [...out.values()];
}

/** Whether this is what the statement leaves out. */
function isDropped({ body, clauses, text, ruleAt }: Statement, { id, statement: other }: Entry): boolean {
  if (body.keyword !== "drop" || other.body.keyword !== body.what) return false;
  if (body.rule !== undefined)
    return (
      ruleAt !== undefined &&
      other.ruleAt !== undefined &&
      oneLine(text.slice(ruleAt.start, ruleAt.end)) ===
        oneLine(other.text.slice(other.ruleAt.start, other.ruleAt.end))
    );
  if (body.target !== undefined)
    return other.body.keyword === "picture"
      ? other.body.shape.text === body.target.text
      : other.name?.text === body.target.text || id === `${body.what} ${body.target.text}`;
  const title = (source: string, at: { readonly start: number; readonly end: number } | undefined) =>
    at === undefined ? undefined : oneLine(source.slice(at.start, at.end));
  return (
    clauses.title !== undefined &&
    title(text, clauses.title.at) === title(other.text, other.clauses.title?.at)
  );
}

/**
 * The first text with these rows as the second has them; its frame and what is new stand where the second has
 * them.
 */
export function ownWith(
  before: readonly OwnStatement[],
  after: readonly OwnStatement[],
  made: ReadonlySet<string>,
): string {
  const fresh = new Map(after.map((one) => [one.id, one]));
  const out = before.flatMap((one) => {
    if (!made.has(one.id) || one.frame) return [one];
    const now = fresh.get(one.id);
    return now === undefined ? [] : [now];
  });
  after.forEach((one, i) => {
    if (out.some((other) => other.id === one.id) || (!one.frame && !made.has(one.id))) return;
    let at = 0;
    for (let j = i - 1; j >= 0 && at === 0; j--) at = out.findIndex((other) => other.id === after[j]!.id) + 1;
    out.splice(at === 0 ? Math.min(1, out.length) : at, 0, one);
  });
  return `${out.map((one) => one.text).join("\n\n")}\n`;
}
