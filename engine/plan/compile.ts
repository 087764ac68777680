// From checked statements to blocks of operations. Each rule becomes a short run of operations in the order in
// which its parts are needed; formulas are laid in where they are called.
import type { Side } from "../../core/boxes.ts";
import type { Span } from "../../core/span.ts";
import type { CheckedBook, Entry } from "../check/book.ts";
import { STEPS, STOPPED } from "../check/book.ts";
import type { CheckedChart, OfSteps, Rule, TextRule } from "../check/rule.ts";
import { beforeName } from "../check/before.ts";
import { STATEMENT_WORDS } from "../syntax/parse.ts";
import { type BetweenGroup, K, type Op, type PickTable } from "./op.ts";
import { type Block, type PictureArgument, type Places, type Plan, type Template, type Value, newPlaces } from "./plan.ts";

/** A plan beyond this many operations is refused; formulas within formulas could otherwise grow without end. */
export const MOST_OPERATIONS = 400_000;

export function compileBook(checked: CheckedBook, before?: Plan): Plan {
  const places = before !== undefined && before.places.next < 50_000 + 6 * checked.entries.length * 40 ? before.places : newPlaces();
  const reuse = before?.places === places ? before.byId : new Map<string, Block>();
  const blocks: Block[] = [];
  const byId = new Map<string, Block>();
  const late: Block[] = [];
  let operations = 0;
  for (const i of checked.order) {
    if (i === STEPS) {
      const steps = stepsBlock(checked, places, byId, reuse.get("steps"));
      if (steps === undefined) continue;
      blocks.push(steps);
      byId.set(steps.id, steps);
      continue;
    }
    if (i === STOPPED) {
      const stops = stopsBlock(checked, places, reuse.get("stopped"));
      blocks.push(stops);
      byId.set(stops.id, stops);
      continue;
    }
    const entry = checked.entries[i]!;
    const old = reuse.get(entry.id);
    const block = old !== undefined && old.entry.checked === entry.checked && old.entry.texts === entry.texts && old.key === keyOf(entry, checked, i, operations)
      ? (old.entry === entry ? old : { ...old, entry })
      : compileEntry(entry, checked, i, places, operations);
    operations += block.ops.length + (block.worded?.ops.length ?? 0);
    blocks.push(block);
    byId.set(entry.id, block);
    if (block.worded !== undefined) late.push(block.worded);
  }
  // What stands in a text may rest on what comes later in the order of work: it is worked when all the rest is.
  for (const block of late) {
    blocks.push(block);
    byId.set(block.id, block);
  }
  // A stop, step or caution that cannot be read still counts: nothing is released past a stop that nobody understood.
  const of = (keyword: string) => checked.entries.flatMap((entry) => (wordOf(entry) === keyword ? [byId.get(entry.id)!] : []));
  return { checked, blocks, byId, places, stops: of("stop"), steps: of("step"), cautions: of("caution"), promises: of("promise") };
}

const LINES: ReadonlySet<string> = new Set(["step", "caution", "stop"]);

/** What a statement is, or was meant to be. A line with a text that begins with no word of the language may have been meant as a stop, and counts as one. */
function wordOf({ statement: { body, text }, from }: Entry): string {
  // What stands on a book that is not at hand may lack a stop: nothing is released.
  if (from?.withholds !== undefined) return "stop";
  if (body.keyword !== "unreadable") return body.keyword;
  return !STATEMENT_WORDS.some((word) => word === body.meant) && text.includes('"') ? "stop" : body.meant;
}

/** What a block depends on besides its own checked statement. */
const keyOf = (_entry: Entry, checked: CheckedBook, i: number, operations: number): string => `${checked.looped.has(i) ? "loop" : ""}${operations > MOST_OPERATIONS ? "full" : ""}${isFirst(checked, i) ? "" : "twin"}`;

/** A second statement of one name is checked but owns no place. */
function isFirst(checked: CheckedBook, i: number): boolean {
  const { statement } = checked.entries[i]!;
  if (statement.name === undefined) return true;
  return checked.byName.get(statement.name.text) === i || checked.byName.get(`${statement.body.keyword} ${statement.name.text}`) === i;
}

/** The place of a statement's value, handed out at the first mention and kept. */
export function placeOf(places: Places, name: string): number {
  const known = places.byName.get(name);
  if (known !== undefined) return known;
  const place = places.next++;
  places.byName.set(name, place);
  places.owner.set(place, name);
  return place;
}

