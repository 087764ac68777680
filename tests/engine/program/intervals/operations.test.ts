// The spans of single operations against exact fractions: every outcome lies in its span, is what exact
// arithmetic says, and the span is no wider than rounding needs.
import { expect, test } from "vitest";
import { curveAt, straightAt } from "../../../../engine/program/eval/interpolate.ts";
import { Opcode, type Op } from "../../../../engine/program/plan/op.ts";
import { runIntervals } from "../../../../engine/program/intervals/run.ts";
import { runOperations } from "../../../../engine/program/eval/run-operations.ts";
import { type Chance, chance } from "../../../support/chance.ts";
import { abs, compare, exactly, minus, over, plus, times } from "../../analysis/support/fraction.ts";
import { OPERATIONS, frameOf, operationLaw, spansOf } from "../../analysis/support/operations.ts";

test.each(OPERATIONS)("$name", (one) => {
  expect(operationLaw(chance(11), one, 1200)).toBeUndefined();
});

test("a square of one value is never below zero, and what is taken from itself is zero", () => {
  for (let i = 0, by = chance(3); i < 500; i++) {
    const [a, b] = [by.next() * 20 - 10, by.next() * 20 - 10];
    const intervals = spansOf([{ low: Math.min(a, b), high: Math.max(a, b), flags: 0 }]);
    runIntervals(
      [
        { opcode: Opcode.mul, out: 4, in0: 1, in1: 1, in2: -1, payload: undefined, at: { start: 0, end: 0 } },
        { opcode: Opcode.sub, out: 5, in0: 1, in1: 1, in2: -1, payload: undefined, at: { start: 0, end: 0 } },
      ],
      intervals,
    );
    expect(intervals.low[4]).toBeGreaterThanOrEqual(0);
    expect([intervals.low[5], intervals.high[5]]).toEqual([0, 0]);
    for (const x of [a, b, (a + b) / 2])
      expect(x * x >= intervals.low[4]! && x * x <= intervals.high[4]!).toBe(true);
  }
});

/**
 * A chart's points over one number or two, at places 8 and on; the numbers looked up are at places 1 and 2.
 */
function points(
  by: Chance,
  two: boolean,
  curve: boolean,
  hold: boolean,
): { op: Op; xs: number[]; ys: number[]; values: number[] } {
  const rising = (count: number) =>
    Array.from({ length: count }, () => Math.round(by.next() * 100) / 4)
      .sort((a, b) => a - b)
      .map((x, i) => x + i);
  const xs = rising(2 + by.whole(4));
  const ys = two ? rising(2 + by.whole(3)) : [0];
  const values = xs.flatMap(() => ys.map(() => Math.round((by.next() - 0.4) * 100) / by.pick([1, 3, 10])));
  const group = {
    xs: Float64Array.from(xs),
    ys: Float64Array.from(ys),
    values: Int32Array.from(values, (_, i) => 8 + i),
    written: Int32Array.from(values, (_, i) => i),
  };
  return {
    xs,
    ys,
    values,
    op: {
      opcode: Opcode.interpolate,
      out: 4,
      in0: -1,
      in1: -1,
      in2: -1,
      at: { start: 0, end: 0 },
      payload: { name: "points", curve, hold, axes: Int32Array.from(two ? [1, 2] : [1]), groups: [group] },
    } as Op,
  };
}

test.each([
  [false, false],
  [false, true],
  [true, false],
  [true, true],
])("going between points, over two numbers %s, along a curve %s", (two, curve) => {
  for (let i = 0, by = chance(5); i < 1500; i++) {
    const hold = by.odds(0.5);
    const { op, xs, ys, values } = points(by, two, curve, hold);
    // One of the points' values may itself vary.
    const loose = by.odds(0.3) ? by.whole(values.length) : -1;
    const axis = (at: readonly number[]) => {
      const one = () =>
        by.pick([
          at[0]!,
          at.at(-1)!,
          at[0]! + (at.at(-1)! - at[0]!) * (by.next() * 1.2 - 0.1),
          by.pick([...at]),
        ]);
      const a = one();
      const b = by.odds(0.3) ? a + 1e-7 * by.next() : one();
      return { low: Math.min(a, b), high: Math.max(a, b), flags: 0 };
    };
    const asked = two ? [axis(xs), axis(ys)] : [axis(xs)];
    const intervals = spansOf(asked);
    values.forEach((value, j) => {
      intervals.low[8 + j] = value - (j === loose ? 1 : 0);
      intervals.high[8 + j] = value + (j === loose ? 2 : 0);
      intervals.flags[8 + j] = 0;
    });
    runIntervals([op], intervals);
    for (let n = 0; n < 8; n++) {
      const at = asked.map(({ low, high }) =>
        by.pick([low, high, Math.min(high, low + (high - low) * by.next())]),
      );
      const frame = frameOf(at);
      const own = values.map((value, j) => value + (j === loose ? by.next() * 3 - 1 : 0));
      own.forEach((value, j) => {
        frame.num[8 + j] = value;
      });
      runOperations([op], frame);
      const value = frame.num[4]!;
      const told = JSON.stringify({
        xs,
        ys,
        own,
        asked,
        at,
        value,
        low: intervals.low[4],
        high: intervals.high[4],
      });
      if (value !== value) {
        expect(intervals.flags[4]! & 2, told).toBe(2);
        continue;
      }
      expect(
        value >= intervals.low[4]! && value <= intervals.high[4]! && (intervals.flags[4]! & 4) === 0,
        told,
      ).toBe(true);
      if (!two && !curve) {
        // Along a straight line the outcome is a fraction, and is known exactly.
        const x = Math.min(xs.at(-1)!, Math.max(xs[0]!, at[0]!));
        const j = Math.max(
          0,
          xs.findIndex((from, k) => from <= x && x <= xs[k + 1]!),
        );
        const share = over(minus(exactly(x), exactly(xs[j]!)), minus(exactly(xs[j + 1]!), exactly(xs[j]!)));
        const right = plus(exactly(own[j]!), times(minus(exactly(own[j + 1]!), exactly(own[j]!)), share));
        const size = Math.max(...own.map(Math.abs), 1e-9);
        expect(compare(abs(minus(exactly(value), right)), exactly(size * 1e-14)) <= 0, told).toBe(true);
        expect(
          compare(right, exactly(intervals.low[4]!)) >= 0 && compare(right, exactly(intervals.high[4]!)) <= 0,
          told,
        ).toBe(true);
      }
    }
  }
});

test("a curve keeps between its two neighbours and goes through every point", () => {
  for (let i = 0, by = chance(6); i < 300; i++) {
    const { xs, values } = points(by, false, true, true);
    xs.forEach((x, j) => expect(curveAt(xs, values, x)).toBeCloseTo(values[j]!, 9));
    for (let j = 0; j + 1 < xs.length; j++)
      for (let n = 0; n <= 10; n++) {
        const y = curveAt(xs, values, xs[j]! + ((xs[j + 1]! - xs[j]!) * n) / 10);
        expect(y).toBeGreaterThanOrEqual(Math.min(values[j]!, values[j + 1]!) - 1e-9);
        expect(y).toBeLessThanOrEqual(Math.max(values[j]!, values[j + 1]!) + 1e-9);
      }
    expect(straightAt(xs, values, xs.at(-1)!)).toBe(values.at(-1));
  }
});
