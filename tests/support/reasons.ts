// One example of every reason and decision with its English sentence. A new code breaks these tables.
import type { Decision, OfCode, Reason } from "../../core/reason.ts";

type Examples<Of extends { readonly code: string }> = {
  readonly [Code in Of["code"]]: readonly [facts: Omit<OfCode<Of, Code>, "code">, english: string];
};

export const REASONS: Examples<Reason> = {
  "no-value": [{}, "it has no value"],
  finding: [{}, "it has a finding"],
  "part-finding": [{}, "has a finding"],
  "chart-finding": [{}, "its chart has a finding"],
  loop: [{}, "it is part of a loop"],
  unreadable: [{}, "it cannot be read"],
  "line-unreadable": [{ keyword: "stop" }, "a stop of the book cannot be read"],
  "unknown-line-unreadable": [{ word: "halt" }, "a line of the book that begins with “halt” cannot be read"],
  "formulas-too-large": [{}, "the book's formulas grow beyond what is worked"],
  "book-missing": [{ book: "sums", as: "used" }, "the book sums that it uses is not at hand"],
  "book-circle": [{ book: "sums" }, "sums stands on itself"],
  "books-too-deep": [{}, "more books stand on one another than are read"],
  "no-alternative": [{}, "none of the alternatives applies"],
  "no-row": [{ chart: "grit" }, "no row of grit fits"],
  "rows-clash": [
    { chart: "hours", rows: [{ row: 1, line: 12, cells: "under 23 °C | 24 h" }, { row: 2 }] },
    "two rows of hours apply: row 1 in line 12 (under 23 °C | 24 h) and row 2",
  ],
  "answers-contradict": [{ chart: "grit" }, "no row of grit is left: the answers contradict one another"],
  "no-row-left": [{}, "no row is left"],
  "off-chart": [{ chart: "pot-life" }, "it is off the end of pot-life"],
  "no-grid-point": [{}, "the chart's grid has no such point"],
  "fallback-range": [
    { ask: "depth", low: "1 mm", high: "12 mm" },
    "what the book takes for depth lies outside 1 mm to 12 mm, which is what it asks for",
  ],
  "divides-by-zero": [{}, "it divides by zero"],
  "too-large": [{}, "it grows too large"],
  "root-of-negative": [{}, "it takes the root of a negative number"],
  "log-of-nonpositive": [{}, "it takes the logarithm of a number that is not above zero"],
  "fractional-power-of-negative": [{}, "it takes a broken power of a negative number"],
  "rounds-to-nothing": [{}, "it rounds to multiples of nothing"],
  "list-not-whole": [{ list: "plies" }, "plies counts to a number that is not whole"],
  "list-too-long": [
    { list: "plies", rows: 20000, most: 10000 },
    "plies would have 20000 rows; a list has at most 10000",
  ],
  "list-empty": [{}, "the list has no rows"],
  "list-without-rows": [{}, "it has no rows"],
  "no-row-above": [{ list: "plies" }, "the first row of plies has none above it"],
  "too-much-work": [{}, "this job asks for more work than is done for one job"],
  "answer/word": [
    { answer: "smd", kind: "skin-kind", words: ["smc", "metal"], near: "smc" },
    "“smd” is not one of skin-kind: smc, metal. Did you mean smc?",
  ],
  "answer/yes-no": [{ ask: "wet", answer: "maybe" }, "wet is answered yes or no, not “maybe”."],
  "answer/unit": [
    { ask: "depth", answer: "3 kg", type: "length", unit: "mm", is: "mass", example: "20 mm" },
    "depth is length in mm; “3 kg” is mass. Write for example 20 mm.",
  ],
  "answer/two-ways": [
    { answer: "1,250", whole: "1250", decimal: "1.250" },
    "“1,250” can be read in two ways. Write 1250 or, if a decimal was meant, 1.250.",
  ],
  "answer/count": [{ ask: "parts", answer: "2.5" }, "parts is a count: a whole number, not 2.5."],
  "answer/range": [
    { ask: "depth", answer: "90 mm", low: "0 mm", high: "50 mm" },
    "depth is asked from 0 mm to 50 mm; 90 mm is outside.",
  ],
  "answer/tolerance": [
    { ask: "depth", unit: "mm" },
    "The tolerance of depth cannot be read: write it as an amount, for example ± 0.2 mm.",
  ],
  "answer/unreadable": [
    { ask: "depth", answer: "4 mn", example: "20 mm", near: "4 mm" },
    "“4 mn” cannot be read as an answer to depth; write for example 20 mm. Did you mean 4 mm?",
  ],
  "answer/too-long": [{ ask: "depth" }, "The answer to depth is longer than any answer can be."],
  "answer/not-asked": [{ ask: "colour" }, "The book does not ask for “colour”."],
};

export const DECISIONS: Examples<Decision> = {
  row: [{ row: 3, cells: "smc | 12" }, "row 3: smc | 12"],
  "at-row": [{ row: 3, cells: "15 °C | 2" }, "at row 3: 15 °C | 2"],
  "between-rows": [
    {
      points: [
        { row: 1, cells: "15 °C | 2" },
        { row: 2, cells: "20 °C | 1" },
      ],
    },
    "between rows 1 (15 °C | 2) and 2 (20 °C | 1)",
  ],
  "rows-of-chart": [
    {
      chart: "grit",
      points: [
        { row: 1, cells: "a" },
        { row: 2, cells: "b" },
      ],
    },
    "row 1 of grit: a and row 2 of grit: b",
  ],
  "rows-agree": [{ rows: [1, 2] }, "rows 1, 2 are all still possible and agree"],
  "rows-possible": [{ rows: [1, 2] }, "still possible: rows 1, 2"],
  "rows-left": [{ rows: [1, 2] }, "rows left: 1, 2"],
  "no-row-fits": [{}, "no row fits"],
  "rows-both-apply": [
    {
      rows: [
        { row: 1, cells: "a" },
        { row: 2, cells: "b" },
      ],
    },
    "rows 1 (a) and 2 (b) both apply",
  ],
  "answers-leave-no-row": [{ asks: ["a", "b"] }, "the answers to a, b leave no row"],
  since: [{ condition: "wet is yes" }, "since wet is yes"],
  otherwise: [
    { not: [{ condition: "air < coldest", numbers: "20 °C < 18 °C" }, { condition: "wet" }] },
    "otherwise: not air < coldest (20 °C < 18 °C), not wet",
  ],
  "not-settled": [{ condition: "wet" }, "not settled: wet"],
  "as-in-book": [{ book: "panels" }, "elsewhere as in panels"],
  answered: [{ answer: "6 mm" }, "answered 6 mm"],
  "taken-for-blank": [{}, "not answered; the book takes this"],
  "taken-instead": [{}, "answered: cannot tell; the book takes this instead"],
  "not-answered": [{}, "not answered yet"],
  unusable: [{ reason: { code: "answer/not-asked", ask: "colour" } }, "The book does not ask for “colour”."],
};

/** The examples of a table as facts with their sentences. */
export const examplesOf = <Of extends { readonly code: string }>(
  table: Examples<Of>,
): readonly (readonly [english: string, fact: Of])[] =>
  Object.entries<readonly [object, string]>(table).map(([code, [facts, english]]) => [
    english,
    { code, ...facts } as unknown as Of,
  ]);
