// What two books write differently, statement by statement, in words: the first half of a comparison.
// Statements are matched by their row ids (`figure bevel-width`); what a change does to jobs is found
// elsewhere, by working them.
import type { RuleChangeView } from "../../../core/view.ts";
import type { Entry } from "../../language/check/book.ts";
import { oneLine } from "../../program/eval/show.ts";
import { parseStatement } from "../../language/syntax/parse.ts";
import { isLine } from "../../language/syntax/statement-words.ts";
import type { Clauses, Statement } from "../../language/syntax/tree.ts";

/** Statements that make no rule: the head of a book and its headings. */
const HEADS = new Set(["book", "part"]);

/**
 * Changes from one list of statements to another, in the order of the second; what was dropped comes where it
 * stood in the first.
 */
export function ruleChanges(
  allBefore: readonly Entry[],
  allAfter: readonly Entry[],
): readonly RuleChangeView[] {
  // A rule that is kept only as the value underneath another is no change of its own.
  const [before, after] = [allBefore, allAfter].map((entries) =>
    entries.filter((entry) => entry.from?.hidden === undefined),
  ) as [Entry[], Entry[]];
  const old = new Map(before.map((entry) => [entry.id, entry]));
  const fresh = new Map(after.map((entry) => [entry.id, entry]));
  const changes: RuleChangeView[] = [];
  for (const entry of before)
    if (!fresh.has(entry.id) && !HEADS.has(entry.statement.body.keyword))
      changes.push({
        id: entry.id,
        does: "dropped",
        says: `${entry.id} is dropped`,
        details: whole(entry),
        wordsOnly: false,
      });
  for (const entry of after) {
    if (HEADS.has(entry.statement.body.keyword)) continue;
    const was = old.get(entry.id);
    if (was === undefined)
      changes.push({
        id: entry.id,
        does: "added",
        says: `${entry.id} is new`,
        details: whole(entry),
        wordsOnly: false,
      });
    else if (oneLine(was.statement.text) !== oneLine(entry.statement.text)) changes.push(changed(was, entry));
  }
  for (const id of movedLines(before, after))
    if (!changes.some((one) => one.id === id))
      changes.push({
        id,
        does: "moved",
        says: `${id} stands elsewhere in the order`,
        details: [],
        wordsOnly: false,
      });
  return changes;
}

const whole = (entry: Entry): readonly string[] => {
  const { text, ruleAt } = entry.statement;
  return [
    ruleAt === undefined ? oneLine(text.split("\n")[0]!) : oneLine(text.slice(ruleAt.start, ruleAt.end)),
  ];
};

/**
 * In a combined book a statement has parts of what it replaces, with places in another text: here it counts
 * as it is written.
 */
const asWritten = (entry: Entry): { readonly statement: Statement } =>
  entry.from === undefined ? entry : { statement: parseStatement(entry.piece.text) };

function changed(wasEntry: Entry, nowEntry: Entry): RuleChangeView {
  const id = nowEntry.id;
  const [was, now] = [asWritten(wasEntry), asWritten(nowEntry)];
  const parts = bodyParts(was.statement, now.statement);
  const words: string[] = [];
  const [a, b] = [was.statement.clauses, now.statement.clauses];
  const clause = (name: string, of: (clauses: Clauses) => unknown, into: string[]) => {
    const [x, y] = [clauseText(was.statement, of), clauseText(now.statement, of)];
    // What an `instead` does not say again is kept.
    if (
      name === "title" &&
      ((y === "" && now.statement.instead !== undefined) || (x === "" && was.statement.instead !== undefined))
    )
      return;
    if (x !== y)
      into.push(
        x === "" ? `${name} ${y} is new` : y === "" ? `${name} ${x} is gone` : `${name} ${x} becomes ${y}`,
      );
  };
  // A line's text is its rule, and is listed as such.
  if (!isLine(now.statement.body.keyword)) clause("title", (clauses) => clauses.title, words);
  clause("reason", (clauses) => clauses.because, words);
  clause("then", (clauses) => clauses.then, words);
  clause("basis", (clauses) => clauses.from, words);
  for (const [name, of] of [
    ["when", (c: Clauses) => c.when],
    ["takes", (c: Clauses) => c.takes],
    ["waits", (c: Clauses) => c.waits],
    ["measured to", (c: Clauses) => c.measured],
    ["if unknown take", (c: Clauses) => c.ifUnknown?.take],
    ["if blank take", (c: Clauses) => c.ifBlank?.take],
  ] as const)
    clause(name, of, parts);
  const withSteps = (clauses: Clauses) => (clauses.withSteps ?? []).map((one) => one.text).join(", ");
  if (withSteps(a) !== withSteps(b))
    parts.push(`with step ${withSteps(a) || "none"} becomes with step ${withSteps(b) || "none"}`);
  if (parts.length === 0 && words.length === 0) parts.push("written otherwise");
  const details = [...parts, ...words];
  return {
    id,
    does: "changed",
    says: `${id}: ${details[0]!}${details.length > 1 ? ` (and ${details.length - 1} more)` : ""}`,
    details,
    wordsOnly: parts.length === 0,
  };
}

