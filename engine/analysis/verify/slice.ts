// The part of a plan that some places rest on: its blocks in the order of work, and the asks among them. A
// proof looks at this part only, and stays good for as long as this part does not change.
import type { Block, Plan } from "../../program/plan/plan.ts";
import { type Op, Opcode, type PickTable } from "../../program/plan/op.ts";
import type { Usual } from "../../language/check/ask.ts";
import { CLOSE, nearly, nextDown, nextUp } from "../../../core/number.ts";
import type { Type } from "../../../core/type.ts";
import type { Unit } from "../../../core/unit.ts";
import { type Graph, graphOf } from "./graph.ts";
import { pairKey } from "../../program/intervals/compare.ts";
import type { Range } from "../../program/intervals/interval-frame.ts";

export interface Slice {
  /** Without the asks: their values are set from outside. */
  readonly blocks: readonly Block[];
  readonly ops: readonly Op[];
  readonly asks: readonly Ask[];
  /** The dials among its blocks. */
  readonly dials: readonly Block[];
  /** That of the whole plan. */
  readonly graph: Graph;
}

export interface Ask {
  readonly name: string;
  /** Where its value is. */
  readonly place: number;
  /** Where the answer is put: the same, unless the slice works out what stands in for it. */
  readonly answer: number;
  /** Where it stands whether it was answered "cannot tell"; -1 where the slice does not work that out. */
  readonly cannotTell: number;
  readonly block: Block;
  readonly type: Type;
  readonly unit: Unit | undefined;
  /** All that may be answered. */
  readonly range: Range;
  /** The part of it that is usual, where the book says so. */
  readonly usual?: Usual;
  /** In SI; a ten-thousandth of the range where the book names none. */
  readonly resolution: number;
  /**
   * Where a rule of the slice turns on this answer alone: `below` belongs to the left, the next double to the
   * right.
   */
  readonly cuts: readonly number[];
}

const makers = new WeakMap<Plan, Map<number, Block>>();

function makersOf(plan: Plan): ReadonlyMap<number, Block> {
  const known = makers.get(plan);
  if (known !== undefined) return known;
  const made = new Map<number, Block>();
  for (const block of plan.blocks) {
    for (const place of block.writes) made.set(place, block);
    for (const register of block.outputs) made.set(register, block);
  }
  makers.set(plan, made);
  return made;
}

/**
 * `fallbacks`: the slice works out what stands in for an answer of "cannot tell". Without them the value of
 * each ask is set from outside.
 */
export function sliceOf(plan: Plan, places: readonly number[], fallbacks = false): Slice {
  const made = makersOf(plan);
  const works = (block: Block) => !isAsk(block) || (fallbacks && hasOwnFallback(block));
  const wanted = new Set<Block>();
  const stack = places.flatMap((register) => made.get(register) ?? []);
  for (let block = stack.pop(); block !== undefined; block = stack.pop()) {
    if (wanted.has(block)) continue;
    wanted.add(block);
    if (!works(block)) continue;
    for (const input of block.inputs) {
      const next = made.get(input);
      if (next !== undefined) stack.push(next);
    }
  }
  const inOrder = plan.blocks.filter((block) => wanted.has(block));
  const blocks = inOrder.filter(works);
  const ops = blocks.flatMap((block) => [...block.ops]);
  const turning = turningOf(blocks);
  const asks = inOrder
    .filter(isAsk)
    .flatMap((block) => askOf(block, turning, fallbacks && hasOwnFallback(block)) ?? []);
  return { blocks, ops, asks, dials: blocks.filter(isDial), graph: graphOf(plan) };
}

const isDial = (block: Block): boolean => block.entry.statement?.body.keyword === "dial";

const isAsk = (block: Block): boolean => block.entry.statement?.body.keyword === "ask";

/**
 * Whether a blank or "cannot tell" can come to anything but an answer in range: not where "cannot tell" alone
 * has a fallback, and that is one fixed value that could have been answered.
 */
