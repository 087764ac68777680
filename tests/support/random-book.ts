// Random books that the checker accepts, and random jobs for them. Every statement is made by type: a rule is asked for
// as "a length" and is made of names and forms that give one.
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

const UNIT: Record<Sort, string> = { length: "mm", mass: "g", number: "", share: "%", temperature: "°C", "yes-no": "", kind: "", time: "min" };
const SORTS: readonly Sort[] = ["length", "length", "mass", "number", "share", "temperature", "yes-no", "kind", "time"];

/** `size` is about how many figures, charts and lists it has. */
export function randomBook(by: Chance, size = 12): RandomBook {
  const kinds: Kind[] = Array.from({ length: 1 + by.whole(2) }, (_, k) => ({ name: `kind-${k}`, words: Array.from({ length: 2 + by.whole(3) }, (_, w) => `word-${k}${"abcde"[w]}`) }));
  const known: Known[] = [];
  const steps: string[] = [];
  const statements: string[] = ["book random, edition 1\n    \"A random book\""];
  for (const kind of kinds) statements.push(`kind ${kind.name}\n${kind.words.map((word) => `    ${word} "What ${word} means"`).join("\n")}`);
  const maker = { by, known, kinds };
  const askCount = 3 + by.whole(4);
  for (let i = 0; i < askCount; i++) statements.push(ask(maker, `ask-${i}`));
  for (let i = 0; i < 1 + by.whole(3); i++) statements.push(dial(maker, `dial-${i}`));
  for (let i = 0; i < size; i++) statements.push(valued(maker, i));
  for (let i = 0; i < 2 + by.whole(3); i++) { statements.push(line(maker, "step", `step-${i}`)); steps.push(`step-${i}`); }
  for (let i = 0; i < by.whole(3); i++) statements.push(by.odds(0.3) ? `caution caution-${i} "Mind step" with step ${by.pick(steps)}` : line(maker, "caution", `caution-${i}`));
  for (let i = 0; i < by.whole(2); i++) statements.push(line(maker, "stop", `stop-${i}`));
  if (by.odds(0.5)) statements.push(`promise ${rule(maker, "yes-no", 1)} or stopped`);
  return { text: `${statements.join("\n")}\n`, statements, asks: known.filter((one) => one.ask !== undefined || /^ask-/.test(one.name)).map((one) => ({ name: one.name, answers: answersOf(one) })) };
}

/** Answers to some of the asks. */
export function randomAnswers(by: Chance, asks: RandomBook["asks"], share = 0.7): Record<string, string> {
  return Object.fromEntries(asks.flatMap(({ name, answers }) => (by.odds(share) ? [[name, by.pick(answers)]] : [])));
}

interface Maker {
  readonly by: Chance;
  readonly known: Known[];
  readonly kinds: readonly Kind[];
}

function answersOf({ sort, kind, ask: range }: Known): string[] {
  if (sort === "kind") return [...kind!.words, "unknown"];
  if (sort === "yes-no") return ["yes", "no", "unknown"];
  const { low, high, unit } = range!;
  const between = (share: number) => low + (high - low) * share;
  const plain = [low, high, between(0.25), between(0.5), between(0.5)].map((x) => `${sort === "number" ? Math.round(x) : x} ${unit}`.trim());
  if (sort === "length") return [...plain, "1/8 inch", "3.175 mm", "0.5 cm", `${between(0.5)} mm ± 0.2 mm`, String(between(0.25))];
  if (sort === "temperature") return [...plain, "59 °F", "68 °F"];
  return plain;
}

function ask({ by, known, kinds }: Maker, name: string): string {
  const sort = by.pick(SORTS);
  const take = (value: string) => (by.odds(0.4) ? `\n    if unknown take ${value} because "The careful side"` : "");
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
  return `ask ${name} in ${unit}, ${low} to ${high}\n    "How much ${name}?"${take(sort === "number" ? "12" : `12 ${unit}`)}`;
}

