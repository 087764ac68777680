// What is made of one statement while it is compiled: operations, constants and places, and the room that is left for them.
import type { Span } from "../../../core/span.ts";
import type { Rule } from "../../language/check/rule.ts";
import { K, type Op } from "./op.ts";
import type { Places } from "./plan.ts";

/** A plan beyond this many operations is refused; formulas within formulas could otherwise grow without end. */
export const MOST_OPERATIONS = 400_000;

/** One maker for each block while it is made; its parts become the block's. */
export interface Maker {
  readonly places: Places;
  ops: Op[];
  readonly constants: Map<number, number>;
  readonly nothing: { place: number; reason: string }[];
  readonly inputs: Set<number>;
  readonly writes: number[];
  locals: Map<string, number>;
  /** While the cells of a called chart are laid: places that stand in for the values it is read by. */
  standIns: ReadonlyMap<string, number>;
  /** While what a call lays in is laid: the place of the call, since the text is another statement's. */
  within: Span | undefined;
  room: number;
}

/** `laid`: the operations that the book has so far, which leave the less room. */
export const newMaker = (places: Places, laid: number): Maker => ({ places, room: MOST_OPERATIONS - laid, ...blank() });

/** A maker of another block of the same statement, in the room that is left. */
export const besides = (maker: Maker): Maker => ({ ...maker, ...blank() });

const blank = (): Omit<Maker, "places" | "room"> => ({ ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], locals: new Map(), standIns: NONE, within: undefined });

/** Lays a rule's operations and gives the place of its value. */
export type Laying = (maker: Maker, rule: Rule) => number;

/** No names stand in for others. */
export const NONE: ReadonlyMap<string, number> = new Map();

/** Thrown where the room is used up; it is caught at the statement. */
export class Full extends Error {}

/** Adds an operation; throws `Full` where the room is used up. */
export function push(maker: Maker, op: Op): void {
  if (--maker.room < 0) throw new Full();
  maker.ops.push(op);
  maker.writes.push(op.d);
}

/** Puts a value where it is to stand. */
export const copyInto = (maker: Maker, d: number, from: number, at: Span): void => push(maker, { k: K.copy, d, a: from, b: -1, c: -1, x: undefined, at });

type Plain = "add" | "sub" | "mul" | "div" | "pow" | "lt" | "le" | "eq" | "ne" | "and" | "or" | "max" | "min" | "neg" | "not" | "known" | "copy";

/** Adds an operation that needs no table, and gives its place. */
export function emit(maker: Maker, k: (typeof K)[Plain], a: number, b: number, at: Span): number {
  const d = maker.places.next++;
  push(maker, { k, d, a, b, c: -1, x: undefined, at } as Op);
  return d;
}

/** The place of a number that stands in the rules. */
export function constant(maker: Maker, value: number): number {
  const known = maker.constants.get(value);
  if (known !== undefined) return known;
  const place = maker.places.next++;
  maker.constants.set(value, place);
  return place;
}

/** Notes that the statement reads this place of another. */
export function read(maker: Maker, place: number): number {
  maker.inputs.add(place);
  return place;
}

/** Lays what another statement says, under the names that it knows. */
export function inside(maker: Maker, at: Span, locals: Map<string, number>, standIns: ReadonlyMap<string, number>, laying: () => number): number {
  const saved = { locals: maker.locals, standIns: maker.standIns, within: maker.within };
  Object.assign(maker, { locals, standIns, within: maker.within ?? at });
  const place = laying();
  Object.assign(maker, saved);
  return place;
}
