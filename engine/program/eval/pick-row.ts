// The row of a chart that applies, and the value of a chart whose row is still open.
import { allows, overlap } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import { nearly } from "../../../core/number.ts";
import type { PickTable } from "../plan/op.ts";
import { type Frame, IMPOSSIBLE, type PossibleRows, UNKNOWN, isKnown } from "./frame.ts";
import { impossible, sameState } from "./no-value.ts";

/** The index of the row that applies. NaN where none does, or where answers are missing. */
export function pickRow(frame: Frame, table: PickTable, register: number): number {
  const { num } = frame;
  const { conditions, lows, highs } = table;
  const width = conditions.length;
  for (let c = 0; c < width; c++)
    if (num[conditions[c]!]! !== num[conditions[c]!]!) return pickOpen(frame, table, register);
  const rows = table.rows.length;
  frame.work += rows;
  for (let r = 0, at = 0; r < rows; r++, at = r * width) {
    let c = 0;
    for (; c < width; c++, at++) {
      const v = num[conditions[c]!]!;
      if (v < lows[at]! || v > highs[at]!) break;
      if (table.hasOdd) {
        const odd = table.odd[at];
        if (odd !== undefined && !allows(odd, v)) break;
      }
    }
    if (c === width) return table.mayClash ? onlyRow(frame, table, r, register) : r;
  }
  return impossible(frame, register, { code: "no-row", chart: table.name });
}

/** The row, unless one below it applies as well. */
function onlyRow(frame: Frame, table: PickTable, row: number, register: number): number {
  const { rows, conditions } = table;
  for (let r = row + 1; r < rows.length; r++)
    if (rows[r]!.every((side, c) => allows(side, frame.num[conditions[c]!]!)))
      return clash(frame, table, [row, r], register);
  return row;
}

const clash = (
  frame: Frame,
  { name, written }: PickTable,
  [first, second]: readonly [number, number],
  register: number,
): number =>
  impossible(frame, register, {
    code: "rows-clash",
    chart: name,
    rows: [{ row: written[first]! + 1 }, { row: written[second]! + 1 }],
  });

/** Some conditions are open: which rows are still possible, and whether one of them applies in any case. */
function pickOpen(frame: Frame, table: PickTable, register: number): number {
  const open: number[] = [];
  let blocked = -1;
  table.conditions.forEach((condition, c) => {
    if (isKnown(frame, condition)) return;
    open.push(c);
    if (frame.state[condition] === IMPOSSIBLE && blocked < 0) blocked = condition;
  });
  const rows: number[] = [];
  let sure = -1;
  for (const [r, sides] of table.rows.entries()) {
    if (!sides.every((side, c) => open.includes(c) || allows(side, frame.num[table.conditions[c]!]!)))
      continue;
    rows.push(r);
    if (open.every((c) => sides[c] === "any")) {
      if (sure >= 0 && table.mayClash) return clash(frame, table, [sure, r], register);
      sure = r;
      if (table.firstWins) break;
    }
  }
  if (rows.length === 0) return impossible(frame, register, { code: "no-row", chart: table.name });
  // A row that applies in any case counts, unless an answer that is still open could bring another one.
  if (sure >= 0 && (table.firstWins ? rows[0] === sure : rows.length === 1)) return sure;
  frame.possibleRows.set(register, { rows, open, table, sure: sure >= 0 });
  if (blocked >= 0) {
    frame.state[register] = IMPOSSIBLE;
    frame.cause[register] = frame.cause[blocked]!;
  } else frame.state[register] = UNKNOWN;
  return Number.NaN;
}

/**
 * The value of a chart whose row is open: known where all rows that are still possible agree, and one of them
 * applies to every open answer.
 */
export function agreedValue(frame: Frame, picked: number, values: Int32Array, register: number): number {
  const maybe = frame.possibleRows.get(picked);
  const noRow = frame.state[picked] === IMPOSSIBLE && frame.cause[picked] === picked;
  if (maybe !== undefined && !noRow) {
    const first = frame.num[values[maybe.rows[0]!]!]!;
    if (
      maybe.rows.every((r) => {
        const v = frame.num[values[r]!]!;
        return v === v && nearly(v, first);
      }) &&
      (maybe.sure || leaveOneRow(maybe))
    )
      return first;
  }
  return sameState(frame, register, picked);
}

/**
 * Whether one of the rows that are still possible, and no two of them, applies to every answer that is still
 * open. Every job needs this again, so the results are cached by rows.
 */
function leaveOneRow({ table, rows, open }: PossibleRows): boolean {
  let known = settledRows.get(table);
  if (known === undefined) {
    known = new Map();
    settledRows.set(table, known);
  }
  const key = `${open.join()}:${rows.join()}`;
  let whole = known.get(key);
  if (whole === undefined) {
    const domains = open.map((c) => table.domains[c]!);
    const sides = rows.map((r) => open.map((c) => table.rows[r]![c]!));
    const clashes =
      table.mayClash &&
      sides.some((one, r) => sides.slice(0, r).some((other) => overlap(domains, one, other) !== undefined));
    whole = !clashes && findHole(domains, sides, 20_000).is === "none";
    if (known.size < 500) known.set(key, whole);
  }
  return whole;
}

const settledRows = new WeakMap<PickTable, Map<string, boolean>>();
