// The values reading: runs operations over a frame. The common case is a known number made of known numbers,
// so each operation first just computes; only an outcome that is no finite number asks what its parts were.
import { allows } from "../../../core/box.ts";
import { findHole } from "../../../core/find-hole.ts";
import { atMost, below, nearly, roundTo } from "../../../core/number.ts";
import type { Reason } from "../../../core/reason.ts";
import {
  Opcode,
  type CandidateTable,
  type ListBody,
  MAX_LIST_ROWS,
  type Op,
  type PickTable,
} from "../plan/op.ts";
import { interpolate } from "./interpolate.ts";
import {
  type Frame,
  IMPOSSIBLE,
  MAX_OPERATIONS_PER_JOB,
  type PossibleRows,
  UNKNOWN,
  isKnown,
} from "./frame.ts";

// The numbers of `K` stand here as they are: a machine jumps to one of them at once, but tries names one
// after another.
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one flat switch over all operations.
export function runOperations(ops: readonly Op[], frame: Frame): void {
  const { num } = frame;
  for (let i = 0; i < ops.length; i++) {
    const op = ops[i]!;
    const { in0, in1, in2, out } = op;
    let v: number;
    switch (op.opcode) {
      case 30 /* copy */:
        {
          v = num[in0]!;
          if (v !== v) same(frame, out, in0);
          break;
        }
      case 0 /* add */:
        v = num[in0]! + num[in1]!;
        if (v - v !== 0) strict(frame, op);
        break;
      case 1 /* sub */:
        v = num[in0]! - num[in1]!;
        if (v - v !== 0) strict(frame, op);
        break;
      case 2 /* mul */:
        v = num[in0]! * num[in1]!;
        if (v - v !== 0) strict(frame, op);
        break;
      case 3 /* div */:
        v = num[in0]! / num[in1]!;
        if (v - v !== 0) strict(frame, op);
        break;
      // Without a number there is no power, not even the one to nought.
      case 4 /* pow */:
        v = num[in0] === num[in0] ? num[in0]! ** num[in1]! : Number.NaN;
        if (v - v !== 0) strict(frame, op);
        break;
      case 5 /* neg */:
        v = -num[in0]!;
        if (v !== v) strict(frame, op);
        break;
      case 6 /* fn */:
        v = call(op.payload, num[in0]!);
        if (v - v !== 0) strict(frame, op);
        break;
      case 7 /* round */:
        v = round(num[in0]!, num[in1]!, op.payload);
        if (v - v !== 0) strict(frame, op);
        break;
      case 8 /* lt */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x < y ? (below(x, y) ? 1 : 0) : x === x && y === y ? 0 : Number.NaN;
          if (v !== v) strict(frame, op);
          break;
        }
      case 9 /* le */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x <= y ? 1 : x === x && y === y ? (nearly(x, y) ? 1 : 0) : Number.NaN;
          if (v !== v) strict(frame, op);
          break;
        }
      case 10 /* eq */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x === y ? 1 : x === x && y === y ? (nearly(x, y) ? 1 : 0) : Number.NaN;
          if (v !== v) strict(frame, op);
          break;
        }
      case 11 /* ne */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x === y ? 0 : x === x && y === y ? (nearly(x, y) ? 0 : 1) : Number.NaN;
          if (v !== v) strict(frame, op);
          break;
        }
      case 15 /* max */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x !== x || y !== y ? Number.NaN : x > y ? x : y;
          if (v !== v) strict(frame, op);
          break;
        }
      case 16 /* min */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x !== x || y !== y ? Number.NaN : x < y ? x : y;
          if (v !== v) strict(frame, op);
          break;
        }
      case 12 /* and */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x === 0 || y === 0 ? 0 : x + y === 2 ? 1 : Number.NaN;
          if (v !== v) loose(frame, op);
          break;
        }
      case 13 /* or */:
        {
          const x = num[in0]!;
          const y = num[in1]!;
          v = x === 1 || y === 1 ? 1 : x + y === 0 ? 0 : Number.NaN;
          if (v !== v) loose(frame, op);
          break;
        }
      case 14 /* not */:
        v = 1 - num[in0]!;
        if (v !== v) same(frame, out, in0);
        break;
      case 18 /* known */:
        {
          const x = num[in0]!;
          v = x === x ? 1 : 0;
          break;
        }
      case 17 /* select */:
        {
          const x = num[in0]!;
          const from = x === 1 ? in1 : in2;
          v = x === x ? num[from]! : Number.NaN;
          if (v !== v) {
            if (x === x) same(frame, out, from);
            else v = either(frame, op.in0, in1, in2, out);
          }
          break;
        }
      case 19 /* band */:
        v = inBand(frame, op.in0, in1, in2, op.payload.lowIn, op.payload.highIn);
        if (v !== v) strict(frame, op);
        break;
      case 20 /* words */:
        {
          const x = num[in0]!;
          v = x === x ? op.payload.words[x]! : Number.NaN;
          if (v !== v) same(frame, out, in0);
          break;
        }
      case 21 /* pick */:
        v = pick(frame, op.payload, out);
        break;
      case 22 /* rowValue */:
        {
          const row = num[in0]!;
          if (row === row) {
            const from = op.payload.values[row]!;
            v = num[from]!;
            if (v !== v) same(frame, out, from);
          } else v = agreed(frame, in0, op.payload.values, out);
          break;
        }
      case 23 /* between */:
        v = interpolate(frame, op.payload, in0, out);
        break;
      case 24 /* keep */:
        v = keep(frame, op.payload, out);
        break;
      case 25 /* leftCount */:
        v = num[in1]!;
        if (v !== v) same(frame, out, in1);
        break;
      case 26 /* leftFirst */:
        v = leftFirst(frame, in0, in1, out);
        break;
      case 27 /* leftAmong */:
        v = leftAmong(frame, in0, in1, in2, out);
        break;
      case 28 /* list */:
        v = list(frame, op.payload, in0, in1, out);
        break;
      case 31 /* before */:
        {
          v =
            num[in1] === 1
              ? impossible(frame, out, { code: "no-row-above", list: op.payload.list })
              : num[in0]!;
          if (v !== v && num[in1] !== 1) same(frame, out, in0);
          break;
        }
      case 29 /* gather */:
        v = gather(frame, op.payload.what, op.payload.column, in0, in1, out);
        break;
    }
    num[out] = v - v === 0 ? v : Number.NaN;
  }
}

