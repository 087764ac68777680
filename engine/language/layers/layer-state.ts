// What a layer does its work on: each statement of the base with what has become of it, and by what it can be
// named.
import type { Span } from "../../../core/span.ts";
import { isLine } from "../syntax/statement-words.ts";
import type { Fault, Statement } from "../syntax/tree.ts";
import { type Item, keyOf, meant, placeOf, ruleOf } from "./item.ts";

/** Statements left out, by key, and where that is said. */
export type Dropped = ReadonlyMap<string, { readonly layer: string; readonly at: Span }>;

export interface LayerState {
  /** Whether the text says that it amends a book. */
  readonly isLayer: boolean;
  /** Whether that book is known. */
  readonly hasBase: boolean;
  /** For each statement of the base itself, what replaced it, or nothing. */
  readonly places: Item[][];
  /** What new statements follow each place. */
  readonly behind: Map<number, Item[]>;
  /** Index into `places` by key. */
  readonly placeOfKey: Map<string, number>;
  readonly dropped: Map<string, { readonly layer: string; readonly at: Span }>;
}

export function layerState(
  base: readonly Item[] | undefined,
  isLayer: boolean,
  dropped: Dropped,
): LayerState {
  const places = grouped(base ?? []);
  const placeOfKey = new Map<string, number>();
  places.forEach((place, i) => {
    for (const key of place.flatMap(keysOf)) if (!placeOfKey.has(key)) placeOfKey.set(key, i);
  });
  return {
    isLayer,
    hasBase: base !== undefined,
    places,
    behind: new Map(),
    placeOfKey,
    dropped: new Map(dropped),
  };
}

/** Each statement with the rules kept underneath it, which come right before it. */
function grouped(base: readonly Item[]): Item[][] {
  const places: Item[][] = [];
  let kept: Item[] = [];
  for (const item of base) {
    kept.push(item);
    if (item.from.hidden !== undefined || item.from.beneath !== undefined) continue;
    places.push(kept);
    kept = [];
  }
  return kept.length > 0 ? [...places, kept] : places;
}

/** What names a statement: its name, the text of a line, the rule of a promise, or the shape of a drawing. */
export function keysOf({ statement, from }: Item): readonly string[] {
  if (from.hidden !== undefined || from.beneath !== undefined) return [];
  const { body } = statement;
  const key = keyOf(statement);
  const word = meant(statement);
  const text =
    isLine(word) && statement.clauses.title !== undefined ? [`${word} "${titleOf(statement)}"`] : [];
  if (body.keyword === "promise") return [`promise ${ruleOf(statement)}`];
  if (body.keyword === "picture") return [`picture ${body.shape.text}`];
  return body.keyword === "book" || body.keyword === "use" || body.keyword === "drop" || key === undefined
    ? text
    : [key, ...text];
}

/** The place of what the statement replaces, if anything is left there. */
export function placeFor(state: LayerState, statement: Statement): number | undefined {
  const { keyword } = statement.body;
  const key = keyword === "book" || keyword === "use" ? undefined : keyOf(statement);
  return key === undefined ? undefined : placeWith(state, key);
}

/** The place of what has this key, if anything is left there. */
export function placeWith(state: LayerState, key: string): number | undefined {
  const place = state.placeOfKey.get(key);
  return place !== undefined && state.places[place]!.length > 0 ? place : undefined;
}

/** The statement in a place that counts, as against the rules kept underneath it. */
export const topOf = (place: readonly Item[]): Item =>
  place.find((one) => one.from.hidden === undefined && one.from.beneath === undefined) ?? place[0]!;

export function behind(state: LayerState, place: number): Item[] {
  const known = state.behind.get(place);
  if (known !== undefined) return known;
  const made: Item[] = [];
  state.behind.set(place, made);
  return made;
}

export const titleOf = ({ clauses }: Statement): string =>
  (clauses.title?.pieces ?? []).filter((piece) => typeof piece === "string").join("");

export const faulted = (item: Item, code: string, at: Span, facts: Record<string, unknown>): Item => ({
  ...item,
  faults: [...item.faults, { code, at, facts } satisfies Fault],
});

/** Facts of a finding that also points to the statement underneath. */
export const alsoUnderneath = (under: Item, says = `stands here in ${under.from.layer}`) => ({
  layer: under.from.layer,
  also: [{ absolute: placeOf(under), says }],
});

/** Facts about a statement that a layer between has left out. */
export const leftOut = (
  { dropped }: LayerState,
  key: string | undefined,
): { readonly layer?: string; readonly also?: readonly unknown[] } => {
  const gone = key === undefined ? undefined : dropped.get(key);
  return gone === undefined
    ? {}
    : { layer: gone.layer, also: [{ absolute: gone.at, says: `left out here in ${gone.layer}` }] };
};

/** Notes that a stop or a caution of the base no longer holds, and asks for a reason where there is none. */
export function weakened(own: Item, under: Item, verb: "replaces" | "drops", name: string | undefined): Item {
  const at = own.statement.name?.at ?? own.statement.ruleAt ?? { start: 0, end: 4 };
  const hasReason = own.statement.clauses.because !== undefined;
  return faulted(own, hasReason ? "layer/weaker" : "layer/because", at, {
    word: meant(under.statement),
    name: name ?? titleOf(under.statement),
    verb,
    text: titleOf(under.statement),
    ...alsoUnderneath(under),
  });
}
