// Lists: their rows, evaluated one by one, and the aggregates over a column.
import { nearly } from "../../../core/number.ts";
import { type ListBody, MAX_LIST_ROWS, type Op, type Opcode } from "../plan/op.ts";
import { type Frame, MAX_OPERATIONS_PER_JOB, isKnown } from "./frame.ts";
import { impossible, sameState } from "./no-value.ts";

type ListOp = Extract<Op, { opcode: typeof Opcode.list }>;
type AggregateOp = Extract<Op, { opcode: typeof Opcode.aggregate }>;

/** Evaluates all rows and returns their number. `run` runs operations: the rows are operations again. */
export function list(
  frame: Frame,
  { in0: from, in1: to, out: register, payload: body }: ListOp,
  run: (ops: readonly Op[], frame: Frame) => void,
): number {
  const [first, last] = [frame.num[from]!, frame.num[to]!];
  for (const end of [from, to]) if (!isKnown(frame, end)) return sameState(frame, register, end);
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
    run(body.ops, frame);
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

/** A list without rows. */
const noRows = (body: ListBody, first: number) => ({
  count: 0,
  first,
  columns: Array.from(body.columns, () => NO_NUMBERS),
  trouble: [],
});
const NO_NUMBERS = new Float64Array(0);

/** The sum, largest, smallest, first or last value of a column, or the number of rows. */
export function aggregate(frame: Frame, { in0: slot, in1: of, out: register, payload }: AggregateOp): number {
  const { what, column } = payload;
  if (!isKnown(frame, of)) return sameState(frame, register, of);
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