// ───────────── what a place is when it is no number ─────────────

/** Says that a place can have no value, and why. */
function impossible(frame: Frame, register: number, reason: Reason): number {
  frame.state[register] = IMPOSSIBLE;
  frame.cause[register] = register;
  frame.reasons.set(register, reason);
  return Number.NaN;
}

function same(frame: Frame, register: number, from: number): number {
  frame.state[register] = frame.state[from]!;
  frame.cause[register] = frame.cause[from]!;
  return Number.NaN;
}

/**
 * An operation that needs all its parts: impossible if one is, else unknown if one is, else its own fault.
 */
function strict(frame: Frame, op: Op): void {
  let unknown = false;
  for (const register of [op.in0, op.in1, op.in2]) {
    if (register < 0 || isKnown(frame, register)) continue;
    if (frame.state[register] === IMPOSSIBLE) {
      same(frame, op.out, register);
      return;
    }
    unknown = true;
  }
  if (unknown) frame.state[op.out] = UNKNOWN;
  else impossible(frame, op.out, { code: faultCode(frame, op) });
}

/** `and` and `or`: an unknown part may still settle it, so unknown comes before impossible. */
function loose(frame: Frame, op: Op): void {
  const open = [op.in0, op.in1].filter((register) => !isKnown(frame, register));
  same(frame, op.out, open.find((register) => frame.state[register] === UNKNOWN) ?? open[0]!);
}

