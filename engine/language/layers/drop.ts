// `drop`: a statement of the base is left out.
import type { Span } from "../../../core/span.ts";
import type { Statement } from "../syntax/tree.ts";
import { type Item, isValue, keyFor, meant, ruleOf } from "./item.ts";
import {
  type LayerState,
  alsoUnderneath,
  faulted,
  keysOf,
  leftOut,
  placeWith,
  titleOf,
  topOf,
  weakened,
} from "./layer-state.ts";

const DROPPED: ReadonlySet<string> = new Set([
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "promise",
  "picture",
  "worked",
]);

type DropBody = Extract<Statement["body"], { keyword: "drop" }>;

/** The line itself, with what is wrong with it. */
export function drop(state: LayerState, item: Item, body: DropBody): Item {
  const { statement } = item;
  if (!state.isLayer) return faulted(item, "layer/none", { start: 0, end: 4 }, { verb: "drop" });
  if (!state.hasBase) return item;
  const at = statement.ruleAt ?? statement.clauses.title?.at ?? { start: 0, end: 4 };
  if (!DROPPED.has(body.what)) return faulted(item, "layer/what", at, { verb: "drop", words: [...DROPPED] });
  const key = keyOfDropped(statement, body);
  const place = placeWith(state, key);
  if (place === undefined)
    return faulted(item, "layer/nothing", at, {
      verb: "drop",
      word: body.what,
      name: calledIn(statement, body),
      ...leftOut(state, key),
    });
  const under = topOf(state.places[place]!);
  const was = { layer: under.from.layer, rule: ruleOf(under.statement) || titleOf(under.statement) };
  const own: Item = { ...item, from: { ...item.from, was } };
  const refused = refusal(own, under, body, at);
  if (refused !== undefined) return refused;
  leaveOut(state, place, body, key);
  const gone = { layer: item.from.layer, at: { start: item.piece.at.start, end: item.piece.at.end } };
  for (const other of keysOf(under)) state.dropped.set(other, gone);
  return warned(own, under, body, at);
}

function keyOfDropped(statement: Statement, { rule, target, what }: DropBody): string {
  if (rule !== undefined) return `promise ${ruleOf(statement)}`;
  if (target === undefined) return `${what} "${titleOf(statement)}"`;
  return what === "picture" ? `picture ${target.text}` : keyFor(what, target.text);
}

/** What the line calls the statement that it leaves out. */
const calledIn = (statement: Statement, { rule, target }: DropBody): string =>
  target?.text ?? (rule !== undefined ? ruleOf(statement) : titleOf(statement));

/** The line with its finding where the statement underneath stays. */
function refusal(own: Item, under: Item, body: DropBody, at: Span): Item | undefined {
  const name = calledIn(own.statement, body);
  const { layer, also } = alsoUnderneath(under);
  if (under.from.own) return faulted(own, "layer/drop-own", at, { word: body.what, name, also });
  if (!isValue(under.statement) || meant(under.statement) === body.what) return undefined;
  return faulted(own, "layer/sort", at, {
    name,
    word: body.what,
    was: meant(under.statement),
    layer,
    also,
  });
}

function warned(own: Item, under: Item, body: DropBody, at: Span): Item {
  const changed =
    under.from.was === undefined
      ? own
      : faulted(own, "layer/drop-changed", at, {
          name: calledIn(own.statement, body),
          word: body.what,
          below: under.from.was.layer,
          ...alsoUnderneath(under),
        });
  return body.what === "stop" || body.what === "caution"
    ? weakened(changed, under, "drops", body.target?.text)
    : changed;
}

/** Empties the place. Every drawing of a shape goes, and every promise of one rule. */
function leaveOut(state: LayerState, place: number, { what }: DropBody, key: string): void {
  const all = what === "picture" || what === "promise";
  for (const [i, items] of state.places.entries())
    if (i === place || (all && items.some((one) => keysOf(one).includes(key)))) state.places[i] = [];
}
