// `instead`: a statement that replaces one of the base. Where it counts only under a condition, or names what
// it replaces, that is kept underneath it.
import { isLine } from "../syntax/statement-words.ts";
import { type Item, keyFor, keyOf, meant, plain, ruleOf } from "./item.ts";
import {
  type LayerState,
  alsoUnderneath,
  faulted,
  leftOut,
  placeFor,
  topOf,
  weakened,
} from "./layer-state.ts";
import { appliesAs, conditionOf, lineUnder, withCondition } from "./lines.ts";
import { namesBefore, renamed, replacing } from "./rewrite.ts";

/** What is left to be put elsewhere: the statement itself where there is nothing to replace. */
export function replace(state: LayerState, item: Item): Item | undefined {
  const { statement } = item;
  const name = statement.name?.text;
  const word = meant(statement);
  if (!state.isLayer)
    return faulted(replacedAlone(item), "layer/none", statement.instead!, { verb: "instead" });
  if (!state.hasBase) return replacedAlone(item);
  const place = placeFor(state, statement);
  if (place === undefined || name === undefined)
    return faulted(replacedAlone(item), "layer/nothing", statement.name?.at ?? statement.instead!, {
      verb: "instead",
      word,
      name,
      ...leftOut(state, name === undefined ? undefined : keyFor(word, name)),
    });
  const under = topOf(state.places[place]!);
  // A second one of the same text and name: the checker says that the name is set twice.
  if (under.from.own) return item;
  const own = compared(item, under, name);
  const when = word === "figure" || word === "formula" || isLine(word) ? statement.clauses.when : undefined;
  const was: Was = {
    layer: under.from.layer,
    rule: ruleOf(under.statement),
    ...(when === undefined ? {} : { when: plain(statement.text.slice(when.at.start, when.at.end)) }),
  };
  const top: Item = { ...own, from: { ...own.from, was } };
  state.places[place] = isLine(word)
    ? overLine(state.places[place]!, under, top)
    : overValue(state.places[place]!, under, top);
  return undefined;
}

type Was = NonNullable<Item["from"]["was"]>;

/** The statement with what is to be said of it beside the one that it replaces. */
function compared(item: Item, under: Item, name: string): Item {
  const { statement } = item;
  const word = meant(statement);
  const at = statement.name!.at;
  let own = item;
  if (statement.instead === undefined)
    own = faulted(own, "layer/instead", at, {
      name,
      word,
      ...alsoUnderneath(under),
      mends: [{ says: "Write instead", edits: [{ at: { start: 0, end: 0 }, text: "instead " }] }],
    });
  else if (meant(under.statement) !== word)
    own = faulted(own, "layer/sort", at, {
      name,
      word,
      was: meant(under.statement),
      ...alsoUnderneath(under),
    });
  const keeps = namesBefore(statement) || statement.clauses.when !== undefined;
  if (under.from.was !== undefined && !keeps)
    own = faulted(own, "layer/again", at, {
      name,
      word,
      below: under.from.was.layer,
      ...alsoUnderneath(under, `${under.from.layer} replaces it here`),
    });
  if ((word === "stop" || word === "caution") && statement.body.keyword !== "unreadable")
    own = weakened(own, under, "replaces", name);
  return own;
}

/**
 * Without anything underneath the statement counts alone; a condition that would leave the rule underneath in
 * force has none to leave.
 */
const replacedAlone = (item: Item): Item =>
  item.statement.body.keyword === "figure" || item.statement.body.keyword === "formula"
    ? { ...item, statement: replacing(item.statement, item.statement, undefined) }
    : item;

