// Random rules in the language against mathjs (15.2), a general-purpose mathematics library, on the same
// expression. The seed is fixed; a failing case prints the rule and what each made of it.
import { all, create } from "mathjs";
import { describe, expect, test } from "vitest";
import { readBook, showJob, workJob } from "../../engine/index.ts";
import { given, seeded } from "./small-book.ts";

// Predictable: the root of a negative number is not a number, as it is impossible in a book.
const math = create(all!, { predictable: true });

/** The same expression in both languages, and its parts: a rule is impossible as soon as a part of it is. */
interface Pair {
  readonly rule: string;
  readonly mathjs: string;
  readonly parts: readonly Pair[];
}

const leaf = (rule: string, mathjs: string): Pair => ({ rule, mathjs, parts: [] });

function plain(next: () => number, depth: number): Pair {
  const pick = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)]!;
  if (depth === 0 || next() < 0.15) {
    const whole = Math.floor(next() * 40);
    const [top, bottom] = [1 + Math.floor(next() * 15), pick([2, 3, 4, 8, 16, 64])];
    return pick<() => Pair>([
      () => leaf(String(whole), String(whole)),
      () => {
        const x = (next() * 30).toFixed(Math.floor(next() * 5));
        return leaf(x, x);
      },
      () => leaf(`${top}/${bottom}`, `(${top}/${bottom})`),
      () => leaf(`${whole} ${top}/${bottom}`, `(${whole} + ${top}/${bottom})`),
      () => leaf("pi", "pi"),
      () => leaf("x1", "2.75"),
      () => leaf("x2", "(-0.375)"),
      () => leaf("x3", "12"),
    ])();
  }
  const sub = () => plain(next, depth - 1);
  const made = (parts: readonly Pair[], rule: string, mathjs: string): Pair => ({ parts, rule, mathjs });
  // Brackets round each part; how operators bind without brackets has cases of its own below.
  return pick<() => Pair>([
    ...["+", "-", "*", "/"].map((op) => () => {
      const [a, b] = [sub(), sub()];
      return made([a, b], `(${a.rule}) ${op} (${b.rule})`, `(${a.mathjs}) ${op} (${b.mathjs})`);
    }),
    ...["+", "-", "*", "/"].map((op) => () => {
      const [a, b] = [sub(), sub()];
      return made([a, b], `(${a.rule}) ${op} (${b.rule})`, `(${a.mathjs}) ${op} (${b.mathjs})`);
    }),
    () => {
      const a = sub();
      const n = pick([2, 3, -1, -2, 0]);
      return made([a], `(${a.rule}) ^ ${n}`, `(${a.mathjs}) ^ (${n})`);
    },
    () => {
      const a = sub();
      return made([a], `abs(${a.rule}) ^ 0.5`, `abs(${a.mathjs}) ^ 0.5`);
    },
    () => {
      const a = sub();
      return made([a], `-(${a.rule})`, `-(${a.mathjs})`);
    },
    ...[
      ["sqrt", "sqrt"],
      ["abs", "abs"],
      ["exp", "exp"],
      ["ln", "log"],
      ["log10", "log10"],
      ["sin", "sin"],
      ["cos", "cos"],
      ["atan", "atan"],
    ].map(([ours, theirs]) => () => {
      const a = sub();
      return made([a], `${ours}(${a.rule})`, `${theirs}(${a.mathjs})`);
    }),
    () => {
      const [a, b, c] = [sub(), sub(), sub()];
      return made(
        [a, b, c],
        `largest(${a.rule}, ${b.rule}, ${c.rule})`,
        `max(${a.mathjs}, ${b.mathjs}, ${c.mathjs})`,
      );
    },
    () => {
      const [a, b] = [sub(), sub()];
      return made([a, b], `smallest(${a.rule}, ${b.rule})`, `min(${a.mathjs}, ${b.mathjs})`);
    },
    () => {
      const a = sub();
      const step = pick(["5", "0.25", "10"]);
      return made([a], `((${a.rule}) rounded up to ${step})`, `ceil((${a.mathjs}) / ${step}) * ${step}`);
    },
    () => {
      const a = sub();
      const step = pick(["5", "0.1"]);
      return made([a], `((${a.rule}) rounded down to ${step})`, `floor((${a.mathjs}) / ${step}) * ${step}`);
    },
    () => {
      const a = sub();
      return made([a], `((${a.rule}) rounded up to whole)`, `ceil(${a.mathjs})`);
    },
  ])();
}

