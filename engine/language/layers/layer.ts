// Applies a book's own statements to those of the book that it amends: what is replaced, dropped, added to
// and placed, and what cannot be. Without a book underneath only what is used is brought in.
import { add } from "./add.ts";
import { bringIn } from "./used-books.ts";
import { drop } from "./drop.ts";
import { type Item, isValue, keyOf, meant } from "./item.ts";
import {
  type Dropped,
  type LayerState,
  behind,
  faulted,
  layerState,
  placeFor,
  placeWith,
  titleOf,
} from "./layer-state.ts";
import { alsoUnder, withSteps } from "./lines.ts";
import { replace } from "./replace.ts";

interface Layered {
  readonly items: readonly Item[];
  readonly dropped: Dropped;
}

/** A book's own statements, and what they are applied to. */
interface Layer {
  readonly own: readonly Item[];
  /** The statements of the book underneath; undefined where there is none or it is not at hand. */
  readonly base: readonly Item[] | undefined;
  /** What a `use` brings, by the index of its line in `own`. */
  readonly brought: ReadonlyMap<number, readonly Item[]>;
  /** Whether the text says that it amends a book. */
  readonly isLayer: boolean;
  /** What layers underneath have left out. */
  readonly dropped: Dropped;
}

export function applyLayer({ own, base, brought, isLayer, dropped }: Layer): Layered {
  const state = layerState(base, isLayer, dropped);
  const placing: Placing = { front: [], end: [], tail: "values first" };
  const parts = partsOf(state.places);
  own.forEach((item, i) => {
    const { body } = item.statement;
    if (body.keyword === "part" && state.hasBase) {
      const known = parts.get(titleOf(item.statement));
      placing.tail = known ?? "end";
      (known === undefined ? placing.end : behind(state, known)).push(item);
      return;
    }
    const rest = applyStatement(state, item);
    if (rest !== undefined) put(state, placing, rest);
    for (const one of brought.get(i) ?? []) put(state, placing, one);
  });
  const whole = [
    ...placing.front,
    ...state.places.flatMap((place, i) => [...place, ...(state.behind.get(i) ?? [])]),
    ...placing.end,
  ];
  return { items: spread(bringIn(whole)), dropped: state.dropped };
}

/** What is left to be put somewhere. */
function applyStatement(state: LayerState, item: Item): Item | undefined {
  const { statement } = item;
  const { body, instead } = statement;
  if (body.keyword === "drop") return drop(state, item, body);
  if (body.keyword === "add") return add(state, item);
  const replaces = instead !== undefined || placeFor(state, statement) !== undefined;
  return replaces ? replace(state, item) : item;
}

// ───────────── where new statements go ─────────────

interface Placing {
  readonly front: Item[];
  readonly end: Item[];
  /**
   * Behind the last statement of a part underneath, or at the end; before any heading values go to the front
   * and the rest to the end.
   */
  tail: number | "end" | "values first";
}

const FRONT: ReadonlySet<string> = new Set(["book", "kind", "use", "drop"]);

function put(state: LayerState, placing: Placing, item: Item): void {
  const { clauses, body } = item.statement;
  let placed = item;
  if (clauses.after !== undefined && body.keyword === "step") {
    if (putAfter(state, placing, item, clauses.after.text)) return;
    placed = faulted(item, "layer/after", clauses.after.at, {
      name: clauses.after.text,
      isLayer: state.isLayer,
    });
  }
  const { tail, front, end } = placing;
  if (!state.hasBase) front.push(placed);
  else if (typeof tail === "number") behind(state, tail).push(placed);
  else if (tail === "values first" && (isValue(item.statement) || FRONT.has(body.keyword)))
    front.push(placed);
  else end.push(placed);
}

/** Puts a step behind the step `name`; false where there is none. */
function putAfter(state: LayerState, { front, end }: Placing, item: Item, name: string): boolean {
  const key = `step ${name}`;
  const place = placeWith(state, key);
  if (place !== undefined) {
    behind(state, place).push(item);
    return true;
  }
  if (state.placeOfKey.has(key)) return false;
  for (const list of [front, end, ...state.behind.values()]) {
    const at = list.findLastIndex((one) => keyOf(one.statement) === key);
    if (at < 0) continue;
    list.splice(at + 1, 0, item);
    return true;
  }
  return false;
}

/** The last statement under each heading, by the heading's title. */
function partsOf(places: readonly (readonly Item[])[]): ReadonlyMap<string, number> {
  const parts = new Map<string, number>();
  let title: string | undefined;
  places.forEach((place, i) => {
    const { statement } = place.at(-1)!;
    if (statement.body.keyword === "part") title = titleOf(statement);
    if (title !== undefined) parts.set(title, i);
  });
  return parts;
}

// ───────────── lines that go with steps ─────────────

/** A caution that goes with a step goes with it under each name that the step has now. */
function spread(items: readonly Item[]): readonly Item[] {
  const names = namesOfSteps(items);
  if (names.size === 0) return items;
  return items.map((item) => {
    const { statement } = item;
    if (
      item.from.hidden !== undefined &&
      [...names.keys()].some((name) => statement.uses.includes(`step ${name}`))
    )
      return { ...item, statement: alsoUnder(statement, names), unspread: statement };
    const steps = statement.clauses.withSteps;
    if (steps === undefined || !steps.some((step) => names.has(step.text))) return item;
    const all = steps.flatMap((step) => [
      step,
      ...(names.get(step.text) ?? []).map((text) => ({ at: step.at, text })),
    ]);
    return { ...item, statement: withSteps(statement, all), unspread: statement };
  });
}

/** The names that a replaced step has underneath, by its name. */
function namesOfSteps(items: readonly Item[]): ReadonlyMap<string, readonly string[]> {
  const names = new Map<string, string[]>();
  for (const { from, statement } of items) {
    if (from.beneath === undefined || from.hidden !== undefined || meant(statement) !== "step") continue;
    names.set(from.beneath, [...(names.get(from.beneath) ?? []), statement.name!.text]);
  }
  return names;
}
