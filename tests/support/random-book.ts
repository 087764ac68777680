// Random books that the checker accepts, and random jobs for them. Every statement is made by type: a rule is
// asked for as "a length" and is made of names and forms that give one.
import type { Chance } from "./chance.ts";

type Sort = "length" | "mass" | "number" | "share" | "temperature" | "yes-no" | "kind" | "time";

interface Known {
  readonly name: string;
  readonly sort: Sort;
  readonly kind?: Kind;
  readonly ask?: { readonly low: number; readonly high: number; readonly unit: string };
}

interface Kind {
  readonly name: string;
  readonly words: readonly string[];
}

export interface RandomBook {
  readonly text: string;
  readonly statements: readonly string[];
  /** For each ask, a few answers that it can have, some in other units. */
  readonly asks: readonly { readonly name: string; readonly answers: readonly string[] }[];
}

const UNIT: Record<Sort, string> = {
  length: "mm",
  mass: "g",
  number: "",
  share: "%",
  temperature: "°C",
  "yes-no": "",
  kind: "",
  time: "min",
};
const SORTS: readonly Sort[] = [
  "length",
  "length",
  "mass",
  "number",
  "share",
  "temperature",
  "yes-no",
  "kind",
  "time",
];

/**
 * `size` is about how many figures, charts and lists it has. `wide` adds what the checker may find fault
 * with, or what may have no value: charts of every way of reading with ends and holes, roots and quotients
 * that fail, more of the functions.
 */
export function randomBook(by: Chance, size = 12, wide = false): RandomBook {
  const kinds: Kind[] = Array.from({ length: 1 + by.whole(2) }, (_, k) => ({
    name: `kind-${k}`,
    words: Array.from({ length: 2 + by.whole(3) }, (_, w) => `word-${k}${"abcde"[w]}`),
  }));
  const known: Known[] = [];
  const steps: string[] = [];
  const statements: string[] = ['book random, edition 1\n    "A random book"'];
  for (const kind of kinds)
    statements.push(
      `kind ${kind.name}\n${kind.words.map((word) => `    ${word} "What ${word} means"`).join("\n")}`,
    );
  const maker = { by, known, kinds, wide };
  const askCount = 3 + by.whole(4);
  for (let i = 0; i < askCount; i++) statements.push(ask(maker, `ask-${i}`));
  for (let i = 0; i < 1 + by.whole(3); i++) statements.push(dial(maker, `dial-${i}`));
  for (let i = 0; i < size; i++) statements.push(valued(maker, i));
  for (let i = 0; i < 2 + by.whole(3); i++) {
    statements.push(line(maker, "step", `step-${i}`));
    steps.push(`step-${i}`);
  }
  for (let i = 0; i < by.whole(3); i++)
    statements.push(
      by.odds(0.3)
        ? `caution caution-${i} "Mind step" with step ${by.pick(steps)}`
        : line(maker, "caution", `caution-${i}`),
    );
  for (let i = 0; i < by.whole(2); i++) statements.push(line(maker, "stop", `stop-${i}`));
  if (wide && by.odds(0.6))
    statements.push(
      `figure all-told in min = sum of steps.takes + count of steps * 1 min`,
      `caution long "That is {all-told / 2}" when all-told > ${rule(maker, "time", 1)}`,
    );
  if (by.odds(0.5)) statements.push(`promise ${rule(maker, "yes-no", 1)} or stopped`);
  return {
    text: `${statements.join("\n")}\n`,
    statements,
    asks: known
      .filter((one) => one.ask !== undefined || /^ask-/.test(one.name))
      .map((one) => ({ name: one.name, answers: answersOf(one) })),
  };
}

/** Answers to some of the asks. */
export function randomAnswers(by: Chance, asks: RandomBook["asks"], share = 0.7): Record<string, string> {
  return Object.fromEntries(
    asks.flatMap(({ name, answers }) => (by.odds(share) ? [[name, by.pick(answers)]] : [])),
  );
}