const slotOf = (places: Places, name: string): number => {
  const known = places.slots.get(name);
  if (known !== undefined) return known;
  const slot = places.nextSlot++;
  places.slots.set(name, slot);
  return slot;
};

export const columnName = (name: string, column: number): string => `${name}.${column}`;
const STOPPED_NAME = "stopped!";

// ───────────── one statement ─────────────

interface Maker {
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
  /** Operations that do not depend on a list's counter are laid before the list. */
  outer: Op[] | undefined;
  room: number;
}

const NONE: ReadonlyMap<string, number> = new Map();

class Full extends Error {}

function compileEntry(entry: Entry, checked: CheckedBook, i: number, places: Places, operations: number): Block {
  const key = keyOf(entry, checked, i, operations);
  const name = entry.statement.name?.text;
  const maker: Maker = { places, ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], locals: new Map(), standIns: NONE, within: undefined, outer: undefined, room: MOST_OPERATIONS - operations };
  try {
    return finish(maker, entry, key, compileInto(maker, entry, checked, i));
  } catch (error) {
    if (!(error instanceof Full)) throw error;
    const empty: Maker = { ...maker, locals: new Map(), standIns: NONE, within: undefined, ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], outer: undefined };
    const place = name === undefined ? places.next++ : placeOf(places, name);
    empty.nothing.push({ place, reason: "the book's formulas grow beyond what is worked" });
    return finish(empty, entry, key, { outputs: [place] });
  }
}

interface Parts {
  readonly outputs?: readonly number[];
  readonly when?: number;
  readonly takes?: number;
  readonly waits?: number;
  readonly answer?: number;
  readonly cannotTell?: number;
  readonly slot?: number;
  readonly values?: readonly Value[];
  readonly pictures?: Block["pictures"];
}

function finish(maker: Maker, entry: Entry, key: string, parts: Parts): Block {
  const wording: Maker = { ...maker, ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], locals: new Map(), standIns: NONE, within: undefined };
  const texts = {
    ...(entry.texts.title ? { title: template(wording, entry.texts.title) } : {}),
    ...(entry.texts.because ? { because: template(wording, entry.texts.because) } : {}),
    ...(entry.texts.takeBecause ? { takeBecause: template(wording, entry.texts.takeBecause) } : {}),
  };
  const isPlain = wording.ops.length === 0 && wording.constants.size === 0 && wording.nothing.length === 0;
  return {
    ...blockOf(maker, entry, key, parts), texts,
    ...(isPlain ? {} : { worded: blockOf(wording, apartFrom(`texts of ${entry.id}`), key, {}) }),
  };
}

/** Stands for a statement where a block belongs to none, or to more than one. */
const apartFrom = (id: string): Entry => ({ id, texts: { faults: [] } }) as unknown as Entry;

function blockOf(maker: Maker, entry: Entry, key: string, parts: Parts): Block {
  return {
    id: entry.id, entry, key, ops: maker.ops, texts: {},
    constants: [...maker.constants].map(([value, place]) => ({ place, value })),
    nothing: maker.nothing,
    inputs: numbers(maker.inputs, maker.inputs.size), outputs: numbers(parts.outputs ?? [], parts.outputs?.length ?? 0), writes: numbers(maker.writes, maker.writes.length),
    slot: parts.slot ?? -1, when: parts.when ?? -1, takes: parts.takes ?? -1, waits: parts.waits ?? -1, answer: parts.answer ?? -1, cannotTell: parts.cannotTell ?? -1,
    values: parts.values ?? [], pictures: parts.pictures ?? [],
  };
}

/** Like Int32Array.from, which takes ten times as long for the few numbers of a block. */
function numbers(of: Iterable<number>, count: number): Int32Array {
  if (count === 0) return NO_PLACES;
  const made = new Int32Array(count);
  let i = 0;
  for (const one of of) made[i++] = one;
  return made;
}

const NO_PLACES = new Int32Array(0);

