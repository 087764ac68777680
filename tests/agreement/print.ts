// Writes a small book as the text that the program reads, and notes where each alternative and row of it
// stands.
import type { Fraction } from "../engine/analysis/support/fraction.ts";
import type {
  Amount,
  Ask,
  Band,
  Cell,
  Chart,
  Line,
  List,
  Power,
  SmallBook,
  Sort,
  Statement,
  Truth,
} from "./syntax.ts";

export interface Printed {
  readonly text: string;
  /**
   * Where what can be reached stands, by its key in the meaning: start of an alternative's value, or of a
   * row.
   */
  readonly places: ReadonlyMap<number, string>;
}

/** A fraction with a finite decimal, as such. */
export function decimal({ top, bottom }: Fraction): string {
  const sign = top < 0n ? "-" : "";
  const size = top < 0n ? -top : top;
  let rest = size % bottom;
  let digits = "";
  while (rest !== 0n) {
    if (digits.length > 25) throw new Error(`${top}/${bottom} has no short decimal`);
    rest *= 10n;
    digits += String(rest / bottom);
    rest %= bottom;
  }
  return `${sign}${size / bottom}${digits && `.${digits}`}`;
}

const unitOf = (power: Power): string => (power === 0 ? "" : power === 1 ? "mm" : "mm2");
const measured = (value: Fraction, power: Power): string => `${decimal(value)} ${unitOf(power)}`.trim();
const amountSort = (sort: Sort): string =>
  "kind" in sort ? `of ${sort.kind.name}` : `in ${unitOf(sort.power) || "number"}`;

/** Every rule in brackets, so that no order of binding is relied on. */
function amountText(rule: Amount): string {
  switch (rule.is) {
    case "number":
      return measured(rule.value, rule.power);
    case "word":
      return rule.kind.words[rule.at]!;
    case "name":
      return rule.name;
    case "counter":
      return "n";
    case "above":
      return `(${rule.column} before)`;
    case "arithmetic":
      return `(${amountText(rule.a)} ${rule.does} ${amountText(rule.b)})`;
    case "extreme":
      return `${rule.does}(${amountText(rule.a)}, ${amountText(rule.b)})`;
    case "abs":
      return `abs(${amountText(rule.a)})`;
    case "round": {
      const way = rule.way === "near" ? "to" : `${rule.way} to`;
      return `(${amountText(rule.a)} rounded ${way} ${measured(rule.step, rule.power)})`;
    }
    case "choose":
      return `(${chooseText(rule).join("")})`;
    case "call":
      return `${rule.formula}(${rule.given.map(amountText).join(", ")})`;
    case "gather":
      return rule.what === "count"
        ? `(count of ${rule.list})`
        : `(${rule.what} of ${rule.list}.${rule.column})`;
    case "kept":
      return `(${rule.what} of ${rule.chart})`;
  }
}

/** In parts: each begins with the value of an alternative, the last is what stands otherwise. */
function chooseText(rule: Extract<Amount, { is: "choose" }>): readonly string[] {
  return [
    ...rule.cases.map((one) => `${amountText(one.value)} if ${truthText(one.when)}, `),
    "otherwise ",
    amountText(rule.otherwise),
  ];
}

function truthText(rule: Truth): string {
  switch (rule.is) {
    case "truth":
      return rule.value ? "yes" : "no";
    case "name":
      return rule.name;
    case "stopped":
      return "stopped";
    case "compare":
      return `(${amountText(rule.a)} ${rule.does} ${amountText(rule.b)})`;
    case "band":
      return `(${amountText(rule.of)} is ${bandText(rule.band, (x) => measured(x, rule.power))})`;
    case "words": {
      const words = rule.words.map((word) => rule.kind.words[word]!);
      return `(${amountText(rule.of)} is ${words.length === 1 ? words[0]! : `one of ${words.join(", ")}`})`;
    }
    case "both":
      return `(${truthText(rule.a)} and ${truthText(rule.b)})`;
    case "either":
      return `(${truthText(rule.a)} or ${truthText(rule.b)})`;
    case "not":
      return `(not ${truthText(rule.a)})`;
    case "known":
      return `(${rule.name} is known)`;
    case "among":
      return `(${rule.kind.words[rule.at]!} is among ${rule.chart})`;
  }
}

function bandText({ low, high }: Band, end: (x: Fraction) => string): string {
  if (low !== undefined && high !== undefined)
    return [
      low.included ? "" : "over ",
      end(low.value),
      " to ",
      high.included ? "" : "under ",
      end(high.value),
    ].join("");
  if (high !== undefined) return `${high.included ? "up to" : "under"} ${end(high.value)}`;
  if (low !== undefined) return low.included ? `${end(low.value)} and over` : `over ${end(low.value)}`;
  return "any";
}

function cellText(cell: Cell, sort: Chart["by"][number]["sort"]): string {
  switch (cell.is) {
    case "any":
      return "any";
    case "band":
      return bandText(cell.band, (x) => measured(x, sort !== "truth" && "power" in sort ? sort.power : 0));
    case "words":
      return cell.words
        .map((word) =>
          sort === "truth" ? ["no", "yes"][word]! : "kind" in sort ? sort.kind.words[word]! : "",
        )
        .join(", ");
  }
}