interface Maker {
  readonly by: Chance;
  readonly known: Known[];
  readonly kinds: readonly Kind[];
  readonly wide: boolean;
}

function answersOf({ sort, kind, ask: range }: Known): string[] {
  if (sort === "kind") return [...kind!.words, "unknown"];
  if (sort === "yes-no") return ["yes", "no", "unknown"];
  const { low, high, unit } = range!;
  const between = (share: number) => low + (high - low) * share;
  const plain = [low, high, between(0.25), between(0.5), between(0.5)].map((x) =>
    `${sort === "number" ? Math.round(x) : x} ${unit}`.trim(),
  );
  if (sort === "length")
    return [...plain, "1/8 inch", "3.175 mm", "0.5 cm", `${between(0.5)} mm ± 0.2 mm`, String(between(0.25))];
  if (sort === "temperature") return [...plain, "59 °F", "68 °F"];
  return plain;
}

function ask({ by, known, kinds }: Maker, name: string): string {
  const sort = by.pick(SORTS);
  const take = (value: string) =>
    by.odds(0.5)
      ? `\n    if ${by.pick(["unknown", "unknown", "blank", "blank or unknown"])} take ${value} ` +
        'because "The careful side"'
      : "";
  if (sort === "kind") {
    const kind = by.pick(kinds);
    known.push({ name, sort, kind });
    return `ask ${name} of ${kind.name}\n    "What is ${name}?"${take(by.pick(kind.words))}`;
  }
  if (sort === "yes-no") {
    known.push({ name, sort });
    return `ask ${name} of yes-no\n    "Is it ${name}?"${take(by.pick(["yes", "no"]))}`;
  }
  const [low, high] = sort === "temperature" ? [-10, 40] : sort === "share" ? [0, 20] : [1, 60];
  const unit = sort === "number" ? "count" : UNIT[sort];
  known.push({ name, sort, ask: { low, high, unit: sort === "number" ? "" : unit } });
  return (
    `ask ${name} in ${unit}, ${low} to ${high}\n    "How ` +
    `much ${name}?"${take(sort === "number" ? "12" : `12 ${unit}`)}`
  );
}

function dial({ by, known }: Maker, name: string): string {
  const sort = by.pick(["length", "number", "share"] as const);
  known.push({ name, sort });
  const unit = UNIT[sort] ? ` ${UNIT[sort]}` : "";
  const value = 2 + by.whole(8);
  return (
    `dial ${name} = ${value}${sort === "number" ? ".5" : ""}${unit}, from ` +
    `1${sort === "number" ? ".5" : ""}${unit} to 20${sort === "number" ? ".5" : ""}${unit}\n    from practice`
  );
}

function valued(maker: Maker, i: number): string {
  const { by } = maker;
  if (maker.wide && by.odds(0.5)) {
    const made = by.pick([wideChart, keptChart, grid, wideList, calledChart, runningList])(maker, i);
    if (made !== undefined) return made;
  }
  switch (by.whole(8)) {
    case 0:
    case 1: {
      const made = chart(maker, `chart-${i}`);
      if (made !== undefined) return made;
      return figure(maker, `figure-${i}`);
    }
    case 2:
      return list(maker, `list-${i}`, `total-${i}`);
    default:
      return figure(maker, `figure-${i}`);
  }
}

function figure(maker: Maker, name: string): string {
  const { by, known, kinds } = maker;
  const sort = by.pick(SORTS);
  const kind = sort === "kind" ? by.pick(kinds) : undefined;
  const declared =
    sort === "kind"
      ? ` of ${kind!.name}`
      : sort === "yes-no"
        ? " of yes-no"
        : UNIT[sort] && by.odds(0.6)
          ? ` in ${UNIT[sort]}`
          : "";
  const text =
    `figure ${name}${declared} ` +
    `= ${rule(maker, sort, 3, kind)}` +
    (by.odds(0.3) ? `\n    because "{${name}} it is"\n    ` + `from practice` : "");
  known.push({ name, sort, ...(kind ? { kind } : {}) });
  return text;
}