/** `top` in place of the value `under`, which is kept by another name where it is needed. */
function overValue(place: readonly Item[], under: Item, top: Item): Item[] {
  const { statement } = top;
  const { keyword } = statement.body;
  if (keyword === "unreadable" || keyword === "kind" || keyword === "worked") return [top];
  // A question underneath would be a second question: it is never kept.
  const keeps =
    keyword === "dial" ||
    (keyword !== "ask" && (namesBefore(statement) || statement.clauses.when !== undefined));
  if (!keeps || under.statement.name === undefined)
    return [{ ...top, statement: replacing(statement, under.statement, undefined) }];
  const kept = place.filter((one) => one !== under);
  const name = under.statement.name.text;
  const below = freeName(`${name}@${under.from.layer}`, kept);
  return [
    ...kept,
    { ...under, statement: renamed(under.statement, below), from: { ...under.from, hidden: name } },
    { ...top, statement: replacing(statement, under.statement, below) },
  ];
}

/** `top` in place of the line `under`, which stays in force where `top` does not apply. */
function overLine(place: readonly Item[], under: Item, top: Item): Item[] {
  const { statement } = top;
  if (statement.body.keyword === "unreadable" || under.statement.body.keyword === "unreadable") return [top];
  if (statement.clauses.when === undefined)
    return statement.clauses.withSteps === undefined ? overWords(place, under, top) : [top];
  const below = freeName(`${under.statement.name!.text}@${under.from.layer}`, place);
  const lines = linesBeneath(place, under, below);
  if (!namesBefore(statement)) return [...place.filter(isHidden), ...lines, top];
  const word = meant(under.statement);
  const conditions = lines.map((one): Item => {
    const { beneath, ...from } = one.from;
    return {
      piece: one.piece,
      faults: [],
      statement: conditionOf(one.line!.raw, `${word}:${one.statement.name!.text}`),
      from: { ...from, hidden: beneath! },
    };
  });
  const names = conditions.map((one) => one.statement.name!.text);
  return [
    ...place.filter((one) => isHidden(one) && !names.includes(one.statement.name!.text)),
    ...conditions,
    ...lines,
    { ...top, statement: withCondition(statement, names) },
  ];
}

const isHidden = (one: Item): boolean => one.from.hidden !== undefined;

/** The lines underneath: each gives way to each one above it. */
function linesBeneath(place: readonly Item[], under: Item, below: string): readonly Item[] {
  const key = keyOf(under.statement)!;
  const lower = place
    .filter((one) => one.from.beneath !== undefined)
    .map((one): Item => {
      const { raw, over } = one.line!;
      const above = [...over.filter((other) => other !== key), `${meant(under.statement)} ${below}`, key];
      return {
        ...one,
        line: { raw, over: above },
        statement: lineUnder(
          raw,
          one.statement === under.statement ? below : one.statement.name!.text,
          above,
        ),
      };
    });
  const line = { raw: under.statement, over: [key] };
  return [
    ...lower,
    {
      ...under,
      from: { ...under.from, beneath: under.statement.name!.text },
      line,
      statement: lineUnder(line.raw, below, line.over),
    },
  ];
}

/** A line that does not say when it applies does so when what it replaces does. */
function overWords(place: readonly Item[], under: Item, top: Item): Item[] {
  const word = meant(under.statement);
  const lines = place.filter((one) => one === under || one.from.beneath !== undefined);
  if (
    lines.length === 1 &&
    under.statement.clauses.when === undefined &&
    under.statement.clauses.withSteps === undefined
  )
    return [top];
  const kept = place.filter((one) => one.from.hidden !== undefined);
  const conditions = lines.map((one): Item => {
    const { beneath: _, ...from } = one.from;
    const name = freeName(`${word}:${one.statement.name!.text.replace(/@.*$/, "")}@${one.from.layer}`, kept);
    return {
      piece: one.piece,
      faults: [],
      statement: conditionOf(one.line?.raw ?? one.statement, name),
      from: { ...from, hidden: under.statement.name!.text },
    };
  });
  return [
    ...kept,
    ...conditions,
    {
      ...top,
      statement: appliesAs(
        top.statement,
        conditions.map((one) => one.statement.name!.text),
      ),
    },
  ];
}

function freeName(wanted: string, taken: readonly Item[]): string {
  let name = wanted;
  for (let i = 2; taken.some((one) => one.statement.name?.text === name); i++) name = `${wanted}@${i}`;
  return name;
}
