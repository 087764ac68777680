// The English sentences of reasons, decisions, turns and doubts. They are written here and nowhere else.
import {
  type ClashingRow,
  type Decision,
  type Doubt,
  type LineName,
  type Reason,
  type RowFacts,
  type Turn,
  type WordsByCode,
  conditionText,
  wordsOf,
} from "./reason.ts";

const clashingRow = ({ row, line, cells }: ClashingRow): string =>
  `row ${row}` + (line === undefined ? "" : ` in line ${line}`) + (cells === undefined ? "" : ` (${cells})`);

const reasons: WordsByCode<Reason> = {
  "no-value": () => "it has no value",
  finding: () => "it has a finding",
  "part-finding": () => "has a finding",
  "chart-finding": () => "its chart has a finding",
  loop: () => "it is part of a loop",
  unreadable: () => "it cannot be read",
  "line-unreadable": ({ keyword }) => `a ${keyword} of the book cannot be read`,
  "unknown-line-unreadable": ({ word }) => `a line of the book that begins with “${word}” cannot be read`,
  "formulas-too-large": () => "the book's formulas grow beyond what is worked",
  "book-missing": ({ book, as }) =>
    `the book ${book} that it ${as === "used" ? "uses" : "amends"} is not at hand`,
  "book-circle": ({ book }) => `${book} stands on itself`,
  "books-too-deep": () => "more books stand on one another than are read",
  "no-alternative": () => "none of the alternatives applies",
  "no-row": ({ chart }) => `no row of ${chart} fits`,
  "rows-clash": ({ chart, rows }) => `two rows of ${chart} apply: ${rows.map(clashingRow).join(" and ")}`,
  "answers-contradict": ({ chart }) => `no row of ${chart} is left: the answers contradict one another`,
  "no-row-left": () => "no row is left",
  "off-chart": ({ chart }) => `it is off the end of ${chart}`,
  "no-grid-point": () => "the chart's grid has no such point",
  "fallback-range": ({ ask, low, high }) =>
    `what the book takes for ${ask} lies outside ${low} to ${high}, which is what it asks for`,
  "divides-by-zero": () => "it divides by zero",
  "too-large": () => "it grows too large",
  "root-of-negative": () => "it takes the root of a negative number",
  "log-of-nonpositive": () => "it takes the logarithm of a number that is not above zero",
  "fractional-power-of-negative": () => "it takes a broken power of a negative number",
  "rounds-to-nothing": () => "it rounds to multiples of nothing",
  "list-not-whole": ({ list }) => `${list} counts to a number that is not whole`,
  "list-too-long": ({ list, rows, most }) => `${list} would have ${rows} rows; a list has at most ${most}`,
  "list-empty": () => "the list has no rows",
  "list-without-rows": () => "it has no rows",
  "no-row-above": ({ list }) => `the first row of ${list} has none above it`,
  "too-much-work": () => "this job asks for more work than is done for one job",
  "answer/word": ({ answer, kind, words, near }) =>
    `“${answer}” is not one of ${kind}: ${words.join(", ")}.` +
    (near === undefined ? "" : ` Did you mean ${near}?`),
  "answer/yes-no": ({ ask, answer }) => `${ask} is answered yes or no, not “${answer}”.`,
  "answer/unit": ({ ask, answer, type, unit, is, example }) =>
    `${ask} is ${type}${unit === undefined ? "" : ` in ${unit}`}; “${answer}” is ${is}. ` +
    `Write for example ${example}.`,
  "answer/two-ways": ({ answer, whole, decimal }) =>
    `“${answer}” can be read in two ways. Write ${whole} or, if a decimal was meant, ${decimal}.`,
  "answer/count": ({ ask, answer }) => `${ask} is a count: a whole number, not ${answer}.`,
  "answer/range": ({ ask, answer, low, high }) =>
    `${ask} is asked from ${low} to ${high}; ${answer} is outside.`,
  "answer/tolerance": ({ ask, unit }) =>
    `The tolerance of ${ask} cannot be read: write it as an amount, for example ` +
    `± 0.2${unit === undefined ? "" : ` ${unit}`}.`,
  "answer/unreadable": ({ ask, answer, example, near }) =>
    `“${answer}” cannot be read as an answer to ${ask}; write for example ${example}.` +
    (near === undefined ? "" : ` Did you mean ${near}?`),
  "answer/too-long": ({ ask }) => `The answer to ${ask} is longer than any answer can be.`,
  "answer/not-asked": ({ ask }) => `The book does not ask for “${ask}”.`,
};

