// Random expression trees of every form, typed or not, as the parser would make them (places left at nought).
import type { Band, BinaryOp, Expr, UnitText } from "../../engine/language/syntax/tree.ts";
import type { Chance } from "./chance.ts";

const AT = { start: 0, end: 0 };
const word = (text: string) => ({ at: AT, text });
const NAMES = [
  "depth",
  "bevel-width",
  "smc",
  "longest-side",
  "Länge",
  "x2",
  "known",
  "before",
  "edition",
  "over-spray",
];
const UNITS: readonly UnitText[] = [
  { at: AT, text: "mm", apart: false },
  { at: AT, text: "g/m2", apart: false },
  { at: AT, text: "°C", apart: false },
  { at: AT, text: "°F", apart: true },
  { at: AT, text: "%", apart: false },
  { at: AT, text: "%", apart: false, by: "mass" },
  { at: AT, text: "inch", apart: false },
  { at: AT, text: "EUR/h", apart: false },
];
const BINARY: readonly BinaryOp[] = [
  "+",
  "-",
  "*",
  "/",
  "^",
  "of",
  "run out at",
  "paired at",
  "<",
  "<=",
  ">",
  ">=",
  "is",
  "is not",
  "and",
  "or",
];

export function randomTree(by: Chance, depth: number): Expr {
  const inner = () => randomTree(by, depth - 1);
  if (depth <= 0) return leaf(by);
  switch (by.whole(14)) {
    case 12:
      return {
        is: "of-known",
        at: AT,
        what: by.pick(["first", "smallest", "largest", "count"] as const),
        items: Array.from({ length: 1 + by.whole(3) }, () => item(by)),
      };
    case 11:
      return { is: "counted", at: AT, of: inner(), unit: by.pick(UNITS) };
    case 0: {
      const of = inner();
      return of.is === "number" || of.is === "quantity" ? of : { is: "minus", at: AT, of };
    }
    case 1:
      return { is: "not", at: AT, of: inner() };
    case 2:
    case 3:
    case 4:
    case 5:
      return { is: "binary", at: AT, op: by.pick(BINARY), opAt: AT, left: inner(), right: inner() };
    case 6:
      return {
        is: "round",
        at: AT,
        way: by.pick(["up", "down", "near"] as const),
        of: inner(),
        to: by.odds(0.3) ? "whole" : inner(),
      };
    case 7:
      return { is: "in-band", at: AT, of: inner(), band: band(by, inner), not: by.odds(0.3) };
    case 8:
      return {
        is: "one-of",
        at: AT,
        of: inner(),
        items: Array.from({ length: 1 + by.whole(3) }, () => item(by)),
        not: by.odds(0.3),
      };
    case 9:
      return by.odds(0.5)
        ? { is: "known", at: AT, of: inner(), not: by.odds(0.3) }
        : { is: "among", at: AT, of: inner(), chart: word(by.pick(NAMES)), not: by.odds(0.3) };
    case 10:
      return {
        is: "choose",
        at: AT,
        cases: Array.from({ length: 1 + by.whole(3) }, () => ({ value: inner(), when: inner() })),
        ...(by.odds(0.7) ? { otherwise: inner() } : {}),
      };
    default:
      return {
        is: "call",
        at: AT,
        name: word(by.pick(["largest", "sqrt", "area"])),
        args: Array.from({ length: by.whole(4) }, inner),
        ...(by.odds(0.3) ? { field: word(by.pick(NAMES)) } : {}),
      };
  }
}

function leaf(by: Chance): Expr {
  switch (by.whole(9)) {
    case 0:
    case 1:
      return literal(by);
    case 2:
      return { is: "truth", at: AT, value: by.odds(0.5) };
    case 3:
      return {
        is: "gather",
        at: AT,
        what: by.pick(["sum", "largest", "smallest", "count", "first", "last"] as const),
        from: word(by.pick(NAMES)),
        ...(by.odds(0.7) ? { field: word(by.pick(NAMES)) } : {}),
      };
    case 4:
      return { is: "name", at: AT, name: by.pick(NAMES), field: word(by.pick(NAMES)) };
    case 6:
      return { is: "before", at: AT, name: word(by.pick(NAMES)) };
    case 5:
      return { is: "text", at: AT, text: { at: AT, pieces: pieces(by) } };
    default:
      return { is: "name", at: AT, name: by.pick(NAMES) };
  }
}

function literal(by: Chance): Expr {
  const positive = by.pick([0, 1, 2.5, 12, 450, 1 / 3, 1e21, 0.0001]);
  const value = by.odds(0.25) ? -positive : positive;
  switch (by.whole(5)) {
    case 0:
      return { is: "number", at: AT, value };
    case 1:
      return { is: "quantity", at: AT, parts: [{ value, unit: by.pick(UNITS) }] };
    case 2:
      return {
        is: "quantity",
        at: AT,
        parts: [
          { value: Math.sign(value) || 1, unit: { at: AT, text: "h", apart: false } },
          { value: (Math.sign(value) || 1) * 30, unit: { at: AT, text: "min", apart: false } },
        ],
      };
    case 3:
      return { is: "taper", at: AT, thickness: 1, run: by.pick([8, 12, 12.5]) };
    default:
      return {
        is: "mix",
        at: AT,
        first: 100,
        second: by.pick([28, 2.5]),
        by: by.pick(["mass", "volume"] as const),
      };
  }
}

const item = (by: Chance): Expr =>
  by.odds(0.5) ? literal(by) : { is: "name", at: AT, name: by.pick(NAMES) };

function band(by: Chance, end: () => Expr): Band {
  switch (by.whole(6)) {
    case 0:
      return { at: AT, lowIn: true, highIn: true };
    case 1:
      return { at: AT, lowIn: true, high: end(), highIn: by.odds(0.5) };
    case 2:
      return { at: AT, low: end(), lowIn: by.odds(0.5), highIn: true };
    default:
      return { at: AT, low: end(), lowIn: by.odds(0.5), high: end(), highIn: by.odds(0.5) };
  }
}

/** Plain stretches do not touch, as in a text that was read. */
function pieces(by: Chance) {
  const plain = by
    .pick(["Grind out ", 'a "quoted" word', "braces { and }", "''", "-- no comment"])
    .replaceAll("''", "x");
  const insert = {
    at: AT,
    rule: {
      is: "binary",
      at: AT,
      op: "+",
      opAt: AT,
      left: { is: "name", at: AT, name: "depth" },
      right: { is: "number", at: AT, value: 2 },
    } as Expr,
    ...(by.odds(0.5) ? { unit: UNITS[0]! } : {}),
  };
  return by.pick([[plain], [insert], [plain, insert], [insert, plain], []]);
}