function compileInto(maker: Maker, entry: Entry, checked: CheckedBook, i: number): Parts {
  const { statement, checked: own } = entry;
  const name = statement.name?.text;
  const { places } = maker;
  // A second statement of the same name, or a loop, has its finding; it must not write another's place.
  const mine = (column?: number) => {
    if (name === undefined || !isFirst(checked, i)) return places.next++;
    return placeOf(places, column === undefined ? name : columnName(name, column));
  };
  const into = (rule: Rule, place: number): number => {
    if (checked.looped.has(i)) { maker.nothing.push({ place, reason: "it is part of a loop" }); return place; }
    const from = lay(maker, rule);
    push(maker, { k: K.copy, d: place, a: from, b: -1, c: -1, x: undefined, at: rule.at });
    return place;
  };
  const value = (place: number, of: { type: Value["type"]; unit: Value["unit"] }): Value => ({ place, type: of.type, unit: of.unit });

  switch (statement.body.keyword) {
    case "ask": {
      const place = mine();
      const values = own.signature ? [value(place, own.signature)] : [];
      if (own.ask?.take === undefined || checked.looped.has(i)) return { outputs: [place], answer: place, values };
      // "Cannot tell" is an answer of its own: then what the book takes stands in for the measurement.
      const answer = placeOf(places, `${name}?`);
      const cannotTell = placeOf(places, `${name}??`);
      const take = lay(maker, own.ask.take);
      push(maker, { k: K.select, d: place, a: read(maker, cannotTell), b: take, c: read(maker, answer), x: undefined, at: own.ask.take.at });
      return { outputs: [place], answer, cannotTell, values };
    }
    case "dial": case "figure": {
      const place = mine();
      if (own.rule !== undefined) into(own.rule, place);
      else maker.nothing.push({ place, reason: "it has a finding" });
      return { outputs: [place], values: own.signature ? [value(place, { ...own.signature })] : [] };
    }
    case "chart": return chartInto(maker, entry, mine, checked.looped.has(i), isFirst(checked, i));
    case "list": {
      // A second list of one name has its finding; the rows under the name are the first one's.
      if (!isFirst(checked, i)) return { slot: slotOf(places, entry.id) };
      const slot = slotOf(places, name ?? "");
      if (own.list !== undefined && !checked.looped.has(i)) layList(maker, own.list, name!, slot, statement.ruleAt ?? { start: 0, end: 4 });
      return { slot };
    }
    case "step": case "caution": case "stop": {
      const place = isFirst(checked, i) ? placeOf(places, entry.id) : places.next++;
      const conditions: number[] = [];
      if (checked.looped.has(i) && statement.needs.some((one) => one === "steps" || one === "stopped")) {
        maker.nothing.push({ place, reason: "it is part of a loop" });
        return { outputs: [place], when: place };
      }
      if (own.when !== undefined) conditions.push(lay(maker, own.when));
      if (own.withSteps !== undefined) {
        const steps = own.withSteps.flatMap((step) => (checked.byName.has(`step ${step}`) ? [read(maker, placeOf(places, `step ${step}`))] : []));
        conditions.push(steps.reduce((a, b) => emit(maker, K.or, a, b, statement.ruleAt ?? { start: 0, end: 0 }), constant(maker, 0)));
      }
      const all = conditions.length === 0 ? constant(maker, 1) : conditions.reduce((a, b) => emit(maker, K.and, a, b, statement.clauses.when?.at ?? { start: 0, end: 0 }));
      push(maker, { k: K.copy, d: place, a: all, b: -1, c: -1, x: undefined, at: statement.clauses.when?.at ?? { start: 0, end: 0 } });
      const takes = own.takes && lay(maker, own.takes);
      const waits = own.waits && lay(maker, own.waits);
      // Its times are handed on like a value: a sum over the steps reads them.
      return { outputs: [place, ...[takes, waits].flatMap((time) => (time !== undefined && maker.writes.includes(time) ? [time] : []))], when: place, ...(takes !== undefined ? { takes } : {}), ...(waits !== undefined ? { waits } : {}) };
    }
    case "promise": {
      const place = placeOf(places, entry.id);
      if (own.rule === undefined) return {};
      const rule = lay(maker, own.rule);
      const whole = own.when === undefined ? rule : emit(maker, K.or, emit(maker, K.not, lay(maker, own.when), -1, own.when.at), rule, own.rule.at);
      push(maker, { k: K.copy, d: place, a: whole, b: -1, c: -1, x: undefined, at: own.rule.at });
      return { outputs: [place], when: place };
    }
    case "picture": return {
      pictures: (own.picture ?? []).map(({ name: argument, rule }) => pictured(maker, argument, rule, statement.text)),
      ...(own.when ? { when: lay(maker, own.when) } : {}),
    };
    case "book": case "part": case "use": case "drop": case "add": case "kind": case "formula": case "worked": case "unreadable": {
      if (entry.from?.withholds !== undefined) {
        const place = placeOf(places, entry.id);
        maker.nothing.push({ place, reason: entry.from.withholds });
        return { outputs: [place], when: place };
      }
      if (statement.body.keyword === "unreadable" && LINES.has(wordOf(entry))) {
        const place = placeOf(places, entry.id);
        const known = LINES.has(statement.body.meant);
        maker.nothing.push({ place, reason: known ? `a ${statement.body.meant} of the book cannot be read` : `a line of the book that begins with “${statement.body.meant.slice(0, 20)}” cannot be read` });
        return { outputs: [place], when: place };
      }
      if (statement.body.keyword === "unreadable" && name !== undefined && statement.body.meant !== "formula") maker.nothing.push({ place: mine(), reason: "it cannot be read" });
      return {};
    }
  }
}