type ArithmeticFault =
  | "divides-by-zero"
  | "too-large"
  | "root-of-negative"
  | "log-of-nonpositive"
  | "fractional-power-of-negative"
  | "rounds-to-nothing";

/** Why an operation on known numbers has no finite outcome. */
function faultCode(frame: Frame, op: Op): ArithmeticFault {
  const x = op.in0 >= 0 ? frame.num[op.in0]! : 0;
  switch (op.opcode) {
    case Opcode.div:
      return frame.num[op.in1] === 0 ? "divides-by-zero" : "too-large";
    case Opcode.fn:
      return op.payload === "sqrt"
        ? "root-of-negative"
        : op.payload === "ln" || op.payload === "log10"
          ? "log-of-nonpositive"
          : "too-large";
    case Opcode.pow:
      return x === 0 ? "divides-by-zero" : x < 0 ? "fractional-power-of-negative" : "too-large";
    case Opcode.round:
      return "rounds-to-nothing";
    case Opcode.add:
    case Opcode.sub:
    case Opcode.mul:
    case Opcode.neg:
    case Opcode.lt:
    case Opcode.le:
    case Opcode.eq:
    case Opcode.ne:
    case Opcode.and:
    case Opcode.or:
    case Opcode.not:
    case Opcode.max:
    case Opcode.min:
    case Opcode.select:
    case Opcode.known:
    case Opcode.band:
    case Opcode.words:
    case Opcode.pick:
    case Opcode.rowValue:
    case Opcode.interpolate:
    case Opcode.candidateRows:
    case Opcode.candidateCount:
    case Opcode.firstCandidate:
    case Opcode.candidatesAmong:
    case Opcode.list:
    case Opcode.aggregate:
    case Opcode.copy:
    case Opcode.rowAbove:
      return "too-large";
  }
}

/** Alternatives whose condition is open: no matter, where both sides are the same. */
function either(frame: Frame, when: number, yes: number, no: number, register: number): number {
  if (frame.state[when] === IMPOSSIBLE) return same(frame, register, when);
  const [x, y] = [frame.num[yes]!, frame.num[no]!];
  if (x === x && y === y && nearly(x, y)) return x;
  if (x !== x && y !== y && frame.state[yes] === IMPOSSIBLE && frame.state[no] === IMPOSSIBLE)
    return same(frame, register, yes);
  frame.state[register] = UNKNOWN;
  return Number.NaN;
}

// ───────────── single operations ─────────────

function call(name: Extract<Op, { opcode: typeof Opcode.fn }>["payload"], x: number): number {
  switch (name) {
    case "sqrt":
      return Math.sqrt(x);
    case "abs":
      return Math.abs(x);
    case "exp":
      return Math.exp(x);
    case "ln":
      return Math.log(x);
    case "log10":
      return Math.log10(x);
    case "sin":
      return Math.sin(x);
    case "cos":
      return Math.cos(x);
    case "tan":
      return Math.tan(x);
    case "atan":
      return Math.atan(x);
  }
}

const round = (
  x: number,
  step: number,
  { way, base }: { readonly way: "up" | "down" | "near"; readonly base: number },
): number => (step > 0 ? base + roundTo(x - base, step, way) : Number.NaN);

// biome-ignore lint/complexity/useMaxParams: still to come apart.
function inBand(
  frame: Frame,
  of: number,
  low: number,
  high: number,
  lowIn: boolean,
  highIn: boolean,
): number {
  const x = frame.num[of]!;
  if (x !== x) return x;
  let open = false;
  if (low >= 0) {
    const end = frame.num[low]!;
    if (end !== end) open = true;
    else if (!(lowIn ? atMost(end, x) : below(end, x))) return 0;
  }
  if (high >= 0) {
    const end = frame.num[high]!;
    if (end !== end) open = true;
    else if (!(highIn ? atMost(x, end) : below(x, end))) return 0;
  }
  return open ? Number.NaN : 1;
}