function chart(maker: Maker, name: string): string | undefined {
  const { by, known, kinds } = maker;
  const over = known.filter((one) => one.ask !== undefined || one.sort === "kind" || one.sort === "yes-no");
  if (over.length === 0) return undefined;
  const first = by.pick(over);
  const second = by.odds(0.4) ? by.pick(over) : undefined;
  const conditions = second === undefined || second === first ? [first] : [first, second];
  const sort = by.pick(["length", "number", "kind"] as const);
  const kind = sort === "kind" ? by.pick(kinds) : undefined;
  const gives = kind?.name ?? (sort === "length" ? "mm" : "number");
  const value = () =>
    kind
      ? by.pick(kind.words)
      : by.odds(0.8)
        ? String(1 + by.whole(50))
        : sort === "length"
          ? rule(maker, "length", 1)
          : rule(maker, "number", 1);
  const straight = conditions.length === 1 && first.ask !== undefined && sort !== "kind" && by.odds(0.5);
  const option = straight
    ? `\n    ${by.pick(["straight", "curve"])} between rows, hold ends`
    : by.odds(0.2)
      ? "\n    first row wins"
      : "";
  const sides = conditions.map((one) => (straight ? points(by, one) : cells(by, one)));
  const rows =
    sides[1] === undefined
      ? sides[0]!.map((cell) => [cell])
      : sides[0]!.flatMap((cell) => sides[1]!.map((other) => [cell, other]));
  const text =
    `chart ${name} by ${conditions.map((one) => one.name).join(", ")} ` +
    `gives ${gives}${option}\n` +
    `    ${[...conditions.map((one) => one.name), name].join(" | ")}\n` +
    rows.map((cellsOfRow) => `    ${[...cellsOfRow, value()].join(" | ")}`).join("\n") +
    "\n    from practice";
  known.push({ name, sort, ...(kind ? { kind } : {}) });
  return text;
}

const points = (by: Chance, { ask: range }: Known): string[] => {
  const { low, high, unit } = range!;
  const count = 2 + by.whole(4);
  return Array.from({ length: count }, (_, i) => `${low + ((high - low) * i) / (count - 1)} ${unit}`.trim());
};

/** Cells that leave no hole and do not lie over one another. */
function cells(by: Chance, { sort, kind, ask: range }: Known): string[] {
  if (sort === "yes-no") return ["yes", "no"];
  if (sort === "kind") {
    const cut = 1 + by.whole(kind!.words.length - 1);
    return [kind!.words.slice(0, cut).join(", "), kind!.words.slice(cut).join(", ")];
  }
  const { low, high, unit } = range!;
  const at = (share: number) => `${Math.round(low + (high - low) * share)} ${unit}`.trim();
  return by.pick([
    ["any"],
    [`under ${at(0.5)}`, `${at(0.5)} and over`],
    [`up to ${at(0.3)}`, `over ${at(0.3)} to under ${at(0.7)}`, `${at(0.7)} and over`],
  ]);
}

function list(maker: Maker, name: string, total: string): string {
  const { by, known } = maker;
  const column = rule(maker, "length", 1);
  const to = by.odds(0.5) ? 1 + by.whole(6) : `${rule(maker, "number", 1)} rounded to whole`;
  known.push({ name: total, sort: "length" });
  return (
    `list ${name} for n from 1 to ${to}\n    across in mm = ${column} + n * 2 mm\n    heavy in g ` +
    `= 3 g * n\nfigure ${total} in mm = ${by.pick(["sum", "largest", "last"])} of ${name}.across`
  );
}

