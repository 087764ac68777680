// A chart that keeps every row: the candidate rows that the answers leave, and what is read from them.
import { allows } from "../../../core/box.ts";
import { nearly } from "../../../core/number.ts";
import type { CandidateTable, Op } from "../plan/op.ts";
import { type Frame, isKnown, reasonOf, stateOf } from "./frame.ts";
import { impossible, sameState } from "./no-value.ts";

/** Notes the candidate rows and returns the count of their different values. */
export function candidateRows(frame: Frame, table: CandidateTable, register: number): number {
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

/** The count of a chart without a value: 0 where the answers leave no row. */
export function noCandidates(frame: Frame, { in1: chart, out: register }: Op): number {
  const isEmptied = stateOf(frame, chart) === "impossible" && frame.cause[chart] === chart;
  return isEmptied && reasonOf(frame, chart).code === "answers-contradict"
    ? 0
    : sameState(frame, register, chart);
}

/** The first value among the candidate rows, in the order of the kind. */
export function firstCandidate(frame: Frame, { in0: slot, in1: chart, out: register }: Op): number {
  if (!isKnown(frame, chart)) return sameState(frame, register, chart);
  const candidates = frame.candidateRows[slot];
  let first = Infinity;
  candidates?.left.forEach((yes, r) => {
    if (yes) {
      const v = frame.num[candidates.values[r]!]!;
      if (v < first) first = v;
    }
  });
  return first === Infinity ? impossible(frame, register, { code: "no-row-left" }) : first;
}

/** Whether a value is among those of the candidate rows. */
export function candidatesAmong(frame: Frame, { in0: slot, in1: chart, in2: of, out: register }: Op): number {
  const v = frame.num[of]!;
  if (v !== v) return sameState(frame, register, of);
  if (!isKnown(frame, chart)) return sameState(frame, register, chart);
  const candidates = frame.candidateRows[slot];
  let found = 0;
  candidates?.left.forEach((yes, r) => {
    if (yes && nearly(frame.num[candidates.values[r]!]!, v)) found = 1;
  });
  return found;
}