function pictured(maker: Maker, argument: string, rule: Rule, text: string): PictureArgument {
  const of = rule.does === "value" && rule.column === undefined ? rule.name : text.slice(rule.at.start, rule.at.end);
  const isList = rule.type.is === "list" && rule.does === "value";
  const place = isList ? read(maker, placeOf(maker.places, `${rule.name}!`)) : lay(maker, rule);
  return { name: argument, of, value: { place, type: rule.type, unit: rule.unit }, slot: isList ? slotOf(maker.places, rule.name) : -1 };
}

/** `stopped` is yes when any stop holds: one block after all of them. */
function stopsBlock(checked: CheckedBook, places: Places, old: Block | undefined): Block {
  // The same stops as before: the block serves on, and so does all that was proved of what rests on it.
  const key = checked.entries.flatMap((entry) => (wordOf(entry) === "stop" ? [placeOf(places, entry.id)] : [])).join();
  if (old?.key === key) return old;
  const maker: Maker = { places, ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], locals: new Map(), standIns: NONE, within: undefined, outer: undefined, room: MOST_OPERATIONS };
  const place = placeOf(places, STOPPED_NAME);
  const stops = checked.entries.flatMap((entry) => (wordOf(entry) === "stop" ? [read(maker, placeOf(places, entry.id))] : []));
  const any = stops.reduce((a, b) => emit(maker, K.or, a, b, { start: 0, end: 0 }), constant(maker, 0));
  push(maker, { k: K.copy, d: place, a: any, b: -1, c: -1, x: undefined, at: { start: 0, end: 0 } });
  return blockOf(maker, apartFrom("stopped"), key, { outputs: [place], when: place });
}

const stepsName = (what: OfSteps): string => `steps!${what}`;

/** How many steps apply and how long they take and wait, all told: one block after all of them; none where no rule asks. */
function stepsBlock(checked: CheckedBook, places: Places, byId: ReadonlyMap<string, Block>, old: Block | undefined): Block | undefined {
  if (checked.byName.has("steps") || !checked.entries.some((entry) => entry.statement.uses.includes("steps"))) return undefined;
  const steps = checked.entries.flatMap((entry) => (wordOf(entry) === "step" ? [{ when: placeOf(places, entry.id), block: byId.get(entry.id) }] : []));
  const key = steps.map(({ when, block }) => (block === undefined ? `${when}` : `${when} ${block.takes} ${block.waits}`)).join();
  if (old?.key === key) return old;
  const maker: Maker = { places, ops: [], constants: new Map(), nothing: [], inputs: new Set(), writes: [], locals: new Map(), standIns: NONE, within: undefined, outer: undefined, room: MOST_OPERATIONS };
  const at = { start: 0, end: 0 };
  const whats: readonly OfSteps[] = ["count", "takes", "waits"];
  const outputs = whats.map((what) => {
    const place = placeOf(places, stepsName(what));
    const all = steps.map(({ when, block }) => {
      const applies = read(maker, when);
      if (what === "count") return applies;
      const time = block?.[what] ?? -1;
      // A step that does not apply takes no time, whether its time is known or not.
      const own = time < 0 ? constant(maker, 0) : read(maker, time);
      const d = places.next++;
      push(maker, { k: K.select, d, a: applies, b: own, c: constant(maker, 0), x: undefined, at });
      return d;
    });
    push(maker, { k: K.copy, d: place, a: all.length === 0 ? constant(maker, 0) : all.reduce((a, b) => emit(maker, K.add, a, b, at)), b: -1, c: -1, x: undefined, at });
    return place;
  });
  return blockOf(maker, apartFrom("steps"), key, { outputs });
}