function line(maker: Maker, word: string, name: string): string {
  const { by, known } = maker;
  const shown = known.length > 0 && by.odds(0.6) ? ` with {${by.pick(known).name}}` : "";
  const when = by.odds(word === "stop" ? 1 : 0.6) ? ` when ${rule(maker, "yes-no", 2)}` : "";
  return (
    `${word} ${name} ` +
    `"Do ${name}${shown}"${when}` +
    (word === "step" && by.odds(0.5) ? `\n    takes ${rule(maker, "time", 1)}` : "")
  );
}

// ───────────── rules ─────────────

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one case for each sort of rule.
function rule(maker: Maker, sort: Sort, depth: number, kind?: Kind): string {
  const { by, known } = maker;
  const inner = (of: Sort, k?: Kind) => rule(maker, of, depth - 1, k);
  const names = known
    .filter((one) => one.sort === sort && (kind === undefined || one.kind === kind))
    .map((one) => one.name);
  if (depth <= 0 || by.odds(0.25))
    return names.length > 0 && by.odds(0.75) ? by.pick(names) : literal(by, sort, kind);
  if (by.odds(0.12)) return `(${inner(sort, kind)} if ${inner("yes-no")}, otherwise ${inner(sort, kind)})`;
  if (maker.wide && by.odds(0.35)) {
    const made = wideRule(maker, sort, depth);
    if (made !== undefined) return made;
  }
  switch (sort) {
    case "length":
    case "mass":
    case "time": {
      const unit = UNIT[sort];
      return by.pick([
        () => `(${inner(sort)} + ${inner(sort)})`,
        () => `(${inner(sort)} - ${inner(sort)})`,
        () => `${inner(sort)} * ${inner("number")}`,
        () => `${inner(sort)} / (1 + abs(${inner("number")}))`,
        () => `largest(${inner(sort)}, ${inner(sort)})`,
        () => `(${inner(sort)} rounded up to 5 ${unit})`,
        () => `(${inner("share")} of ${inner(sort)})`,
        () => `(${inner(sort)} / ${inner("number")})`,
        ...(sort === "length"
          ? [
              () => `(${inner("length")} run out at 1:12)`,
              () => `sqrt(${inner("length")} * ${inner("length")})`,
            ]
          : []),
      ])();
    }
    case "number":
      return by.pick([
        () => `(${inner("number")} + ${inner("number")})`,
        () => `${inner("number")} * ${inner("number")}`,
        () => `(${inner("length")} / ${inner("length")})`,
        () => `(${inner("number")}) ^ 2`,
        () => `smallest(${inner("number")}, ${inner("number")})`,
        () => `(-${inner("number")})`,
      ])();
    case "share":
      return by.pick([() => `(${inner("share")} + ${inner("share")})`, () => `(${inner("share")} * 2)`])();
    case "temperature":
      return by.pick([
        () => `(${inner("temperature")} + ${1 + by.whole(9)} °C apart)`,
        () => `largest(${inner("temperature")}, ${inner("temperature")})`,
      ])();
    case "yes-no": {
      const of = by.pick(["length", "mass", "number", "temperature"] as const);
      const unit = UNIT[of];
      return by.pick([
        () => `(${inner("yes-no")} and ${inner("yes-no")})`,
        () => `(${inner("yes-no")} or ${inner("yes-no")})`,
        () => `not ${inner("yes-no")}`,
        () => `(${inner(of)} ${by.pick(["<", "<=", ">", ">="])} ${inner(of)})`,
        () => `(${inner(of)} is 3 ${unit} to under 12 ${unit})`,
        () => {
          const k = by.pick(maker.kinds);
          return `(${inner("kind", k)} is one of ${k.words[0]}, ${k.words[1]})`;
        },
        () => {
          const k = by.pick(maker.kinds);
          return `(${inner("kind", k)} is ${by.pick(k.words)})`;
        },
      ])();
    }
    case "kind":
      return names.length > 0 ? by.pick(names) : literal(by, sort, kind);
  }
}