function pick(frame: Frame, table: PickTable, register: number): number {
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
    if (c === width) return r;
  }
  return impossible(frame, register, { code: "no-row", chart: table.name });
}

/** Some conditions are open: which rows are still possible, and do they leave nothing out? */
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
      sure = r;
      if (table.firstWins) break;
    }
  }
  if (rows.length === 0) return impossible(frame, register, { code: "no-row", chart: table.name });
  if (sure >= 0 && (!table.firstWins || rows[0] === sure)) return sure;
  frame.possibleRows.set(register, { rows, open, table, sure: sure >= 0 });
  if (blocked >= 0) {
    frame.state[register] = IMPOSSIBLE;
    frame.cause[register] = frame.cause[blocked]!;
  } else frame.state[register] = UNKNOWN;
  return Number.NaN;
}

/**
 * The value of a chart whose row is open: known where all rows still possible agree and leave nothing out.
 */
function agreed(frame: Frame, picked: number, values: Int32Array, register: number): number {
  const maybe = frame.possibleRows.get(picked);
  const noRow = frame.state[picked] === IMPOSSIBLE && frame.cause[picked] === picked;
  if (maybe !== undefined && !noRow) {
    const first = frame.num[values[maybe.rows[0]!]!]!;
    if (
      maybe.rows.every((r) => {
        const v = frame.num[values[r]!]!;
        return v === v && nearly(v, first);
      }) &&
      (maybe.sure || leaveNothingOut(maybe))
    )
      return first;
  }
  return same(frame, register, picked);
}

/**
 * Whether the rows still possible take every answer that is still open. Asked again for every job, so answers
 * are kept by rows.
 */
function leaveNothingOut({ table, rows, open }: PossibleRows): boolean {
  let known = nothingOut.get(table);
  if (known === undefined) {
    known = new Map();
    nothingOut.set(table, known);
  }
  const key = `${open.join()}:${rows.join()}`;
  let whole = known.get(key);
  if (whole === undefined) {
    whole =
      findHole(
        open.map((c) => table.domains[c]!),
        rows.map((r) => open.map((c) => table.rows[r]![c]!)),
        20_000,
      ).is === "none";
    if (known.size < 500) known.set(key, whole);
  }
  return whole;
}

const nothingOut = new WeakMap<PickTable, Map<string, boolean>>();

function keep(frame: Frame, table: CandidateTable, register: number): number {
  const { conditions, rows } = table.pick;
  const left = new Uint8Array(rows.length);
  const values: number[] = [];
  const width = conditions.length;
  for (let r = 0; r < rows.length; r++) {
    const sides = rows[r]!;
    let c = 0;
    for (; c < width; c++) {
      const v = frame.num[conditions[c]!]!;
      if (v === v && !allows(sides[c]!, v)) break;
    }
    if (c < width) continue;
    left[r] = 1;
    const value = frame.num[table.values[r]!]!;
    if (!values.includes(value)) values.push(value);
  }
  frame.candidateRows[table.slot] = { left, values: table.values };
  if (values.length > 0) return values.length;
  return impossible(frame, register, { code: "answers-contradict", chart: table.pick.name });
}

function leftFirst(frame: Frame, slot: number, chart: number, register: number): number {
  if (!isKnown(frame, chart)) return same(frame, register, chart);
  const kept = frame.candidateRows[slot];
  let first = Infinity;
  kept?.left.forEach((yes, r) => {
    if (yes) {
      const v = frame.num[kept.values[r]!]!;
      if (v < first) first = v;
    }
  });
  return first === Infinity ? impossible(frame, register, { code: "no-row-left" }) : first;
}

function leftAmong(frame: Frame, slot: number, chart: number, of: number, register: number): number {
  const v = frame.num[of]!;
  if (v !== v) return same(frame, register, of);
  if (!isKnown(frame, chart)) return same(frame, register, chart);
  const kept = frame.candidateRows[slot];
  let found = 0;
  kept?.left.forEach((yes, r) => {
    if (yes && nearly(frame.num[kept.values[r]!]!, v)) found = 1;
  });
  return found;
}