/** Undefined where mathjs finds no finite number for the whole or for a part of it. */
function theirs(pair: Pair): number | undefined {
  for (const part of pair.parts) if (theirs(part) === undefined) return undefined;
  const value: unknown = math.evaluate(pair.mathjs);
  return typeof value === "number" && Number.isFinite(value) ? value : undefined;
}

/**
 * Chains of the two libraries round differently; beyond this size of the parts the difference is not meant.
 */
const sizes = (pair: Pair): number => Math.max(Math.abs(theirs(pair) ?? 0), ...pair.parts.map(sizes));

describe("plain numbers against mathjs", () => {
  const dials =
    "dial x1 = 2.75, from 0 to 10\n    from practice\ndial x2 = -0.375, from -1 to 1\n    from " +
    "practice\ndial x3 = 12, from 0 to 20\n    from practice\n";
  for (let round = 0; round < 10; round++) {
    test(`200 random rules, seed ${round + 1}`, () => {
      const next = seeded(round + 1);
      const pairs = Array.from({ length: 200 }, () => plain(next, 1 + Math.floor(next() * 4)));
      const book = readBook(dials + pairs.map(({ rule }, i) => `figure f${i} = ${rule}`).join("\n"));
      // A rule may end up dividing by nothing or be too deep a power: that is told, and the value is
      // impossible.
      const bad = book.findings.filter(
        (one) => one.weight === "error" && !/zero|root|logarithm|power|large/.test(one.says),
      );
      expect(
        bad.map((one) => `${one.code} ${one.says} ${book.text.slice(one.at.start, one.at.end)}`),
      ).toEqual([]);
      const values = new Map(showJob(workJob(book, {})).values.map((one) => [one.name, one]));
      let compared = 0;
      pairs.forEach((pair, i) => {
        const ours = values.get(`f${i}`)!;
        const wants = theirs(pair);
        if (wants === undefined) {
          expect(ours.state, `${pair.rule} has no value`).toBe("impossible");
          return;
        }
        expect(typeof ours.value, `${pair.rule}: ${ours.text}, mathjs ${wants}`).toBe("number");
        expect(
          Math.abs((ours.value as number) - wants),
          `${pair.rule}: ${ours.value}, mathjs ${wants}`,
        ).toBeLessThanOrEqual(1e-11 * Math.max(1, sizes(pair)));
        compared++;
      });
      expect(compared).toBeGreaterThan(120);
    });
  }
});

// Without brackets: the order that mathjs and school share (powers from the right, before a minus in front).
describe("binding against mathjs", () => {
  for (const rule of [
    "2 + 3 * 4",
    "2 * 3 + 4",
    "2 - 3 - 4",
    "24 / 4 / 2",
    "24 / 4 * 2",
    "-2 ^ 2",
    "2 ^ 3 ^ 2",
    "2 * -3",
    "2 ^ -1",
    "-3 * -2 - -1",
    "1 + 2 * 3 ^ 2 / 4 - 5",
    "2 * (3 + 4) ^ 2",
    "7 - 2 * 3 + 1",
  ]) {
    test(rule, () =>
      expect(given(`figure x = ${rule}`).number("x")).toBeCloseTo(math.evaluate(rule) as number, 12),
    );
  }
  for (const [rule, mathjs] of [
    ["2.5 rounded to 1", "round(2.5)"],
    ["-2.5 rounded to 1", "round(-2.5)"],
    ["7.1 + 2 rounded up to 5", "ceil((7.1 + 2) / 5) * 5"],
    ["0.1 + 0.2 rounded up to 0.1", "0.3"],
    ["-7.2 rounded up to 1", "ceil(-7.2)"],
    ["-7.2 rounded down to 1", "floor(-7.2)"],
  ] as const) {
    test(rule, () =>
      expect(given(`figure x = ${rule}`).number("x")).toBeCloseTo(math.evaluate(mathjs) as number, 12),
    );
  }
});