/** Forms that may fail, and the rarer functions. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one case for each sort of rule.
function wideRule(maker: Maker, sort: Sort, depth: number): string | undefined {
  const { by, known } = maker;
  const inner = (of: Sort) => rule(maker, of, depth - 1);
  const way = by.pick(["up to", "down to", "to"]);
  switch (sort) {
    case "length":
      return by.pick([
        () => `(${inner("length")} rounded ${way} ${by.pick(["0.1 mm", "1/8 inch", "7 mm", "0.3 mm"])})`,
        () => `(${inner("length")} rounded ${way} largest(0.5 mm, ${inner("length")}))`,
        () => `sqrt(${inner("length")} * (${inner("length")} - ${inner("length")}))`,
        () => `(${inner("length")} / (${inner("number")} - ${by.whole(9)}))`,
        () => `abs(${inner("length")} - ${inner("length")})`,
        () => `smallest(${inner("length")}, ${inner("length")}, ${inner("length")})`,
        () => `(${inner("length")} run out at taper(${inner("length")}, ${inner("length")}))`,
      ])();
    case "mass":
      return by.pick([
        () => `(${inner("mass")} rounded ${way} 10 g)`,
        () => `(${inner("mass")} paired at 100:28 by mass)`,
        () => `(${1 + by.whole(5)} % by mass of ${inner("mass")})`,
        () => `(${inner("mass")} / ${inner("number")})`,
      ])();
    case "number":
      return by.pick([
        () => `(${inner("number")}) ^ ${by.pick(["3", "4", "(-1)", "0.5", "(-2)", "0"])}`,
        () => `exp(${inner("number")} / 10)`,
        () => `ln(${inner("number")})`,
        () => `log10(${inner("number")})`,
        () => `sin(${inner("number")})`,
        () => `cos(${inner("number")})`,
        () => `tan(${inner("number")} / 20)`,
        () => `atan(${inner("number")})`,
        () => `sqrt(${inner("number")})`,
        () => `(${inner("number")} rounded ${way} ${by.pick(["whole", "0.3", "5"])})`,
        () => `ratio(${inner("share")})`,
        () => `(${inner("number")} / ${inner("number")})`,
        () => `(absolute(${inner("temperature")}) / 1 K apart)`,
        () => `(${inner("number")} - ${inner("number")})`,
        () => {
          const one = inner("number");
          return `(${one}) * (${one})`;
        },
        () => {
          const one = inner("number");
          return `((${one}) - (${one}))`;
        },
      ])();
    case "temperature":
      return by.pick([
        () => `(${inner("temperature")} rounded ${way} 5 °C)`,
        () => `(${inner("temperature")} - (${inner("temperature")} - ${inner("temperature")}))`,
        () => `smallest(${inner("temperature")}, ${inner("temperature")})`,
      ])();
    case "yes-no": {
      const of = by.pick(["length", "mass", "number", "temperature", "time", "share"] as const);
      return by.pick([
        () => `(${inner(of)} ${by.pick(["is", "is not", "<=", ">="])} ${inner(of)})`,
        () => `(${known.length > 0 ? by.pick(known).name : "pi"} is known)`,
        () => `(${inner("length")} is not over 1/8 inch to 12 mm)`,
        () => `(${inner("yes-no")} is ${inner("yes-no")})`,
        () =>
          `(${inner("length")} is ${by.pick(["", "over "])}${inner("length")} ` +
          `to ${by.pick(["", "under "])}${inner("length")})`,
      ])();
    }
    case "share":
    case "time":
    case "kind":
      return undefined;
  }
}

// ───────────── charts and lists of every form ─────────────

const numbers = ({ known }: Maker) =>
  known.filter((one) => ["length", "mass", "number", "share", "temperature", "time"].includes(one.sort));
const unitOf = (one: Known): string => one.ask?.unit ?? (one.sort === "number" ? "" : UNIT[one.sort]);
const rangeOf = (one: Known): { low: number; high: number } => one.ask ?? { low: 1, high: 60 };

/** Rows over anything known, with every form of band; they may leave a hole, and the first that fits wins. */
function wideChart(maker: Maker, i: number): string | undefined {
  const { by, known, kinds } = maker;
  const over = shuffledSome(
    by,
    known.filter((one) => one.sort === "kind" || one.sort === "yes-no" || numbers(maker).includes(one)),
    1 + by.whole(3),
  );
  if (over.length === 0) return undefined;
  const band = (one: Known): string => {
    if (one.sort === "yes-no") return by.pick(["yes", "no", "any"]);
    if (one.sort === "kind")
      return by.odds(0.2)
        ? "any"
        : one.kind!.words.filter(() => by.odds(0.5)).join(", ") || one.kind!.words[0]!;
    const { low, high } = rangeOf(one);
    const unit = unitOf(one);
    const [a, b] = [
      low + (high - low) * by.pick([0, 0.2, 0.4, 0.5]),
      low + (high - low) * by.pick([0.6, 0.7, 0.9, 1]),
    ].map((x) => Math.round(x * 10) / 10);
    const end = (x: number) => `${x} ${unit}`.trim();
    return by.pick([
      "any",
      `under ${end(b!)}`,
      `${end(a!)} and over`,
      `${end(a!)} to under ${end(b!)}`,
      `over ${end(a!)} to ${end(b!)}`,
      `up to ${end(b!)}`,
      `over ${end(a!)}`,
      `over ${end(a!)} to under ${end(b!)}`,
      end(b!),
    ]);
  };
  const sort = by.pick(["length", "number", "kind", "yes-no"] as const);
  const kind = sort === "kind" ? by.pick(kinds) : undefined;
  const gives = kind?.name ?? (sort === "length" ? "mm" : sort === "yes-no" ? "yes-no" : "number");
  const value = () =>
    sort === "kind"
      ? by.pick(kind!.words)
      : by.odds(0.7) && sort !== "yes-no"
        ? String(1 + by.whole(50))
        : rule(maker, sort, 1, kind);
  const rows = Array.from({ length: 2 + by.whole(5) }, () => [...over.map(band), value()].join(" | "));
  if (by.odds(0.7)) rows.push([...over.map(() => "any"), value()].join(" | "));
  known.push({ name: `wide-${i}`, sort, ...(kind ? { kind } : {}) });
  return (
    `chart wide-${i} by ${over.map((one) => one.name).join(", ")} gives ${gives}\n    first row ` +
    `wins\n` +
    `    ${[...over.map((one) => one.name), `wide-${i}`].join(" | ")}\n` +
    `${rows.map((row) => `    ${row}`).join("\n")}\n    from practice`
  );
}

