// What the check counts, by level, and the table that it is read from.
import type { Level } from "./random-rules.ts";

/** Each line of the table by its key; those that must be 0 are marked. */
export const LINES = {
  books: { says: "books" },
  promises: { says: "promises, or what is owed" },
  agreed: { says: "  agreements" },
  wrongProved: { says: "  wrong proved", mustBeZero: true },
  wrongBroken: { says: "  wrong broken", mustBeZero: true },
  witness: { says: "  witness wrong", mustBeZero: true },
  open: { says: "  not settled where the solver settles" },
  bothOpen: { says: "  settled by neither" },
  alone: { says: "  settled where the solver is not" },
  close: { says: "  too close to call" },
  never: { says: "named as never reached" },
  wrongNever: { says: "  and reached", mustBeZero: true },
  values: { says: "values compared" },
  differ: { says: "  differ", mustBeZero: true },
  tooClose: { says: "  too close to call" },
  needless: { says: "asks called needless" },
  wrongNeedless: { says: "  and the card waits for them, or they move it", mustBeZero: true },
} as const satisfies Readonly<Record<string, { readonly says: string; readonly mustBeZero?: true }>>;

export type Line = keyof typeof LINES;

export interface Fault {
  readonly line: Line;
  readonly level: Level;
  readonly seed: number;
  readonly text: string;
  readonly detail: string;
}

/** Plain data, so that a part's tally can be handed from one process to another. */
export interface Tally {
  readonly counts: Partial<Record<Line, [number, number, number]>>;
  /** Milliseconds of each book: ours and the solver's. */
  readonly times: {
    readonly ours: [number[], number[], number[]];
    readonly solver: [number[], number[], number[]];
  };
  readonly faults: Fault[];
}

export const newTally = (): Tally => ({
  counts: {},
  times: { ours: [[], [], []], solver: [[], [], []] },
  faults: [],
});

export function count(tally: Tally, line: Line, level: Level, by = 1): void {
  tally.counts[line] ??= [0, 0, 0];
  const row = tally.counts[line];
  row[level - 1]! += by;
}

const MOST_FAULTS = 2000;

export function fault(tally: Tally, one: Fault): void {
  count(tally, one.line, one.level);
  if (tally.faults.length < MOST_FAULTS) tally.faults.push(one);
}

export function joined(tallies: readonly Tally[]): Tally {
  const all = newTally();
  for (const one of tallies) {
    for (const [line, row] of Object.entries(one.counts))
      row.forEach((by, i) => count(all, line as Line, (i + 1) as Level, by));
    for (const who of ["ours", "solver"] as const)
      one.times[who].forEach((times, i) => all.times[who][i]!.push(...times));
    all.faults.push(...one.faults);
  }
  return all;
}

const right = (text: string, width: number): string => text.padStart(width);

/** Lines that were counted, one column a level; a line that must be 0 and is not carries a mark. */
export function table(title: string, tally: Tally): string {
  const row = (says: string, cells: readonly string[], mark = "") =>
    `${says.padEnd(50)}${cells.map((cell) => right(cell, 14)).join("")}${mark}`;
  const lines = [row(title, ["level 1", "level 2", "level 3", "all"])];
  for (const [line, { says, ...more }] of Object.entries(LINES) as [
    Line,
    { says: string; mustBeZero?: true },
  ][]) {
    const counts = tally.counts[line];
    if (counts === undefined && !(more.mustBeZero && parent(line, tally))) continue;
    const [a, b, c] = counts ?? [0, 0, 0];
    const all = a + b + c;
    lines.push(
      row(
        says,
        [a, b, c, all].map(String),
        more.mustBeZero && all > 0 ? "  <-- must be 0" : share(line, all, tally),
      ),
    );
  }
  for (const [who, says] of [
    ["ours", "ms of a book, middle / worst: ours"],
    ["solver", "  the solver"],
  ] as const) {
    if (tally.times[who].flat().length === 0) continue;
    lines.push(row(says, [...tally.times[who], tally.times[who].flat()].map(middleAndWorst)));
  }
  return lines.join("\n");
}

/** A line of a part that was counted at all is shown, even at 0. */
const parent = (line: Line, { counts }: Tally): boolean => {
  const of: Partial<Record<Line, Line>> = {
    wrongProved: "promises",
    wrongBroken: "promises",
    witness: "promises",
    wrongNever: "never",
    differ: "values",
    wrongNeedless: "needless",
  };
  const whole = of[line];
  return whole !== undefined && counts[whole] !== undefined;
};

const share = (line: Line, all: number, { counts }: Tally): string =>
  line === "open" && counts.promises
    ? `  ${((all / counts.promises.reduce((a, b) => a + b, 0)) * 100).toFixed(2)} %`
    : "";

function middleAndWorst(times: readonly number[]): string {
  if (times.length === 0) return "-";
  const order = [...times].sort((a, b) => a - b);
  return `${order[order.length >> 1]!.toFixed(0)} / ${order.at(-1)!.toFixed(0)}`;
}

/** For each sort of fault the smallest books that show it. */
export function smallest(tally: Tally, each: number): readonly Fault[] {
  const lines = [...new Set(tally.faults.map((one) => one.line))];
  return lines.flatMap((line) => {
    const faults = tally.faults.filter((one) => one.line === line);
    return faults.sort((a, b) => a.text.length - b.text.length).slice(0, each);
  });
}

export function told(one: Fault): string {
  const head = `--- ${LINES[one.line].says.trim()}: level ${one.level}, seed ${one.seed}`;
  return `${head}\n${one.detail}\n${one.text}`;
}