// ───────────── operations ─────────────

function push(maker: Maker, op: Op): void {
  if (--maker.room < 0) throw new Full();
  maker.ops.push(op);
  maker.writes.push(op.d);
}

type Plain = "add" | "sub" | "mul" | "div" | "pow" | "lt" | "le" | "eq" | "ne" | "and" | "or" | "max" | "min" | "neg" | "not" | "known" | "copy";

function emit(maker: Maker, k: (typeof K)[Plain], a: number, b: number, at: Span): number {
  const d = maker.places.next++;
  push(maker, { k, d, a, b, c: -1, x: undefined, at } as Op);
  return d;
}

function constant(maker: Maker, value: number): number {
  const known = maker.constants.get(value);
  if (known !== undefined) return known;
  const place = maker.places.next++;
  maker.constants.set(value, place);
  return place;
}

function read(maker: Maker, place: number): number {
  maker.inputs.add(place);
  return place;
}

/** Lays a rule's operations and gives the place of its value. */
function lay(maker: Maker, rule: Rule): number {
  const at = maker.within ?? rule.at;
  switch (rule.does) {
    case "constant": return constant(maker, rule.value);
    case "none": {
      const place = maker.places.next++;
      maker.nothing.push({ place, reason: rule.reason });
      return place;
    }
    case "text": {
      maker.places.templates.push(template(maker, rule.text));
      return constant(maker, maker.places.templates.length - 1);
    }
    case "value": return (rule.column === undefined ? maker.standIns.get(rule.name) : undefined) ?? read(maker, placeOf(maker.places, rule.column === undefined ? rule.name : columnName(rule.name, rule.column)));
    case "local": return maker.locals.get(rule.name) ?? constant(maker, Number.NaN);
    case "arithmetic": return emit(maker, ARITHMETIC[rule.op], lay(maker, rule.left), lay(maker, rule.right), at);
    case "negate": return emit(maker, K.neg, lay(maker, rule.of), -1, at);
    case "function": {
      const a = lay(maker, rule.of);
      const d = maker.places.next++;
      push(maker, { k: K.fn, d, a, b: -1, c: -1, x: rule.name, at });
      return d;
    }
    case "most": return rule.of.map((one) => lay(maker, one)).reduce((a, b) => emit(maker, rule.pick === "largest" ? K.max : K.min, a, b, at));
    case "round": {
      const a = lay(maker, rule.of);
      const b = lay(maker, rule.step);
      const d = maker.places.next++;
      push(maker, { k: K.round, d, a, b, c: -1, x: { way: rule.way, base: rule.base }, at });
      return d;
    }
    case "compare": return emit(maker, COMPARE[rule.op], lay(maker, rule.left), lay(maker, rule.right), at);
    case "and": case "or": return emit(maker, rule.does === "and" ? K.and : K.or, lay(maker, rule.left), lay(maker, rule.right), at);
    case "not": return emit(maker, K.not, lay(maker, rule.of), -1, at);
    case "band": {
      const a = lay(maker, rule.of);
      const b = rule.low ? lay(maker, rule.low) : -1;
      const c = rule.high ? lay(maker, rule.high) : -1;
      const d = maker.places.next++;
      push(maker, { k: K.band, d, a, b, c, x: { lowIn: rule.lowIn, highIn: rule.highIn }, at });
      return d;
    }
    case "words": {
      const a = lay(maker, rule.of);
      const d = maker.places.next++;
      const count = rule.of.type.is === "kind" ? rule.of.type.words.length : 2;
      const words = new Uint8Array(count);
      for (const word of rule.words) words[word] = 1;
      push(maker, { k: K.words, d, a, b: -1, c: -1, x: { words }, at });
      return d;
    }
    case "known": return emit(maker, K.known, lay(maker, rule.of), -1, at);
    case "choose": {
      let otherwise = lay(maker, rule.otherwise);
      const cases = rule.cases.map(({ value, when }) => ({ when: lay(maker, when), value: lay(maker, value), at: maker.within ?? value.at }));
      for (const one of cases.reverse()) {
        const d = maker.places.next++;
        push(maker, { k: K.select, d, a: one.when, b: one.value, c: otherwise, x: undefined, at: one.at });
        otherwise = d;
      }
      return otherwise;
    }
    case "gather": {
      const d = maker.places.next++;
      maker.inputs.add(placeOf(maker.places, `${rule.list}!`));
      push(maker, { k: K.gather, d, a: slotOf(maker.places, rule.list), b: placeOf(maker.places, `${rule.list}!`), c: -1, x: { what: rule.what, column: rule.column }, at });
      return d;
    }
    case "left-count": case "left-first": {
      const d = maker.places.next++;
      const kept = read(maker, placeOf(maker.places, rule.chart));
      push(maker, { k: rule.does === "left-count" ? K.leftCount : K.leftFirst, d, a: slotOf(maker.places, rule.chart), b: kept, c: -1, x: undefined, at });
      return d;
    }
    case "left-among": {
      const of = lay(maker, rule.of);
      const d = maker.places.next++;
      const kept = read(maker, placeOf(maker.places, rule.chart));
      push(maker, { k: K.leftAmong, d, a: slotOf(maker.places, rule.chart), b: kept, c: of, x: undefined, at });
      return d;
    }
    case "call": {
      const args = rule.args.map((arg) => lay(maker, arg));
      return inside(maker, at, new Map(rule.parameters.map((name, i) => [name, args[i]!])), NONE, () => lay(maker, rule.body));
    }
    case "read-chart": {
      const { table } = rule;
      const args = rule.args.map((arg) => lay(maker, arg));
      const given = new Map(table.conditions.map((condition, i) => [condition.name, args[i]!]));
      const place = maker.places.next++;
      return inside(maker, at, given, given, () => {
        layRows(maker, rule.chart, table, args, [{ column: rule.column, place }], at);
        return place;
      });
    }
    case "stopped": return read(maker, placeOf(maker.places, STOPPED_NAME));
    case "of-steps": return read(maker, placeOf(maker.places, stepsName(rule.what)));
  }
}