const shuffledSome = <T>(by: Chance, from: readonly T[], count: number): T[] => {
  const rest = [...from];
  return Array.from(
    { length: Math.min(count, rest.length) },
    () => rest.splice(by.whole(rest.length), 1)[0]!,
  );
};

/** A chart that keeps every row, and what is asked of the rows that are left. */
function keptChart(maker: Maker, i: number): string | undefined {
  const { by, known, kinds } = maker;
  const over = shuffledSome(
    by,
    known.filter((one) => one.sort === "kind" || one.sort === "yes-no" || one.ask !== undefined),
    1 + by.whole(2),
  );
  if (over.length === 0) return undefined;
  const kind = by.pick(kinds);
  const cell = (one: Known): string => {
    if (one.sort === "yes-no") return by.pick(["yes", "no", "any"]);
    if (one.sort === "kind") return by.pick([...one.kind!.words, "any"]);
    const { low, high } = rangeOf(one);
    const at = `${Math.round((low + high) / 2)} ${unitOf(one)}`.trim();
    return by.pick(["any", `under ${at}`, `${at} and over`]);
  };
  const rows = Array.from(
    { length: 3 + by.whole(4) },
    () => `    ${[...over.map(cell), by.pick(kind.words)].join(" | ")}`,
  );
  known.push(
    { name: `left-${i}`, sort: "number" },
    { name: `least-${i}`, sort: "kind", kind },
    { name: `among-${i}`, sort: "yes-no" },
  );
  return (
    `chart kept-${i} by ${over.map((one) => one.name).join(", ")} gives ${kind.name}\n    keep ` +
    `every row that ` +
    `fits\n` +
    `    ${[...over.map((one) => one.name), `kept-${i}`].join(" | ")}\n${rows.join("\n")}\n    ` +
    `from practice\nfigure left-${i} = 1 * count of kept-${i}\nfigure least-${i} ` +
    `of ${kind.name} = first of kept-${i}\nfigure among-${i} of yes-no = ${by.pick(kind.words)} ` +
    `is among kept-${i}`
  );
}