/** Parts that decide values: rules, rows, words of a kind, a range. */
function bodyParts(was: Statement, now: Statement): string[] {
  const [a, b] = [was.body, now.body];
  if (a.keyword === "chart" && b.keyword === "chart") return chartParts(a, b, was.text, now.text);
  if (a.keyword === "kind" && b.keyword === "kind") {
    const [x, y] = [a.words.map((one) => one.word), b.words.map((one) => one.word)];
    const parts = [
      ...y.filter((word) => !x.includes(word)).map((word) => `word ${word} is new`),
      ...x.filter((word) => !y.includes(word)).map((word) => `word ${word} is dropped`),
    ];
    if (parts.length === 0 && x.join() !== y.join()) parts.push(`the order becomes ${y.join(", ")}`);
    return parts;
  }
  const spanKept =
    a.keyword === "dial" &&
    (was.instead !== undefined || now.instead !== undefined) &&
    ruleOf(was).includes(", from ") !== ruleOf(now).includes(", from ");
  const [x, y] = [ruleOf(was), ruleOf(now)].map((rule) =>
    spanKept ? rule.replace(/, from .*/, "") : rule,
  ) as [string, string];
  if (x !== y) return [`${x} becomes ${y}`];
  // A list's columns and a worked example's expectations stand outside the rule's place.
  if (a.keyword === "list" || a.keyword === "worked") {
    const [one, two] = [oneLine(withoutClauses(was)), oneLine(withoutClauses(now))];
    if (one !== two)
      return [
        a.keyword === "list"
          ? "its columns are written otherwise"
          : "what it gives or expects is written otherwise",
      ];
  }
  return [];
}

type Chart = Extract<Statement["body"], { keyword: "chart" }>;

function chartParts(a: Chart, b: Chart, textA: string, textB: string): string[] {
  const parts: string[] = [];
  const names = (chart: Chart) => chart.conditions.map((one) => one.text).join(", ");
  if (names(a) !== names(b)) return [`it goes by ${names(b)}, no longer by ${names(a)}`];
  const gives = (chart: Chart, text: string) =>
    chart.gives.map((one) => oneLine(text.slice(one.at.start, one.at.end))).join(", ");
  if (gives(a, textA) !== gives(b, textB))
    parts.push(`gives ${gives(a, textA)} becomes gives ${gives(b, textB)}`);
  const options = (chart: Chart) =>
    chart.options
      .map((one) => one.option)
      .sort()
      .join(", ");
  if (options(a) !== options(b))
    parts.push(`read as ${options(a) || "bands"} becomes read as ${options(b) || "bands"}`);
  // A row is known by its conditions, in the order of the names, wherever its columns stand.
  const rows = (chart: Chart) =>
    new Map(
      chart.rows.map((row) => {
        const at = (name: string) => chart.header.findIndex((cell) => cell.text.trim() === name);
        const key = chart.conditions.map((one) => oneLine(row.cells[at(one.text)]?.text ?? "")).join(" | ");
        const rest = row.cells
          .filter((_, i) => !chart.conditions.some((one) => at(one.text) === i))
          .map((cell) => oneLine(cell.text))
          .join(" | ");
        return [key, rest] as const;
      }),
    );
  const [x, y] = [rows(a), rows(b)];
  for (const [key, value] of y) {
    const before = x.get(key);
    if (before === undefined) parts.push(`row ${key} is new: ${value}`);
    else if (before !== value) parts.push(`row ${key}: ${before} becomes ${value}`);
  }
  for (const [key, value] of x) if (!y.has(key)) parts.push(`row ${key} is dropped: it gave ${value}`);
  if (parts.length === 0 && [...x.keys()].join("\n") !== [...y.keys()].join("\n"))
    parts.push("its rows stand in another order");
  return parts;
}

const ruleOf = ({ text, ruleAt }: Statement): string =>
  ruleAt === undefined ? "" : oneLine(text.slice(ruleAt.start, ruleAt.end));

function withoutClauses(statement: Statement): string {
  const { text, clauses } = statement;
  const cut = [clauses.because?.at, clauses.from?.at, clauses.title?.at]
    .filter((at) => at !== undefined)
    .sort((a, b) => b.start - a.start);
  return cut.reduce((left, at) => left.slice(0, at.start) + left.slice(at.end), text);
}

function clauseText(statement: Statement, of: (clauses: Clauses) => unknown): string {
  const found = of(statement.clauses) as
    | { readonly at?: { readonly start: number; readonly end: number } }
    | undefined;
  return found?.at === undefined ? "" : oneLine(statement.text.slice(found.at.start, found.at.end));
}

/**
 * Lines that both books have and that stand in another order among themselves: the fewest whose moving
 * explains it.
 */
function movedLines(before: readonly Entry[], after: readonly Entry[]): readonly string[] {
  const lines = (entries: readonly Entry[]) =>
    entries.filter((entry) => isLine(entry.statement.body.keyword)).map((entry) => entry.id);
  const place = new Map(lines(before).map((id, i) => [id, i]));
  const common = lines(after).filter((id) => place.has(id));
  const kept = longestRising(common.map((id) => place.get(id)!));
  return common.filter((_, i) => !kept.has(i));
}

/**
 * Places of a longest rising run of numbers (not necessarily next to one another), by patience sorting:
 * Fredman, Discrete Math. 11 (1975) 29-35.
 */
function longestRising(numbers: readonly number[]): ReadonlySet<number> {
  const tops: number[] = [];
  const behind: number[] = [];
  numbers.forEach((value, i) => {
    let [low, high] = [0, tops.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (numbers[tops[middle]!]! < value) low = middle + 1;
      else high = middle;
    }
    behind[i] = low > 0 ? tops[low - 1]! : -1;
    tops[low] = i;
  });
  const kept = new Set<number>();
  for (let at = tops.at(-1) ?? -1; at >= 0; at = behind[at]!) kept.add(at);
  return kept;
}