/** Lays what another statement says, under the names that it knows. */
function inside(maker: Maker, at: Span, locals: Map<string, number>, standIns: ReadonlyMap<string, number>, laying: () => number): number {
  const saved = { locals: maker.locals, standIns: maker.standIns, within: maker.within };
  Object.assign(maker, { locals, standIns, within: maker.within ?? at });
  const place = laying();
  Object.assign(maker, saved);
  return place;
}

const ARITHMETIC = { "+": K.add, "-": K.sub, "*": K.mul, "/": K.div, "^": K.pow } as const;
const COMPARE = { "<": K.lt, "<=": K.le, is: K.eq, "is not": K.ne } as const;

function template(maker: Maker, text: TextRule): Template {
  return {
    pieces: text.pieces.map((piece) => {
      if (typeof piece === "string") return piece;
      if (piece.rule.type.is === "list" || piece.rule.type.is === "kept" || piece.rule.type.is === "row") return "…";
      return { place: lay(maker, piece.rule), type: piece.rule.type, unit: piece.unit ?? piece.rule.unit, ...(piece.name ? { name: piece.name } : {}) };
    }),
  };
}

// ───────────── lists and charts ─────────────

function layList(maker: Maker, list: NonNullable<Entry["checked"]["list"]>, name: string, slot: number, at: Span): void {
  const a = lay(maker, list.from);
  const b = lay(maker, list.to);
  const counter = maker.places.next++;
  maker.locals.set(list.counter, counter);
  const above = new Map(list.above.map((column) => [column, maker.places.next++]));
  const first = above.size === 0 ? -1 : maker.places.next++;
  for (const [column, place] of above) maker.locals.set(beforeName(column), place);
  const before = maker.ops;
  maker.ops = [];
  const columns = list.columns.map((column) => {
    let place = lay(maker, column.rule);
    // A column that is nothing but another one in the row above has a place of its own, or the next row would find it changed.
    if ([...above.values()].includes(place)) place = emit(maker, K.copy, place, -1, column.rule.at);
    maker.locals.set(column.name, place);
    return place;
  });
  const body = maker.ops;
  maker.ops = before;
  maker.locals.clear();
  // What a row reads from another list is the same for every row: it is worked once, before the list.
  const still = new Set([counter, ...above.values()]);
  const inner: Op[] = [];
  for (const op of body) {
    const moves = [op.a, op.b, op.c].some((place) => still.has(place)) && op.k !== K.gather;
    const reads = extraReads(op).some((place) => still.has(place));
    if (moves || reads) { inner.push(op); still.add(op.d); } else maker.ops.push(op);
  }
  const written = new Set(inner.map((op) => op.d));
  const reads = Int32Array.from(new Set(above.size === 0 ? [] : inner.flatMap((op) => [op.a, op.b, op.c, ...extraReads(op)]).filter((place) => place >= 0 && !written.has(place) && !still.has(place))));
  const rowsAbove = [...above].map(([column, place]): Op => ({ k: K.before, d: place, a: columns[list.columns.findIndex((one) => one.name === column)]!, b: first, c: -1, x: { list: name, reads }, at }));
  push(maker, { k: K.list, d: placeOf(maker.places, `${name}!`), a, b, c: -1, x: { name, counter, first, ops: [...rowsAbove, ...inner], columns: Int32Array.from(columns), slot }, at });
}

