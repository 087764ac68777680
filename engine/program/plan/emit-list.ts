// A list as one operation that holds the operations of its rows.
import type { Span } from "../../../core/span.ts";
import { beforeName } from "../../language/check/before.ts";
import type { Entry } from "../../language/check/book.ts";
import { lay } from "./emit-expression.ts";
import { type Maker, emit, push } from "./emitter.ts";
import { K, type Op, extraReads } from "./op.ts";
import { listName, placeOf } from "./registers.ts";

/** `at` is where a reading points for the list as a whole. */
export function layList(maker: Maker, list: NonNullable<Entry["checked"]["list"]>, name: string, slot: number, at: Span): void {
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
  push(maker, { k: K.list, d: placeOf(maker.places, listName(name)), a, b, c: -1, x: { name, counter, first, ops: [...rowsAbove, ...inner], columns: Int32Array.from(columns), slot }, at });
}