function dial({ by, known }: Maker, name: string): string {
  const sort = by.pick(["length", "number", "share"] as const);
  known.push({ name, sort });
  const unit = UNIT[sort] ? ` ${UNIT[sort]}` : "";
  const value = 2 + by.whole(8);
  return `dial ${name} = ${value}${sort === "number" ? ".5" : ""}${unit}, from 1${sort === "number" ? ".5" : ""}${unit} to 20${sort === "number" ? ".5" : ""}${unit}\n    from practice`;
}

function valued(maker: Maker, i: number): string {
  const { by } = maker;
  switch (by.whole(8)) {
    case 0: case 1: { const made = chart(maker, `chart-${i}`); if (made !== undefined) return made; return figure(maker, `figure-${i}`); }
    case 2: return list(maker, `list-${i}`, `total-${i}`);
    default: return figure(maker, `figure-${i}`);
  }
}

function figure(maker: Maker, name: string): string {
  const { by, known, kinds } = maker;
  const sort = by.pick(SORTS);
  const kind = sort === "kind" ? by.pick(kinds) : undefined;
  const declared = sort === "kind" ? ` of ${kind!.name}` : sort === "yes-no" ? " of yes-no" : UNIT[sort] && by.odds(0.6) ? ` in ${UNIT[sort]}` : "";
  const text = `figure ${name}${declared} = ${rule(maker, sort, 3, kind)}${by.odds(0.3) ? `\n    because "{${name}} it is"\n    from practice` : ""}`;
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
  const value = () => (kind ? by.pick(kind.words) : by.odds(0.8) ? String(1 + by.whole(50)) : sort === "length" ? rule(maker, "length", 1) : rule(maker, "number", 1));
  const straight = conditions.length === 1 && first.ask !== undefined && sort !== "kind" && by.odds(0.5);
  const option = straight ? `\n    ${by.pick(["straight", "curve"])} between rows, hold ends` : by.odds(0.2) ? "\n    first row wins" : "";
  const sides = conditions.map((one) => (straight ? points(by, one) : cells(by, one)));
  const rows = sides[1] === undefined ? sides[0]!.map((cell) => [cell]) : sides[0]!.flatMap((cell) => sides[1]!.map((other) => [cell, other]));
  const text = `chart ${name} by ${conditions.map((one) => one.name).join(", ")} gives ${gives}${option}\n    ${[...conditions.map((one) => one.name), name].join(" | ")}\n${rows.map((cellsOfRow) => `    ${[...cellsOfRow, value()].join(" | ")}`).join("\n")}\n    from practice`;
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
  if (sort === "kind") { const cut = 1 + by.whole(kind!.words.length - 1); return [kind!.words.slice(0, cut).join(", "), kind!.words.slice(cut).join(", ")]; }
  const { low, high, unit } = range!;
  const at = (share: number) => `${Math.round(low + (high - low) * share)} ${unit}`.trim();
  return by.pick([["any"], [`under ${at(0.5)}`, `${at(0.5)} and over`], [`up to ${at(0.3)}`, `over ${at(0.3)} to under ${at(0.7)}`, `${at(0.7)} and over`]]);
}

function list(maker: Maker, name: string, total: string): string {
  const { by, known } = maker;
  const column = rule(maker, "length", 1);
  const to = by.odds(0.5) ? 1 + by.whole(6) : `${rule(maker, "number", 1)} rounded to whole`;
  known.push({ name: total, sort: "length" });
  return `list ${name} for n from 1 to ${to}\n    across in mm = ${column} + n * 2 mm\n    heavy in g = 3 g * n\nfigure ${total} in mm = ${by.pick(["sum", "largest", "last"])} of ${name}.across`;
}