function hasOwnFallback(block: Block): boolean {
  const { ask, signature } = block.entry.checked;
  if (block.cannotTell < 0 || ask === undefined || signature === undefined) return false;
  if (ask.blank !== undefined) return true;
  const [select] = block.ops;
  const fixed = block.constants.find(({ register }) => register === select?.in1)?.value;
  if (block.ops.length !== 1 || fixed === undefined) return true;
  const { type } = signature;
  if (type.is === "kind" || type.is === "yes-no") return false;
  return !(fixed >= ask.low && fixed <= ask.high) || (type.is === "count" && !Number.isInteger(fixed));
}

/**
 * The places in `dials` of those that are turned from one slice to another; undefined where they differ in
 * anything else.
 */
export function turnedDials(a: Slice, b: Slice): readonly number[] | undefined {
  if (a.blocks.length !== b.blocks.length || a.asks.length !== b.asks.length) return undefined;
  const turned: number[] = [];
  for (const [i, block] of a.blocks.entries()) {
    const other = b.blocks[i]!;
    if (block.ops === other.ops && block.constants === other.constants) continue;
    if (!isDial(block) || !isDial(other) || block.outputs[0] !== other.outputs[0]) return undefined;
    turned.push(b.dials.indexOf(other));
  }
  return a.asks.every((ask, i) => sameAsk(ask, b.asks[i]!)) ? turned : undefined;
}

const sameAsk = (a: Ask, b: Ask): boolean =>
  a.name === b.name &&
  a.place === b.place &&
  a.cannotTell === b.cannotTell &&
  a.range.low === b.range.low &&
  a.range.high === b.range.high &&
  a.range.words === b.range.words;

function askOf(block: Block, turning: Turning, ownFallback: boolean): Ask | undefined {
  const { signature, ask } = block.entry.checked;
  const name = block.entry.statement.name?.text;
  const place = block.outputs[0];
  if (signature === undefined || ask === undefined || name === undefined || place === undefined)
    return undefined;
  const { type, unit } = signature;
  const count = type.is === "kind" ? type.words.length : type.is === "yes-no" ? 2 : 0;
  const range: Range =
    count > 0
      ? {
          low: 0,
          high: count - 1,
          ...(count <= 31 ? { words: count === 31 ? 0x7fffffff : (1 << count) - 1 } : {}),
        }
      : { low: Math.min(ask.low, ask.high), high: Math.max(ask.low, ask.high) };
  const resolution =
    ask.resolution ?? (count > 0 || type.is === "count" ? 1 : (range.high - range.low) / 10_000);
  return {
    name,
    place,
    answer: ownFallback ? block.answer : place,
    cannotTell: ownFallback ? block.cannotTell : -1,
    block,
    type,
    unit,
    range,
    ...(ask.usual ? { usual: ask.usual } : {}),
    resolution,
    cuts: count > 0 ? [] : cutsOf(place, turning, range),
  };
}

/** Ends of chart rows, of bands and of comparisons with a constant, inside the range, rising. */
function cutsOf(place: number, { constants, blocks }: Turning, range: Range): readonly number[] {
  const found = new Set<number>();
  for (const block of blocks) {
    if (!block.inputs.includes(place) && !block.outputs.includes(place)) continue;
    for (const op of block.ops) addCuts(op, place, constants, found);
  }
  return [...found].filter((x) => x >= range.low && nextUp(x) <= range.high).sort((a, b) => a - b);
}

/** What is read for where rules turn: the blocks of a slice, and its constants by their places. */
interface Turning {
  readonly blocks: readonly Block[];
  readonly constants: ReadonlyMap<number, number>;
}

function turningOf(blocks: readonly Block[]): Turning {
  const constants = new Map(
    blocks.flatMap((block) => block.constants.map(({ register, value }) => [register, value] as const)),
  );
  // A dial is a copy of its number.
  for (const { ops } of blocks)
    for (const op of ops)
      if (op.opcode === Opcode.copy && constants.has(op.in0)) constants.set(op.out, constants.get(op.in0)!);
  return { blocks, constants };
}

