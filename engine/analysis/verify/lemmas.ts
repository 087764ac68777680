// What many goals rest on is shown once, before any of them: that a chart has a row, that nothing is divided
// by nought, in every job that no stop refuses. Goals that leave out refused jobs then take it as known.
import { Opcode, type Op, extraReads } from "../../program/plan/op.ts";
import type { Plan } from "../../program/plan/plan.ts";
import { MAY_IMPOSSIBLE, type Intervals } from "../../program/intervals/interval-frame.ts";
import { type Box, Runner, wholeBox } from "./box.ts";
import { type Goal, placesOf } from "./goal.ts";
import { asksByRegister } from "./open-questions.ts";
import { Proof } from "./prove.ts";
import { type Slice, sliceOf } from "./slice.ts";

/** Boxes that one of them may cost; what is harder is left to the goals themselves. */
const MOST_BOXES = 60;

export class Lemmas {
  /** By place, 1 where an operation is never impossible by itself in a job that is not refused. */
  readonly known: Uint8Array;
  readonly #plan: Plan;
  readonly #slice: Slice;
  readonly #runner: Runner;
  readonly #box: Box;
  readonly #stopped: number;
  readonly #told: ReadonlySet<number>;
  /** By place: those proved, and those that were too hard or are not true. */
  readonly #tried = new Map<number, Proof>();
  readonly #old: ReadonlyMap<number, Proof>;
  #left: Proof[] = [];
  #done = false;

  /** `before`: those of the same book before an edit. */
  constructor(plan: Plan, goals: readonly Goal[], before?: Lemmas) {
    this.#plan = plan;
    this.#old = before === undefined ? new Map<number, Proof>() : before.#tried;
    this.#stopped = plan.registers.byName.get("stopped!") ?? -1;
    this.known = new Uint8Array(plan.registers.next + 1);
    this.#slice = sliceOf(plan, goals.flatMap(placesOf), true);
    this.#runner = new Runner(plan, this.#slice, [], this.known);
    this.#box = wholeBox(this.#runner);
    this.#told = toldApart(this.#slice);
  }

  /** Looks at about so many boxes more, and at no more once it is late; true when there is no more to do. */
  advance(boxes: number, late: () => boolean): boolean {
    let left = boxes;
    while (!this.#done) {
      const proof = this.#left.at(-1);
      if (proof === undefined) {
        if (!this.#begin()) break;
        continue;
      }
      const before = proof.looked;
      proof.advance(Math.max(1, Math.min(left, MOST_BOXES - before)), late);
      left -= proof.looked - before + 1;
      if (proof.over || proof.looked >= MOST_BOXES) {
        this.#left.pop();
        if (proof.verdict.is === "proved") this.known[proof.goal.want.places[0]!] = 1;
      }
      if (left <= 0 || late()) return false;
    }
    this.#done = true;
    return true;
  }

  /** Proofs for what may be impossible by itself, as far as is known now; false where nothing is left. */
  #begin(): boolean {
    this.#runner.forget();
    const intervals = this.#runner.box(this.#box);
    const sites = this.#slice.ops.filter((op) => !this.#tried.has(op.out) && this.#isSite(op, intervals));
    this.#left = sites.reverse().map(({ out }) => this.#proofOf(out));
    return this.#left.length > 0;
  }

  #proofOf(place: number): Proof {
    const proof = new Proof(this.#plan, this.#goal(place), { safe: this.known });
    const old = this.#old.get(place);
    if (old !== undefined) proof.resume(old);
    this.#tried.set(place, proof);
    return proof;
  }

  #goal(place: number): Goal {
    return {
      id: "",
      sort: "chart",
      says: "",
      guards: [],
      unless: this.#stopped,
      want: { is: "row", places: [place] },
    };
  }

  #isSite(op: Op, intervals: Intervals): boolean {
    return (
      SITES.has(op.opcode) &&
      (intervals.flags[op.out]! & MAY_IMPOSSIBLE) !== 0 &&
      !this.#told.has(op.out) &&
      [op.in0, op.in1, op.in2, ...extraReads(op)].every(
        (at) => at < 0 || (intervals.flags[at]! & MAY_IMPOSSIBLE) === 0,
      )
    );
  }
}

const SITES: ReadonlySet<number> = new Set([
  Opcode.div,
  Opcode.pow,
  Opcode.fn,
  Opcode.round,
  Opcode.pick,
  Opcode.interpolate,
  Opcode.candidateRows,
]);

/**
 * Places on which it rests whether something is known, or which rows a chart keeps: there a value that is
 * impossible makes a difference of its own, in refused jobs too.
 */
function toldApart(slice: Slice): ReadonlySet<number> {
  const { made, parts } = slice.graph;
  const asks = asksByRegister(slice);
  const inner = slice.ops.flatMap((op) => (op.opcode === Opcode.list ? [op, ...op.payload.ops] : [op]));
  const stack = inner.flatMap((op) =>
    op.opcode === Opcode.known || op.opcode === Opcode.candidateRows ? parts[op.out]! : [],
  );
  const found = new Set<number>();
  for (let at = stack.pop(); at !== undefined; at = stack.pop()) {
    if (found.has(at)) continue;
    found.add(at);
    if (!asks.has(at) && made[at] !== undefined) stack.push(...parts[at]!);
  }
  return found;
}

/** Whether a goal leaves out what only refused jobs show. */
export const leavesOutRefused = ({ want, unless }: Goal, stopped: number): boolean =>
  want.is === "kept" || want.is === "never" || (stopped >= 0 && unless === stopped);