function line(maker: Maker, word: string, name: string): string {
  const { by, known } = maker;
  const shown = known.length > 0 && by.odds(0.6) ? ` with {${by.pick(known).name}}` : "";
  const when = by.odds(word === "stop" ? 1 : 0.6) ? ` when ${rule(maker, "yes-no", 2)}` : "";
  return `${word} ${name} "Do ${name}${shown}"${when}${word === "step" && by.odds(0.5) ? `\n    takes ${rule(maker, "time", 1)}` : ""}`;
}

// ───────────── rules ─────────────

function rule(maker: Maker, sort: Sort, depth: number, kind?: Kind): string {
  const { by, known } = maker;
  const inner = (of: Sort, k?: Kind) => rule(maker, of, depth - 1, k);
  const names = known.filter((one) => one.sort === sort && (kind === undefined || one.kind === kind)).map((one) => one.name);
  if (depth <= 0 || by.odds(0.25)) return names.length > 0 && by.odds(0.75) ? by.pick(names) : literal(by, sort, kind);
  if (by.odds(0.12)) return `(${inner(sort, kind)} if ${inner("yes-no")}, otherwise ${inner(sort, kind)})`;
  switch (sort) {
    case "length": case "mass": case "time": {
      const unit = UNIT[sort];
      return by.pick([
        () => `(${inner(sort)} + ${inner(sort)})`, () => `(${inner(sort)} - ${inner(sort)})`, () => `${inner(sort)} * ${inner("number")}`, () => `${inner(sort)} / (1 + abs(${inner("number")}))`,
        () => `largest(${inner(sort)}, ${inner(sort)})`, () => `(${inner(sort)} rounded up to 5 ${unit})`, () => `(${inner("share")} of ${inner(sort)})`, () => `(${inner(sort)} / ${inner("number")})`,
        ...(sort === "length" ? [() => `(${inner("length")} run out at 1:12)`, () => `sqrt(${inner("length")} * ${inner("length")})`] : []),
      ])();
    }
    case "number": return by.pick([() => `(${inner("number")} + ${inner("number")})`, () => `${inner("number")} * ${inner("number")}`, () => `(${inner("length")} / ${inner("length")})`, () => `(${inner("number")}) ^ 2`, () => `smallest(${inner("number")}, ${inner("number")})`, () => `(-${inner("number")})`])();
    case "share": return by.pick([() => `(${inner("share")} + ${inner("share")})`, () => `(${inner("share")} * 2)`])();
    case "temperature": return by.pick([() => `(${inner("temperature")} + ${1 + by.whole(9)} °C apart)`, () => `largest(${inner("temperature")}, ${inner("temperature")})`])();
    case "yes-no": {
      const of = by.pick(["length", "mass", "number", "temperature"] as const);
      const unit = UNIT[of];
      return by.pick([
        () => `(${inner("yes-no")} and ${inner("yes-no")})`, () => `(${inner("yes-no")} or ${inner("yes-no")})`, () => `not ${inner("yes-no")}`,
        () => `(${inner(of)} ${by.pick(["<", "<=", ">", ">="])} ${inner(of)})`, () => `(${inner(of)} is 3 ${unit} to under 12 ${unit})`,
        () => { const k = by.pick(maker.kinds); return `(${inner("kind", k)} is one of ${k.words[0]}, ${k.words[1]})`; },
        () => { const k = by.pick(maker.kinds); return `(${inner("kind", k)} is ${by.pick(k.words)})`; },
      ])();
    }
    case "kind": return names.length > 0 ? by.pick(names) : literal(by, sort, kind);
  }
}

function literal(by: Chance, sort: Sort, kind?: Kind): string {
  const value = by.pick([1, 2, 3, 5, 8, 12.5, 20, 0.5]);
  switch (sort) {
    case "kind": return by.pick(kind!.words);
    case "yes-no": return by.pick(["yes", "no"]);
    case "number": return String(value);
    case "length": return by.pick([`${value} mm`, "1/8 inch", "3.175 mm", `${value} cm`]);
    case "mass": case "share": case "temperature": case "time": return `${value} ${UNIT[sort]}`;
  }
}