/**
 * Points over one or two numbers, perhaps with words beside them, straight or along a curve, with or without
 * held ends.
 */
function grid(maker: Maker, i: number): string | undefined {
  const { by, known } = maker;
  const axes = shuffledSome(by, numbers(maker), 1 + by.whole(2));
  if (axes.length === 0) return undefined;
  const beside = by.odds(0.4) ? known.find((one) => one.sort === "kind" || one.sort === "yes-no") : undefined;
  const at = (one: Known) => {
    const { low, high } = rangeOf(one);
    const from = by.pick([0, 0.2]);
    const count = 2 + by.whole(3);
    return Array.from({ length: count }, (_, k) =>
      (
        Math.round((low + (high - low) * (from + ((1 - from) * k) / (count - 1))) * 100) / 100 +
        ` ${unitOf(one)}`
      ).trim(),
    );
  };
  const words =
    beside === undefined ? [undefined] : beside.sort === "yes-no" ? ["yes", "no"] : [...beside.kind!.words];
  const sort = by.pick(["length", "number"] as const);
  const value = () => (by.odds(0.9) ? String(by.whole(60) - 5) : rule(maker, sort, 1));
  const rows = words.flatMap((word) => {
    const [xs, ys] = [at(axes[0]!), axes[1] === undefined ? [undefined] : at(axes[1])];
    return xs.flatMap((x) =>
      ys.map((y) =>
        [...(word === undefined ? [] : [word]), x, ...(y === undefined ? [] : [y]), value()].join(" | "),
      ),
    );
  });
  const names = [...(beside === undefined ? [] : [beside.name]), ...axes.map((one) => one.name)];
  if (new Set(names).size < names.length) return undefined;
  known.push({ name: `grid-${i}`, sort });
  return (
    `chart grid-${i} by ${names.join(", ")} ` +
    `gives ${sort === "length" ? "mm" : "number"}\n    ${by.pick(["straight", "curve"])} ` +
    `between ` +
    `rows, ${by.pick(["hold ends", "nothing outside"])}\n` +
    `    ${[...names, `grid-${i}`].join(" | ")}\n${rows.map((row) => `    ${row}`).join("\n")}\n` +
    `    from practice`
  );
}

/** A list that may be empty, and every way of gathering it. */
function wideList(maker: Maker, i: number): string {
  const { by, known } = maker;
  const column = rule(maker, "length", 1);
  const to = by.pick([
    `${by.whole(6)}`,
    `${rule(maker, "number", 1)} rounded ${by.pick(["to", "up to", "down to"])} whole`,
  ]);
  const what = by.pick(["sum", "largest", "smallest", "first", "last"]);
  known.push({ name: `gathered-${i}`, sort: "length" }, { name: `counted-${i}`, sort: "number" });
  return (
    `list rows-${i} for n from ${by.pick(["1", "1", "2", "0"])} to ${to}\n    across in mm ` +
    `= ${column} - n * ${by.pick(["2 mm", "1/8 inch"])}\n    chosen in mm = across if across > ` +
    `5 mm, otherwise 3 mm / (n - ${by.whole(4)})\nfigure gathered-${i} in mm = ${what} of ` +
    `rows-${i}.${by.pick(["across", "chosen"])}\nfigure counted-${i} = 1 * count of rows-${i}`
  );
}

