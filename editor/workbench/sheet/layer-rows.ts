// A layer in the sheet: which rows stand underneath, what an edit of one of them writes into the own text,
// and where. The book underneath is never touched.
import type { Span } from "../../../core/span.ts";
import type { Row } from "../../../core/view.ts";
import type { Snapshot, UnderShown } from "../../client/engine/messages.ts";

type Under = Pick<Snapshot, "under">;

export const isLayer = ({ under }: Under): boolean => under.some((one) => one.as === "amended");

/** "harbour-yard, edition 2", or the name alone. */
const editionWords = (name: string, edition: number | undefined): string =>
  edition === undefined ? name : `${name}, edition ${edition}`;

/** "harbour-yard, edition 2, on road-panels, edition 1"; undefined for a book that amends none. */
export function stackWords({
  name,
  edition,
  under,
}: Pick<Snapshot, "name" | "edition" | "under">): string | undefined {
  const below = under.filter((one) => one.as === "amended");
  return below.length === 0
    ? undefined
    : [editionWords(name, edition), ...below.map((one) => editionWords(one.name, one.edition))].join(", on ");
}

/** The book right underneath. */
export const baseOf = ({ under }: Under): UnderShown | undefined => under.find((one) => one.as === "amended");

/**
 * Rows as the sheet draws them: a heading that the book underneath has already, or that has nothing under it,
 * is not drawn again.
 */
export function drawnRows(rows: readonly Row[]): readonly Row[] {
  if (rows.every((row) => row.own)) return rows;
  const titles = new Set(rows.filter((row) => row.keyword === "part" && !row.own).map((row) => row.title));
  return rows.filter((row, place) => {
    if (row.keyword !== "part" || !row.own) return true;
    const next = rows[place + 1];
    return !titles.has(row.title) && next !== undefined && next.keyword !== "part";
  });
}

const REPLACED = new Set<Row["keyword"]>([
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "worked",
]);

/** How a row underneath is amended: its rule alone, in its chart, as a whole statement, or not at all. */
export function amendedBy(row: Row): "rule" | "chart" | "statement" | "not" {
  if (row.own || row.name === undefined || row.id.includes("@") || !REPLACED.has(row.keyword)) return "not";
  if (row.keyword === "chart") return "chart";
  return row.keyword === "dial" || row.keyword === "figure" ? "rule" : "statement";
}

/** What stands before the rule that is typed; unit, title and span are kept from underneath. */
export const amendHead = (row: Row): string => `instead ${row.keyword} ${row.name ?? ""} = `;

/**
 * The rule to begin from: of a dial its value alone, of a rule that a layer between has amended its value
 * there.
 */
export function amendFirst(row: Row): string {
  const rule = row.rule.replace(/\s+/g, " ").trim();
  if (row.keyword === "dial") return rule.replace(/, from .*$/, "");
  return row.was === undefined ? rule : "as-before";
}

/** The span of a dial underneath, as it is written: "from 60 % to 85 %". */
export const dialSpan = (row: Row): string | undefined =>
  row.keyword === "dial" ? /, (from .*)$/.exec(row.was?.rule ?? row.rule)?.[1] : undefined;

/**
 * The statement that leaves a row out, and where in it the reason is to be written; undefined where it cannot
 * be left out.
 */
export function dropText(row: Row): { readonly text: string; readonly because: boolean } | undefined {
  if (row.id.includes("@")) return undefined;
  const because = row.keyword === "caution" || row.keyword === "stop";
  const target =
    row.keyword === "promise"
      ? row.rule
      : row.keyword === "picture"
        ? row.rule.split(" ")[0]
        : (row.name ?? (because ? row.rule.split("\n")[0] : undefined));
  if (
    target === undefined ||
    target === "" ||
    !(REPLACED.has(row.keyword) || row.keyword === "promise" || row.keyword === "picture")
  )
    return undefined;
  return {
    text: `drop ${row.keyword} ${target.replace(/\s+/g, " ").trim()}${because ? '\n    because ""' : ""}`,
    because,
  };
}

/**
 * Where a statement about a row underneath goes in the own text: behind the last own one under a heading of
 * the same title, else at the end under a new heading.
 */
export function ownPlace(
  rows: readonly Row[],
  part: string,
): { readonly after: string | undefined; readonly heading: string | undefined } {
  const own = ownRows(rows);
  let title = "";
  let after: string | undefined;
  for (const row of own) {
    if (row.keyword === "part") title = row.title;
    if (title === part) after = row.id;
  }
  if (after !== undefined && (part !== "" || own.every((row) => row.keyword !== "part")))
    return { after, heading: undefined };
  return part === "" ? { after, heading: undefined } : { after: undefined, heading: part };
}

/** Own rows in the order of the own text. */
export const ownRows = (rows: readonly Row[]): readonly Row[] =>
  rows.filter((row) => row.own).sort((a, b) => a.at.start - b.at.start);

export interface SourceLine {
  readonly layer: string;
  readonly line: number;
  readonly text: string;
}

/** The line of the text, or of a text underneath, that a place is in. */
export function lineAt(snapshot: Pick<Snapshot, "text" | "name" | "under">, at: Span): SourceLine {
  const under =
    at.start <= snapshot.text.length ? undefined : snapshot.under.findLast((one) => one.start <= at.start);
  const [text, offset] =
    under === undefined ? [snapshot.text, at.start] : [under.text, at.start - under.start];
  const from = text.lastIndexOf("\n", offset - 1) + 1;
  const end = text.indexOf("\n", offset);
  return {
    layer: under?.name ?? snapshot.name,
    line: text.slice(0, offset).split("\n").length,
    text: text.slice(from, end < 0 ? text.length : end).trim(),
  };
}

/** The statement of a row as it is written, in whichever text it stands. */
export function statementOf(snapshot: Pick<Snapshot, "text" | "under">, row: Row): string {
  const under = row.own ? undefined : snapshot.under.findLast((one) => one.start <= row.at.start);
  const [text, by] = under === undefined ? [snapshot.text, 0] : [under.text, under.start];
  return text.slice(row.lead.start - by, row.at.end - by).trim();
}

/** The row whose jobs an own line changes: `drop step polish` is about `step polish`. */
export function impactTarget(text: string, row: Row): string {
  if (row.keyword !== "drop") return row.id;
  return text
    .slice(row.at.start, row.at.end)
    .split("\n")[0]!
    .replace(/--.*$/, "")
    .replace(/^drop\s+/, "")
    .replace(/\s+/g, " ")
    .trim();
}