// ───────────── lists ─────────────

function list(frame: Frame, body: ListBody, from: number, to: number, register: number): number {
  const [first, last] = [frame.num[from]!, frame.num[to]!];
  for (const end of [from, to]) if (!isKnown(frame, end)) return same(frame, register, end);
  if (!nearly(first, Math.round(first)) || !nearly(last, Math.round(last)))
    return impossible(frame, register, { code: "list-not-whole", list: body.name });
  const start = Math.round(first);
  const count = Math.max(0, Math.round(last) - start + 1);
  if (count > MAX_LIST_ROWS)
    return impossible(frame, register, {
      code: "list-too-long",
      list: body.name,
      rows: count,
      most: MAX_LIST_ROWS,
    });
  frame.work += count * (body.ops.length + 1);
  if (frame.work > MAX_OPERATIONS_PER_JOB) return impossible(frame, register, { code: "too-much-work" });
  if (count === 0) {
    frame.lists[body.slot] = noRows(body, start);
    return 0;
  }
  const columns = [...body.columns].map(() => new Float64Array(count));
  const trouble: ({ state: number; cause: number } | undefined)[] = columns.map(() => undefined);
  for (let i = 0; i < count; i++) {
    frame.num[body.counter] = start + i;
    if (body.first >= 0) frame.num[body.first] = i === 0 ? 1 : 0;
    runOperations(body.ops, frame);
    for (let column = 0; column < columns.length; column++) {
      const at = body.columns[column]!;
      columns[column]![i] = frame.num[at]!;
      if (!isKnown(frame, at) && trouble[column] === undefined)
        trouble[column] = { state: frame.state[at]!, cause: frame.cause[at]! };
    }
    if (frame.work > MAX_OPERATIONS_PER_JOB) return impossible(frame, register, { code: "too-much-work" });
  }
  frame.lists[body.slot] = { count, first: start, columns, trouble };
  return count;
}

/** Lists without rows are many, and all alike. */
const noRows = (body: ListBody, first: number) => ({
  count: 0,
  first,
  columns: Array.from(body.columns, () => NO_NUMBERS),
  trouble: [],
});
const NO_NUMBERS = new Float64Array(0);

// biome-ignore lint/complexity/useMaxParams: still to come apart.
function gather(
  frame: Frame,
  what: Extract<Op, { opcode: typeof Opcode.aggregate }>["payload"]["what"],
  column: number,
  slot: number,
  of: number,
  register: number,
): number {
  if (!isKnown(frame, of)) return same(frame, register, of);
  const rows = frame.lists[slot];
  if (rows === undefined) return impossible(frame, register, { code: "list-empty" });
  if (what === "count") return rows.count;
  const values = rows.columns[column]!;
  const trouble = rows.trouble[column];
  if (trouble !== undefined && !(what === "first" || what === "last")) {
    frame.state[register] = trouble.state;
    frame.cause[register] = trouble.cause;
    return Number.NaN;
  }
  if (what === "sum") {
    // Neumaier's sum, so that ten thousand small plies add up as they would by hand.
    let total = 0;
    let lost = 0;
    for (const x of values) {
      const next = total + x;
      lost += Math.abs(total) >= Math.abs(x) ? total - next + x : x - next + total;
      total = next;
    }
    return total + lost;
  }
  if (rows.count === 0) return impossible(frame, register, { code: "list-empty" });
  switch (what) {
    case "largest":
      return values.reduce((a, b) => (a > b ? a : b));
    case "smallest":
      return values.reduce((a, b) => (a < b ? a : b));
    case "first":
    case "last": {
      const v = values[what === "first" ? 0 : rows.count - 1]!;
      if (v !== v && trouble !== undefined) {
        frame.state[register] = trouble.state;
        frame.cause[register] = trouble.cause;
      }
      return v;
    }
  }
}