function addCuts(op: Op, place: number, constants: Turning["constants"], found: Set<number>): void {
  const around = (value: number | undefined) => {
    if (value !== undefined) found.add(nextDown(edge(value, -1))).add(edge(value, 1));
  };
  if (op.opcode === Opcode.pick) for (const end of rowEnds(op.payload, place)) found.add(end);
  else if (op.opcode === Opcode.candidateRows)
    for (const end of rowEnds(op.payload.pick, place)) found.add(end);
  else if (op.opcode === Opcode.interpolate)
    op.payload.axes.forEach((axis, i) => {
      if (axis === place)
        for (const group of op.payload.groups) for (const at of i === 0 ? group.xs : group.ys) around(at);
    });
  else if (COMPARING.has(op.opcode)) {
    if (op.in0 === place) around(constants.get(op.in1));
    if (op.in1 === place) around(constants.get(op.in0));
  } else if (op.opcode === Opcode.band && op.in0 === place) {
    around(constants.get(op.in1));
    around(constants.get(op.in2));
  }
}

/** Operations of two numbers that turn where the two meet. */
const COMPARING: ReadonlySet<number> = new Set([
  Opcode.lt,
  Opcode.le,
  Opcode.eq,
  Opcode.ne,
  Opcode.max,
  Opcode.min,
]);

/** Where the rows of a chart begin and end in one of its conditions. */
function rowEnds({ conditions, rows }: PickTable, place: number): readonly number[] {
  const ends: number[] = [];
  conditions.forEach((condition, c) => {
    if (condition !== place) return;
    for (const sides of rows) {
      const side = sides[c]!;
      if (side === "any" || side.is === "words") continue;
      for (const one of side.stretches) ends.push(nextDown(one.from), one.to);
    }
  });
  return ends;
}

/** The last double that counts as equal to the value, below it or above it. */
function edge(value: number, way: -1 | 1): number {
  const on = way < 0 ? nextDown : nextUp;
  const back = way < 0 ? nextUp : nextDown;
  let at = value + way * CLOSE * Math.abs(value);
  while (!nearly(at, value)) at = back(at);
  while (nearly(on(at), value)) at = on(at);
  return at;
}

/**
 * Pairs compared in the statements that write these places, where at least one side is worked out: writing
 * those out can show more than their spans do.
 */
export function comparedIn(slice: Slice, places: readonly number[]): ReadonlySet<number> {
  const given = new Set([
    ...slice.asks.map((ask) => ask.place),
    ...slice.blocks.flatMap((block) => block.constants.map(({ register }) => register)),
  ]);
  const pairs = new Set<number>();
  for (const block of slice.blocks) {
    if (!places.some((register) => block.writes.includes(register))) continue;
    for (const op of block.ops)
      if (
        (op.opcode === Opcode.lt ||
          op.opcode === Opcode.le ||
          op.opcode === Opcode.eq ||
          op.opcode === Opcode.ne) &&
        !(given.has(op.in0) && given.has(op.in1))
      )
        pairs.add(pairKey(op.in0, op.in1));
  }
  return pairs;
}

const twins = new WeakMap<Slice, ReadonlyMap<number, number>>();

/** Constants of the slice: each place to the first that holds the same value. */
export function twinsOf(slice: Slice): ReadonlyMap<number, number> {
  const known = twins.get(slice);
  if (known !== undefined) return known;
  const first = new Map<number, number>();
  const made = new Map<number, number>();
  for (const block of slice.blocks)
    for (const { register, value } of block.constants) {
      const twin = first.get(value) ?? register;
      first.set(value, twin);
      made.set(register, twin);
    }
  twins.set(slice, made);
  return made;
}

/** Whether an ask stands for a dial, which is free in its span. */
export const isDialAsk = ({ block }: Pick<Ask, "block">): boolean => block.id.startsWith("dial ");
