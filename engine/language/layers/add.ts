// `add`: rows of a layer go into a chart of the base.
import { parseStatement } from "../syntax/parse.ts";
import { placed } from "../syntax/split.ts";
import { type Item, meant } from "./item.ts";
import { type LayerState, alsoUnderneath, faulted, leftOut, placeWith, topOf } from "./layer-state.ts";
import { type Added, addRows } from "./rows.ts";

/** What is left to be put elsewhere: the statement itself where there is no chart to add to. */
export function add(state: LayerState, item: Item): Item | undefined {
  const name = item.statement.name!;
  if (!state.isLayer) return faulted(item, "layer/none", name.at, { verb: "add" });
  if (!state.hasBase) return item;
  const place = placeWith(state, name.text);
  if (place === undefined)
    return faulted(item, "layer/nothing", name.at, {
      verb: "add",
      word: "chart",
      name: name.text,
      ...leftOut(state, name.text),
    });
  const under = topOf(state.places[place]!);
  if (under.statement.body.keyword !== "chart")
    return faulted(item, "layer/sort", name.at, {
      name: name.text,
      word: "chart",
      was: meant(under.statement),
      ...alsoUnderneath(under),
    });
  const added = addRows(under, item);
  if (added === undefined) return item;
  const chart = merged(under, item, under.statement.body.rows.length, added);
  state.places[place] = state.places[place]!.map((one) =>
    one === under ? withRowsAgain(chart, under, item, added) : one,
  );
  return undefined;
}

/** The chart with the layer's rows in it. */
function merged(under: Item, item: Item, rows: number, added: Added): Item {
  const faults = [...item.statement.faults, ...item.faults].map((fault) => ({
    ...fault,
    facts: { ...fault.facts, here: placed(item.piece, fault.at) },
  }));
  return {
    piece: { ...item.piece, text: added.text, lines: added.lines },
    statement: parseStatement(added.text),
    from: {
      ...under.from,
      added: [...(under.from.added ?? []), reasonOf(item)],
      layer: item.from.layer,
      own: item.from.own,
      was: { layer: under.from.layer, rule: `${rows} rows` },
    },
    faults: [...under.faults, ...faults],
  };
}

/** A row of an earlier layer that gives way to one of this layer: the finding points to both. */
function withRowsAgain(chart: Item, under: Item, item: Item, added: Added): Item {
  if (under.from.was === undefined || under.from.own) return chart;
  const name = item.statement.name!;
  return added.replaced
    .filter((twin) => addedBy(under, twin.from))
    .reduce(
      (so, twin) =>
        faulted(so, "layer/row-again", name.at, {
          name: name.text,
          here: placed(item.piece, name.at),
          layer: under.from.layer,
          also: [
            { absolute: { start: twin.to, end: twin.to + 1 }, says: "the row here" },
            {
              absolute: { start: twin.from, end: twin.from + 1 },
              says: `the row in ${under.from.layer}`,
            },
          ],
        }),
      chart,
    );
}

function reasonOf({ statement: { clauses }, from }: Item): NonNullable<Item["from"]["added"]>[number] {
  const because = (clauses.because?.pieces ?? []).filter((piece) => typeof piece === "string").join("");
  const basis =
    clauses.from &&
    (clauses.from.detail === undefined ? clauses.from.kind : `${clauses.from.kind} "${clauses.from.detail}"`);
  return {
    layer: from.layer,
    ...(because === "" ? {} : { because }),
    ...(basis === undefined ? {} : { basis }),
  };
}

/** Whether the line at `at` is in the text of the layer that last added to the chart. */
const addedBy = ({ piece }: Item, at: number): boolean => at >= piece.at.start && at <= piece.at.end;