/** Why a value can never be known: "it divides by zero". */
export const reasonText = (reason: Reason): string => wordsOf(reasons, reason);

const cellsOf = (points: readonly RowFacts[], one: (point: RowFacts) => string): string =>
  points.map(one).join(" and ");

const decisions: WordsByCode<Decision> = {
  row: ({ row, cells }) => `row ${row}: ${cells}`,
  "at-row": ({ row, cells }) => `at row ${row}: ${cells}`,
  "between-rows": ({ points }) => `between rows ${cellsOf(points, ({ row, cells }) => `${row} (${cells})`)}`,
  "rows-of-chart": ({ chart, points }) =>
    cellsOf(points, ({ row, cells }) => `row ${row} of ${chart}: ${cells}`),
  "rows-agree": ({ rows }) => `rows ${rows.join(", ")} are all still possible and agree`,
  "rows-possible": ({ rows }) => `still possible: rows ${rows.join(", ")}`,
  "rows-left": ({ rows }) => `rows left: ${rows.join(", ")}`,
  "no-row-fits": () => "no row fits",
  "rows-both-apply": ({ rows }) =>
    `rows ${cellsOf(rows, ({ row, cells }) => `${row} (${cells})`)} both apply`,
  "answers-leave-no-row": ({ asks }) => `the answers to ${asks.join(", ")} leave no row`,
  since: (condition) => `since ${conditionText(condition)}`,
  otherwise: ({ not = [] }) =>
    not.length === 0
      ? "otherwise: none of the others applies"
      : `otherwise: ${not.map((one) => `not ${conditionText(one)}`).join(", ")}`,
  "not-settled": ({ condition }) => `not settled: ${condition}`,
  "as-in-book": ({ book }) => `elsewhere as in ${book ?? "the book below"}`,
  answered: ({ answer }) => `answered ${answer}`,
  "taken-for-blank": () => "not answered; the book takes this",
  "taken-instead": () => "answered: cannot tell; the book takes this instead",
  "not-answered": () => "not answered yet",
  unusable: ({ reason }) => reasonText(reason),
};

/** What decided a step of a trace: "row 3: hand-laid", "since wet is yes"; "" where nothing did alone. */
export const decisionsText = (of: readonly Decision[]): string =>
  of.map((one) => wordsOf(decisions, one)).join("; ");

const lineText = ({ what, name }: LineName): string => (what === undefined ? name : `${what} ${name}`);

const turns: WordsByCode<Turn> = {
  becomes: ({ name, word }) => `${name} becomes ${word}`,
  "has-no-value": ({ name }) => `${name} has no value`,
  holds: ({ line }) => `${lineText(line)} holds`,
  "no-longer-holds": ({ line }) => `${lineText(line)} no longer holds`,
  applies: ({ line }) => `${lineText(line)} applies`,
  "no-longer-applies": ({ line }) => `${lineText(line)} no longer applies`,
  "cannot-be-told": ({ line }) => `${lineText(line)} cannot be told`,
};

/** What another answer would turn: "method becomes wet-layup". */
export const turnText = (turn: Turn): string => wordsOf(turns, turn);

const doubts: WordsByCode<Doubt> = {
  "whether-holds": ({ line }) => `whether ${lineText(line)} holds turns within the tolerance: measure again`,
  "whether-applies": ({ line }) =>
    `whether ${lineText(line)} applies turns within the tolerance: measure again`,
  "may-be": ({ name, words }) =>
    `${name} may be ${words.length > 0 ? words.join(" or ") : "another"} within the tolerance: measure again`,
};

/** What a job's tolerances leave open: "method may be fill or layup within the tolerance: measure again". */
export const doubtText = (doubt: Doubt): string => wordsOf(doubts, doubt);