/** Places that an operation reads through its table. */
export function extraReads(op: Op): readonly number[] {
  switch (op.k) {
    case K.pick: return [...op.x.conditions];
    case K.rowValue: return [...op.x.values];
    case K.between: return [...op.x.axes, ...op.x.groups.flatMap((group) => [...group.values])];
    case K.keep: return [...op.x.pick.conditions, ...op.x.values];
    case K.list: return [...op.x.columns];
    case K.add: case K.sub: case K.mul: case K.div: case K.pow: case K.neg: case K.fn: case K.round: case K.lt: case K.le: case K.eq: case K.ne: case K.and:
    case K.or: case K.not: case K.max: case K.min: case K.select: case K.known: case K.band: case K.words: case K.leftCount: case K.leftFirst: case K.leftAmong: case K.gather: case K.copy: case K.before:
      return [];
  }
}

function chartInto(maker: Maker, entry: Entry, mine: (column?: number) => number, looped: boolean, first: boolean): Parts {
  const { chart, signature } = entry.checked;
  const name = entry.statement.name!.text;
  const single = signature?.type.is !== "row";
  const columns = signature?.type.is === "row" ? signature.type.columns : undefined;
  const outputs = single ? [mine()] : (columns ?? []).map((_, column) => mine(column));
  const values: Value[] = outputs.map((place, i) => ({ place, type: columns?.[i]?.type ?? signature?.type ?? { is: "anything" }, unit: columns?.[i]?.unit ?? signature?.unit }));
  // A chart that has a value only where it is called is laid in there.
  if (signature?.calledOnly === true) return {};
  if (chart === undefined || chart.rows.length === 0 || looped) {
    for (const place of outputs) maker.nothing.push({ place, reason: looped ? "it is part of a loop" : "its chart has a finding" });
    return { outputs, values };
  }
  const at = entry.statement.name!.at;
  const conditions = chart.conditions.map((condition) => lay(maker, condition.rule));
  if (chart.mode === "keep-every-row") {
    const cells = Int32Array.from(chart.rows.map((row) => lay(maker, row.values[0]!)));
    const slot = slotOf(maker.places, first ? name : entry.id);
    push(maker, { k: K.keep, d: outputs[0]!, a: -1, b: -1, c: -1, x: { pick: pickTable(name, chart, conditions, chart.conditions.map((_, i) => i), chart.rows.map((row) => row.sides), chart.rows.map((row) => row.index)), values: cells, slot }, at });
    return { outputs, values, slot };
  }
  layRows(maker, name, chart, conditions, outputs.map((place, column) => ({ column, place })), at);
  return { outputs, values };
}

/** A value of a chart, and where it goes. */
interface Wanted {
  readonly column: number;
  readonly place: number;
}

/** The rows of a chart that has one row at a time, read by the values at `conditions`. */
function layRows(maker: Maker, name: string, chart: CheckedChart, conditions: readonly number[], wanted: readonly Wanted[], at: Span): void {
  const isBetween = chart.mode === "straight" || chart.mode === "curve";
  if (chart.rows.length === 0 || (isBetween && (chart.between.length === 0 || chart.between.length > 2))) {
    for (const { place } of wanted) maker.nothing.push({ place, reason: "its chart has a finding" });
    return;
  }
  if (isBetween) {
    layBetween(maker, name, chart, conditions, wanted, at);
    return;
  }
  const picked = maker.places.next++;
  push(maker, { k: K.pick, d: picked, a: -1, b: -1, c: -1, x: pickTable(name, chart, conditions, chart.conditions.map((_, i) => i), chart.rows.map((row) => row.sides), chart.rows.map((row) => row.index)), at });
  for (const { column, place } of wanted) {
    const cells = Int32Array.from(chart.rows.map((row) => lay(maker, row.values[column]!)));
    push(maker, { k: K.rowValue, d: place, a: picked, b: -1, c: -1, x: { values: cells }, at });
  }
}