/**
 * A chart with conditions of its own, read in every way, and figures that call it; or a chart over what is
 * known, called with other values.
 */
function calledChart(maker: Maker, i: number): string {
  const { by, known, kinds } = maker;
  const kind = by.pick(kinds);
  const withKind = by.odds(0.5);
  const mode = by.pick([
    "",
    "    first row wins\n",
    "    straight between rows, hold ends\n",
    "    curve between rows\n",
  ]);
  const between = mode.includes("between");
  const value = () =>
    by.odds(0.7)
      ? String(by.whole(40))
      : by.pick(["d * 2", `d + ${rule(maker, "length", 1)}`, rule(maker, "length", 1)]);
  const words = withKind ? (by.odds(0.5) && !between ? ["any"] : [...kind.words]) : [""];
  const cells = between
    ? ["0 mm", "10 mm", "35 mm"]
    : by.pick([
        ["under 10 mm", "10 mm and over"],
        ["up to 10 mm", "over 10 mm to 30 mm"],
        ["5 mm", "10 mm", "12.5 mm"],
      ]);
  const rows = words.flatMap((word) =>
    cells.map((cell) => `    ${[...(withKind ? [word] : []), cell, value(), by.whole(9)].join(" | ")}`),
  );
  const given = (one: Kind) =>
    `${withKind ? `${rule(maker, "kind", 0, one)}, ` : ""}${rule(maker, "length", 1)}`;
  const calls = [
    `figure called-${i} in mm = by-${i}(${given(kind)}).across + by-${i}(${given(kind)}).across`,
    `figure factor-${i} = 2 * by-${i}(${given(kind)}).factor`,
  ];
  known.push({ name: `called-${i}`, sort: "length" }, { name: `factor-${i}`, sort: "number" });
  return (
    `chart by-${i} by ${withKind ? `k of ${kind.name}, ` : ""}d in mm gives across in mm, factor ` +
    `in ` +
    `number\n${mode}    ` +
    `${[...(withKind ? ["k"] : []), "d", "across", "factor"].join(" | ")}\n` +
    `${rows.join("\n")}\n    from practice\n${calls.join("\n")}`
  );
}

/** A list whose rows go on from the row above, with a start or without. */
function runningList(maker: Maker, i: number): string {
  const { by, known } = maker;
  const to = by.pick([`${1 + by.whole(7)}`, `${rule(maker, "number", 1)} rounded to whole`]);
  const start = by.pick(["n is 1", "n < 3", `n is 1 or ${rule(maker, "yes-no", 1)}`]);
  const step = by.pick([
    "so-far before + across",
    "largest(so-far before, across)",
    "across before - so-far before",
    "so-far before / 2 + across",
  ]);
  known.push({ name: `ran-${i}`, sort: "length" });
  return (
    `list runs-${i} for n from 1 to ${to}\n    across in mm = ${rule(maker, "length", 1)} + n * 2 ` +
    `mm\n    so-far in mm = across if ${start}, otherwise ${step}\n    again = 1 mm if n is 1, ` +
    `otherwise so-far before\nfigure ran-${i} in mm ` +
    `= ${by.pick(["sum", "last", "largest", "first"])} of runs-${i}.${by.pick(["so-far", "again"])}`
  );
}

function literal(by: Chance, sort: Sort, kind?: Kind): string {
  const value = by.pick([1, 2, 3, 5, 8, 12.5, 20, 0.5]);
  switch (sort) {
    case "kind":
      return by.pick(kind!.words);
    case "yes-no":
      return by.pick(["yes", "no"]);
    case "number":
      return String(value);
    case "length":
      return by.pick([`${value} mm`, "1/8 inch", "3.175 mm", `${value} cm`]);
    case "mass":
    case "share":
    case "temperature":
    case "time":
      return `${value} ${UNIT[sort]}`;
  }
}
