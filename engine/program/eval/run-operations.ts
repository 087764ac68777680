// The evaluator: runs operations over a frame. The common case is a known number made of known numbers, so
// each operation first just computes. Only an outcome that is no finite number asks what its operands were.
import { atMost, below, nearly, roundTo } from "../../../core/number.ts";
import type { Op, Opcode } from "../plan/op.ts";
import { candidateRows, candidatesAmong, firstCandidate, noCandidates } from "./candidate-rows.ts";
import { type Frame, isRefused } from "./frame.ts";
import { interpolate } from "./interpolate.ts";
import { aggregate, list } from "./lists.ts";
import { either, impossible, loose, sameState, strict } from "./no-value.ts";
import { agreedValue, pickRow } from "./pick-row.ts";

// The numbers of `Opcode` are written out here: a literal case is jumped to at once, but names are compared
// one after another.
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
          v = in1 < 0 || num[in1] === num[in1] ? num[in0]! : Number.NaN;
          if (v !== v) {
            if (in1 < 0) sameState(frame, out, in0);
            else strict(frame, op);
          }
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
      // Without a number there is no power, not even to the power of zero.
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
        if (v !== v) sameState(frame, out, in0);
        break;
      case 18 /* known */:
        {
          const x = num[in0]!;
          v = x === x ? 1 : isRefused(frame, in0) ? sameState(frame, out, in0) : 0;
          break;
        }
      case 17 /* select */:
        {
          const x = num[in0]!;
          const from = x === 1 ? in1 : in2;
          v = x === x ? num[from]! : Number.NaN;
          if (v !== v) {
            if (x === x) sameState(frame, out, from);
            else v = either(frame, op);
          }
          break;
        }
      case 19 /* band */:
        v = inBand(frame, op);
        if (v !== v) strict(frame, op);
        break;
      case 20 /* words */:
        {
          const x = num[in0]!;
          v = x === x ? op.payload.words[x]! : Number.NaN;
          if (v !== v) sameState(frame, out, in0);
          break;
        }
      case 21 /* pick */:
        v = pickRow(frame, op.payload, out);
        break;
      case 22 /* rowValue */:
        {
          const row = num[in0]!;
          if (row === row) {
            const from = op.payload.values[row]!;
            v = num[from]!;
            if (v !== v) sameState(frame, out, from);
          } else v = agreedValue(frame, in0, op.payload.values, out);
          break;
        }
      case 23 /* interpolate */:
        v = interpolate(frame, op.payload, in0, out);
        break;
      case 24 /* candidateRows */:
        v = candidateRows(frame, op.payload, out);
        break;
      case 25 /* candidateCount */:
        v = num[in1]!;
        if (v !== v) v = noCandidates(frame, op);
        break;
      case 26 /* firstCandidate */:
        v = firstCandidate(frame, op);
        break;
      case 27 /* candidatesAmong */:
        v = candidatesAmong(frame, op);
        break;
      case 28 /* list */:
        v = list(frame, op, runOperations);
        break;
      case 31 /* rowAbove */:
        {
          v =
            num[in1] === 1
              ? impossible(frame, out, { code: "no-row-above", list: op.payload.list })
              : num[in0]!;
          if (v !== v && num[in1] !== 1) sameState(frame, out, in0);
          break;
        }
      case 29 /* aggregate */:
        v = aggregate(frame, op);
        break;
    }
    num[out] = v - v === 0 ? v : Number.NaN;
  }
}

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

function inBand(
  frame: Frame,
  { in0, in1, in2, payload }: Extract<Op, { opcode: typeof Opcode.band }>,
): number {
  const x = frame.num[in0]!;
  if (x !== x) return x;
  let open = false;
  if (in1 >= 0) {
    const end = frame.num[in1]!;
    if (end !== end) open = true;
    else if (!(payload.lowIn ? atMost(end, x) : below(end, x))) return 0;
  }
  if (in2 >= 0) {
    const end = frame.num[in2]!;
    if (end !== end) open = true;
    else if (!(payload.highIn ? atMost(x, end) : below(x, end))) return 0;
  }
  return open ? Number.NaN : 1;
}