function layBetween(maker: Maker, name: string, chart: CheckedChart, conditions: readonly number[], wanted: readonly Wanted[], at: Span): void {
  const others = chart.conditions.flatMap((_, i) => (chart.between.includes(i) ? [] : [i]));
  const byKey = new Map<string, CheckedChart["rows"][number][]>();
  for (const row of chart.rows) {
    const key = JSON.stringify(others.map((i) => { const one = row.sides[i]!; return one === "any" ? one : one.is === "words" ? [...one.words].sort() : one.stretches.map((s) => [s.from, s.to]); }));
    const group = byKey.get(key);
    if (group === undefined) byKey.set(key, [row]);
    else group.push(row);
  }
  const grouped = [...byKey.values()];
  let picked = -1;
  if (others.length > 0) {
    picked = maker.places.next++;
    push(maker, { k: K.pick, d: picked, a: -1, b: -1, c: -1, x: pickTable(name, chart, others.map((i) => conditions[i]!), others, grouped.map((rows) => others.map((i) => rows[0]!.sides[i]!)), grouped.map((rows) => rows[0]!.index)), at });
  }
  const axes = Int32Array.from(chart.between.map((i) => conditions[i]!));
  wanted.forEach(({ place, column: out }) => {
    const groups = grouped.map((rows): BetweenGroup => {
      const axis = (of: number) => [...new Set(rows.map((row) => row.points[of]!))].sort((a, b) => a - b);
      const xs = axis(chart.between[0]!);
      const ys = chart.between[1] === undefined ? [0] : axis(chart.between[1]);
      const none = () => { const hole = maker.places.next++; maker.nothing.push({ place: hole, reason: "the chart's grid has no such point" }); return hole; };
      const cells: number[] = [];
      const written: number[] = [];
      const pointOf = (x: number, y: number) => `${x} ${y}`;
      // Of two rows on one point, which have their finding, the first counts.
      const byPoint = new Map(rows.map((one) => [pointOf(one.points[chart.between[0]!]!, chart.between[1] === undefined ? 0 : one.points[chart.between[1]]!), one] as const).reverse());
      for (const x of xs) for (const y of ys) {
        const row = byPoint.get(pointOf(x, y));
        cells.push(row === undefined ? none() : lay(maker, row.values[out]!));
        written.push(row?.index ?? -1);
      }
      return { xs: Float64Array.from(xs), ys: Float64Array.from(ys), values: Int32Array.from(cells), written: Int32Array.from(written) };
    });
    push(maker, { k: K.between, d: place, a: picked, b: -1, c: -1, x: { name, curve: chart.mode === "curve", hold: chart.outside === "hold-ends", axes, groups }, at });
  });
}

function pickTable(name: string, chart: CheckedChart, conditions: readonly number[], which: readonly number[], rows: readonly (readonly Side[])[], written: readonly number[]): PickTable {
  const width = conditions.length;
  const lows = new Float64Array(rows.length * width).fill(-Infinity);
  const highs = new Float64Array(rows.length * width).fill(Infinity);
  const odd: (Side | undefined)[] = new Array(rows.length * width).fill(undefined);
  let hasOdd = false;
  rows.forEach((sides, r) => sides.forEach((side, c) => {
    const at = r * width + c;
    if (side === "any") return;
    if (side.is === "line" && side.stretches.length === 1) {
      lows[at] = side.stretches[0]!.from;
      highs[at] = side.stretches[0]!.to;
    } else if (side.is === "words" && side.words.size === 1) {
      lows[at] = highs[at] = [...side.words][0]!;
    } else {
      odd[at] = side;
      hasOdd = true;
    }
  }));
  return { name, conditions: Int32Array.from(conditions), domains: which.map((i) => chart.conditions[i]!.domain), rows, lows, highs, odd, hasOdd, firstWins: chart.mode === "first-row-wins", written: Int32Array.from(written) };
}