// Quantities: lengths, areas, volumes, masses and times by their meaning, in mixed units.
type Measure = "length" | "area" | "volume" | "mass" | "time";
const UNITS: Record<Measure, readonly (readonly [string, string])[]> = {
  length: [
    ["mm", "mm"],
    ["cm", "cm"],
    ["m", "m"],
    ["inch", "inch"],
    ["ft", "ft"],
    ["yd", "yd"],
    ["mil", "mil"],
  ],
  area: [
    ["mm2", "mm^2"],
    ["cm2", "cm^2"],
    ["m2", "m^2"],
    ["inch2", "inch^2"],
    ["ft2", "ft^2"],
  ],
  volume: [
    ["mL", "mL"],
    ["L", "L"],
    ["cm3", "cm^3"],
    ["inch3", "inch^3"],
    ["gal", "gallon"],
    ["floz", "floz"],
  ],
  mass: [
    ["g", "g"],
    ["kg", "kg"],
    ["lb", "lb"],
    ["oz", "oz"],
  ],
  time: [
    ["s", "second"],
    ["min", "minute"],
    ["h", "hour"],
  ],
};
const SI: Record<Measure, readonly [string, string]> = {
  length: ["m", "m"],
  area: ["m2", "m^2"],
  volume: ["m3", "m^3"],
  mass: ["kg", "kg"],
  time: ["s", "second"],
};

function amount(next: () => number, of: Measure, depth: number): Pair {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)]!;
  const number = () => (0.5 + next() * 20).toFixed(Math.floor(next() * 4));
  if (depth === 0) {
    const x = number();
    const [ours, theirs] = pick(UNITS[of]);
    return leaf(`${x} ${ours}`, `${x} ${theirs}`);
  }
  const sub = (measure: Measure = of) => amount(next, measure, depth - 1);
  const both = (a: Pair, op: string, b: Pair): Pair => ({
    parts: [a, b],
    rule: `(${a.rule}) ${op} (${b.rule})`,
    mathjs: `(${a.mathjs}) ${op} (${b.mathjs})`,
  });
  const options: (() => Pair)[] = [
    () => both(sub(), "+", sub()),
    () => both(sub(), "-", sub()),
    () => {
      const x = number();
      return both(sub(), "*", leaf(x, x));
    },
    () => {
      const x = number();
      return both(sub(), "/", leaf(x, x));
    },
    () => {
      const ratio = both(sub("mass"), "/", amount(next, "mass", 0));
      return both(sub(), "*", ratio);
    },
    () => {
      const [a, b] = [sub(), sub()];
      return {
        parts: [a, b],
        rule: `largest(${a.rule}, ${b.rule})`,
        mathjs: `max(${a.mathjs}, ${b.mathjs})`,
      };
    },
  ];
  if (of === "area")
    options.push(
      () => both(sub("length"), "*", sub("length")),
      () => {
        const a = sub("length");
        return { parts: [a], rule: `(${a.rule}) ^ 2`, mathjs: `(${a.mathjs}) ^ 2` };
      },
    );
  if (of === "volume") options.push(() => both(sub("length"), "*", sub("area")));
  if (of === "length")
    options.push(
      () => both(sub("area"), "/", amount(next, "length", 0)),
      () => {
        const a = sub("area");
        return { parts: [a], rule: `sqrt(abs(${a.rule}))`, mathjs: `sqrt(abs(${a.mathjs}))` };
      },
    );
  return pick(options)();
}

describe("quantities against mathjs units", () => {
  const measures = Object.keys(UNITS) as Measure[];
  for (const of of measures) {
    test(`150 random rules that give ${of}`, () => {
      const next = seeded(1000 + measures.indexOf(of));
      const pairs = Array.from({ length: 150 }, () => amount(next, of, Math.floor(next() * 4)));
      const [ours, theirs] = SI[of];
      const book = given(pairs.map(({ rule }, i) => `figure f${i} in ${ours} = ${rule}`).join("\n"));
      const size = (pair: Pair): number =>
        Math.max(
          ...pair.parts.map(size),
          Math.abs(
            (math.evaluate(pair.mathjs) as { toSI?: () => { toJSON: () => { value: number } } })
              .toSI?.()
              .toJSON().value ?? 0,
          ),
          0,
        );
      pairs.forEach((pair, i) => {
        const wants = math.evaluate(`number(${pair.mathjs}, ${theirs})`) as number;
        expect(
          Math.abs(book.number(`f${i}`) - wants),
          `${pair.rule}: ${book.number(`f${i}`)}, mathjs ${wants}`,
        ).toBeLessThanOrEqual(1e-11 * Math.max(Math.abs(wants), size(pair)));
      });
    });
  }
});
