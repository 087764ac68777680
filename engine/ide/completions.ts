// What can be typed at a position in the text: statement words at the left edge, units after a number, words
// of a kind beside a value of that kind, and names.
import type { Span } from "../../core/span.ts";
import { unitSymbols } from "../../core/unit.ts";
import { FUNCTIONS } from "../language/check/call.ts";
import type { Book } from "../api/book.ts";
import { internalsOf } from "../api/book.ts";
import { STATEMENT_WORDS } from "../language/syntax/statement-words.ts";

export interface Completion {
  readonly label: string;
  readonly insert: string;
  readonly detail: string;
  readonly as: "value" | "kind" | "kindword" | "unit" | "function" | "word" | "statement";
}

const PLAIN_UNITS = [
  "mm",
  "cm",
  "m",
  "inch",
  "ft",
  "g",
  "kg",
  "oz",
  "lb",
  "mL",
  "L",
  "floz",
  "quart",
  "min",
  "h",
  "°C",
  "°F",
  "%",
  "% by mass",
  "% by volume",
  "g/m2",
  "oz/yd2",
  "g/mL",
];

/** `at` is the part already typed, which an offer replaces. */
export function completionsAt(
  book: Book,
  offset: number,
): { readonly at: Span; readonly offers: readonly Completion[] } {
  const { text } = book;
  const lineStart = text.lastIndexOf("\n", offset - 1) + 1;
  const before = text.slice(lineStart, offset);
  const typed = /[\p{L}\p{N}°%-]*$/u.exec(before)?.[0] ?? "";
  const at = { start: offset - typed.length, end: offset };
  const left = before.slice(0, before.length - typed.length);
  const quotes = (left.match(/"/g) ?? []).length;
  const insideText = quotes % 2 === 1;
  if (insideText && left.lastIndexOf("{") <= left.lastIndexOf("}")) return { at, offers: [] };
  if (left.includes("--") && !insideText) return { at, offers: [] };
  const layered = layerOffers(book, left);
  if (layered !== undefined && !insideText) return { at, offers: layered };
  if (left === "" && !insideText)
    return {
      at,
      offers: STATEMENT_WORDS.map((word) => ({
        label: word,
        insert: `${word} `,
        detail: STATEMENTS[word],
        as: "statement",
      })),
    };
  if (/(?:^|[^\p{L}-])\d+(?:[./]\d+)?\s*$/u.test(left) && typed !== "" && !/^\d/.test(typed))
    return { at, offers: units() };
  if (/\bin\s+$/.test(left)) return { at, offers: units() };
  const { checked } = internalsOf(book);
  if (/\bof\s+$/.test(left) && /^(?:ask|dial|figure)\b/.test(left)) return { at, offers: kinds(book) };
  const kind = kindBeside(book, left);
  const words: Completion[] =
    kind === undefined
      ? []
      : kind.words.map(({ word, means }) => ({
          label: word,
          insert: word,
          detail: means || kind.name,
          as: "kindword",
        }));
  // A formula, and a chart with conditions of its own, wants its values in brackets.
  const called = (name: string) => {
    const one = checked.entries[checked.byName.get(name) ?? -1]?.checked.signature;
    return one?.what === "formula" || one?.calledOnly === true;
  };
  const names: Completion[] = book.rows.flatMap((row) =>
    row.name !== undefined && ["ask", "dial", "figure", "chart", "list", "formula"].includes(row.keyword)
      ? [
          {
            label: row.name,
            insert: called(row.name) ? `${row.name}(` : row.name,
            detail: row.title || row.type || row.keyword,
            as: called(row.name) ? ("function" as const) : ("value" as const),
          },
        ]
      : [],
  );
  const functions: Completion[] = FUNCTIONS.map((one) => ({
    label: one.name,
    insert: `${one.name}(`,
    detail: `${one.takes}: ${one.gives}`,
    as: "function",
  }));
  const phrases: Completion[] = PHRASES.map((phrase) => ({
    label: phrase,
    insert: phrase,
    detail: "",
    as: "word",
  }));
  return { at, offers: [...words, ...names, ...(insideText ? [] : phrases), ...functions] };
}

/** After `instead figure`, `drop step`, `after` and `chart`: statements underneath of that sort. */
function layerOffers(book: Book, left: string): Completion[] | undefined {
  const verb = /^(instead|drop)\s+$/.exec(left)?.[1];
  if (verb !== undefined)
    return STATEMENT_WORDS.filter(
      (word) =>
        !["book", "part", "use", "drop", "instead"].includes(word) &&
        (verb === "drop" || (word !== "promise" && word !== "picture")),
    ).map((word) => ({ label: word, insert: `${word} `, detail: STATEMENTS[word], as: "statement" }));
  const what =
    /^(?:instead|drop)\s+(\S+)\s+$/.exec(left)?.[1] ??
    (/^step\s.*\safter\s+$/.test(left) ? "step" : undefined);
  if (what === undefined) return undefined;
  return book.rows.flatMap((row) =>
    row.keyword === what && row.name !== undefined && (!row.own || what === "step")
      ? [
          {
            label: row.name,
            insert: row.name,
            detail: row.title || row.rule || row.layer,
            as: "value" as const,
          },
        ]
      : [],
  );
}

const units = (): Completion[] =>
  [...PLAIN_UNITS, ...unitSymbols().filter((one) => !PLAIN_UNITS.includes(one))].map((symbol) => ({
    label: symbol,
    insert: symbol,
    detail: "unit",
    as: "unit",
  }));

const kinds = (book: Book): Completion[] => [
  { label: "yes-no", insert: "yes-no", detail: "yes or no", as: "kind" },
  ...book.kinds.map(
    (kind): Completion => ({
      label: kind.name,
      insert: kind.name,
      detail: kind.words.map((one) => one.word).join(", "),
      as: "kind",
    }),
  ),
];

/** The kind of the value just before `is`, or of the column of a chart. */
function kindBeside(
  book: Book,
  left: string,
):
  | { readonly name: string; readonly words: readonly { readonly word: string; readonly means: string }[] }
  | undefined {
  const named =
    /([\p{L}][\p{L}\p{N}-]*)\s+(?:is|is not|is one of|is not one of)\s+(?:[\p{L}][\p{L}\p{N}-]*,\s*)*$/u.exec(
      left,
    )?.[1] ?? /(?:with|,|^\s+)\s*([\p{L}][\p{L}\p{N}-]*)\s+$/u.exec(left)?.[1];
  const row = book.rows.find((one) => one.name === named);
  const kind = row && /^one of (.+)$/.exec(row.type)?.[1];
  return kind === undefined ? undefined : book.kinds.find((one) => one.name === kind);
}

const PHRASES = [
  "because",
  "from practice",
  "from standard",
  "from house",
  "from label",
  "from test",
  "if",
  "otherwise",
  "and",
  "or",
  "not",
  "is",
  "is one of",
  "rounded up to",
  "rounded down to",
  "rounded to",
  "counted in",
  "run out at",
  "paired at",
  "sum of",
  "largest of",
  "smallest of",
  "count of",
  "first of",
  "sum of steps.takes",
  "sum of steps.waits",
  "count of steps",
  "before",
  "when",
  "takes",
  "waits",
  "straight between rows",
  "curve between rows",
  "first row wins",
  "keep every row that fits",
  "nothing outside",
  "hold ends",
  "measured to",
  "drawn as",
  "if unknown take",
  "under",
  "over",
  "any",
  "apart",
  "as-before",
];

const STATEMENTS: Record<(typeof STATEMENT_WORDS)[number], string> = {
  book: "name, edition and title of the book",
  part: "a heading",
  kind: "a closed list of words",
  ask: "something that is measured, seen or picked",
  dial: "a house number meant to be tuned",
  figure: "a value worked out by a rule",
  formula: "a rule with parameters, used by name",
  chart: "rows of conditions and a value",
  list: "rows worked out for n from 1 to a count",
  step: "one line of work on the card",
  caution: "a warning on the card",
  refer: "somebody else decides: the steps are withheld",
  stop: "a refusal: the steps are withheld",
  promise: "what must hold for every job",
  picture: "a drawing of the job",
  worked: "a worked example",
  use: "another book's kinds, values and formulas",
  instead: "in a layer: replaces what stands underneath",
  drop: "in a layer: leaves out what stands underneath",
};