class Page {
  text = "";
  readonly places = new Map<number, string>();
  line(...parts: readonly string[]): void {
    this.text += `${parts.join("")}\n`;
  }
  /** What is written next can be reached by this key. */
  mark(key: string, behind: string): void {
    this.text += behind;
    this.places.set(this.text.length, key);
  }
}

export function printed(book: SmallBook): Printed {
  const page = new Page();
  page.line('book random, edition 1\n    "A random book"');
  for (const kind of book.kinds)
    page.line(`kind ${kind.name}\n`, kind.words.map((word) => `    ${word} "What ${word} means"`).join("\n"));
  for (const one of book.statements) statement(one, page);
  return { text: page.text, places: page.places };
}

function statement(one: Statement, page: Page): void {
  switch (one.is) {
    case "ask":
      page.line(askText(one));
      break;
    case "dial":
      page.line(`dial ${one.name} = ${measured(one.value, one.power)}\n    from practice`);
      break;
    case "figure":
      figure(one, page);
      break;
    case "decided":
      page.line(`figure ${one.name} of yes-no = ${truthText(one.rule)}`);
      break;
    case "formula":
      page.line(`formula ${one.name}(${one.takes.map(named).join(", ")}) = ${amountText(one.rule)}`);
      break;
    case "chart":
      chart(one, page);
      break;
    case "between":
      page.line(lineText(one));
      break;
    case "list":
      page.line(listText(one));
      break;
    case "step":
    case "caution":
    case "stop": {
      const shown = one.shows === undefined ? "" : ` with {${one.shows}}`;
      page.line(`${one.is} ${one.name} "Do ${one.name}${shown}" when ${truthText(one.when)}`);
      break;
    }
    case "promise":
      page.line(`promise ${truthText(one.rule)}${one.when ? ` when ${truthText(one.when)}` : ""}`);
      break;
  }
}

/** A name with what it is in, as a parameter or a column says it. */
const named = ({ name, power }: { readonly name: string; readonly power: Power }): string =>
  `${name} in ${unitOf(power) || "number"}`;

function figure(one: Extract<Statement, { is: "figure" }>, page: Page): void {
  page.text += `figure ${one.name} ${amountSort(one.sort)} = `;
  if (one.rule.is !== "choose") {
    page.line(amountText(one.rule));
    return;
  }
  const parts = chooseText(one.rule);
  parts.slice(0, -2).forEach((part, i) => {
    page.mark(`${one.name}/${i}`, "");
    page.text += part;
  });
  page.mark(`${one.name}/otherwise`, "otherwise ");
  page.line(parts.at(-1)!);
}

function askText({ name, answered, take }: Ask): string {
  const rule = take && ("truth" in take ? truthText(take.truth) : amountText(take.amount));
  const taken = rule === undefined ? "" : `\n    if unknown take ${rule} because "The careful side"`;
  return `ask ${name} ${answeredText(answered)}\n    "What is ${name}?"${taken}`;
}

function answeredText(answered: Ask["answered"]): string {
  switch (answered.is) {
    case "kind":
      return `of ${answered.kind.name}`;
    case "truth":
      return "of yes-no";
    case "count":
      return `in count, ${decimal(answered.low)} to ${decimal(answered.high)}`;
    case "length":
      return `in ${answered.unit}, ${decimal(answered.low)} to ${decimal(answered.high)}`;
  }
}

/** The lines of a chart up to its rows. */
function chartHead(name: string, by: readonly string[], gives: string, mode: string): string {
  const heads = `    ${[...by, name].join(" | ")}`;
  return `chart ${name} by ${by.join(", ")} gives ${gives}\n${mode && `    ${mode}\n`}${heads}`;
}

const MODES: Readonly<Record<Chart["mode"], string>> = {
  one: "",
  first: "first row wins",
  keep: "keep every row that fits",
};

function chart(one: Chart, page: Page): void {
  const gives = "kind" in one.gives ? one.gives.kind.name : unitOf(one.gives.power) || "number";
  const by = one.by.map((each) => each.name);
  page.line(chartHead(one.name, by, gives, MODES[one.mode]));
  one.rows.forEach((row, r) => {
    page.mark(`${one.name}/${r}`, "    ");
    const cells = row.cells.map((cell, c) => cellText(cell, one.by[c]!.sort));
    page.line([...cells, amountText(row.value)].join(" | "));
  });
  page.line("    from practice");
}

function lineText({ name, by, gives, points, hold }: Line): string {
  const power = by.sort !== "truth" && "power" in by.sort ? by.sort.power : 0;
  const rows = points.map(({ x, y }) => `    ${measured(x, power)} | ${measured(y, gives.power)}`);
  const mode = `straight between rows, ${hold ? "hold ends" : "nothing outside"}`;
  const head = chartHead(name, [by.name], unitOf(gives.power) || "number", mode);
  return `${head}\n${rows.join("\n")}\n    from practice`;
}

function listText({ name, count, columns }: List): string {
  const rows = columns.map((one) => `    ${named(one)} = ${amountText(one.rule)}`);
  return `list ${name} for n from 1 to ${amountText(count)}\n${rows.join("\n")}`;
}
