// Lays a book's own statements over those of the book that it amends: what is replaced, dropped, added to and
// placed, and what cannot be. Without a book underneath only what is used is brought in.
import type { Span } from "../../../core/span.ts";
import { parseStatement } from "../syntax/parse.ts";
import { isLine } from "../syntax/statement-words.ts";
import { placed } from "../syntax/split.ts";
import type { Fault, Statement } from "../syntax/tree.ts";
import { type Item, isValue, keyFor, keyOf, meant, placeOf, plain, ruleOf } from "./item.ts";
import { bringIn } from "./bring.ts";
import { alsoUnder, appliesAs, conditionOf, lineUnder, withCondition, withSteps } from "./lines.ts";
import { namesBefore, renamed, replacing } from "./rewrite.ts";
import { addRows } from "./rows.ts";

type Dropped = ReadonlyMap<string, { readonly layer: string; readonly at: Span }>;

interface Laid {
  readonly items: readonly Item[];
  readonly dropped: Dropped;
}

interface Desk {
  /** What stands in the place of each statement underneath: itself, what replaced it, or nothing. */
  readonly slots: Item[][];
  /** Behind a slot: steps placed there, and what stands under a heading of the same title. */
  readonly behind: Map<number, Item[]>;
  readonly slotOf: Map<string, number>;
  readonly dropped: Map<string, { readonly layer: string; readonly at: Span }>;
}

export function applyLayer(
  own: readonly Item[],
  ground: readonly Item[] | undefined,
  brought: ReadonlyMap<number, readonly Item[]>,
  isLayer: boolean,
  droppedBefore: Dropped,
): Laid {
  const slots = grouped(ground ?? []);
  const state: Desk = { slots, behind: new Map(), slotOf: new Map(), dropped: new Map(droppedBefore) };
  slots.forEach((slot, i) => {
    for (const key of slot.flatMap(keysOf)) if (!state.slotOf.has(key)) state.slotOf.set(key, i);
  });
  const parts = partsOf(slots);
  const front: Item[] = [];
  const end: Item[] = [];
  // Where new statements go: behind the last statement of a part underneath, or at the end; before any
  // heading values go to the front.
  let tail: number | "end" | "loose" = "loose";
  const put = (item: Item) => {
    const { clauses, body } = item.statement;
    if (clauses.after !== undefined && body.keyword === "step") {
      const slot = state.slotOf.get(`step ${clauses.after.text}`);
      const ownStep =
        slot === undefined
          ? [front, end, ...state.behind.values()].find((list) =>
              list.some((one) => keyOf(one.statement) === `step ${clauses.after!.text}`),
            )
          : undefined;
      if (slot !== undefined && state.slots[slot]!.length > 0) {
        behind(state, slot).push(item);
        return;
      }
      if (ownStep !== undefined) {
        ownStep.splice(
          ownStep.findLastIndex((one) => keyOf(one.statement) === `step ${clauses.after!.text}`) + 1,
          0,
          item,
        );
        return;
      }
      item = faulted(item, "layer/after", clauses.after.at, { name: clauses.after.text, isLayer });
    }
    if (ground === undefined) front.push(item);
    else if (typeof tail === "number") behind(state, tail).push(item);
    else if (tail === "loose" && (isValue(item.statement) || FRONT.has(body.keyword))) front.push(item);
    else end.push(item);
  };
  own.forEach((item, i) => {
    const { statement } = item;
    const { body } = statement;
    if (body.keyword === "part" && ground !== undefined) {
      const known = parts.get(titleOf(statement));
      tail = known ?? "end";
      if (known === undefined) end.push(item);
      else behind(state, known).push(item);
      return;
    }
    if (body.keyword === "drop") put(drop(state, item, ground !== undefined, isLayer));
    else if (body.keyword === "add") {
      const rest = add(state, item, ground !== undefined, isLayer);
      if (rest !== undefined) put(rest);
    } else if (
      statement.instead !== undefined ||
      (ground !== undefined && slotFor(state, statement) !== undefined)
    ) {
      const rest = replace(state, item, ground !== undefined, isLayer);
      if (rest !== undefined) put(rest);
    } else put(item);
    for (const one of brought.get(i) ?? []) put(one);
  });
  const whole = [
    ...front,
    ...state.slots.flatMap((slot, i) => [...slot, ...(state.behind.get(i) ?? [])]),
    ...end,
  ];
  return { items: spread(bringIn(whole)), dropped: state.dropped };
}

const FRONT = new Set(["book", "kind", "use", "drop"]);

const titleOf = ({ clauses }: Statement): string =>
  (clauses.title?.pieces ?? []).filter((piece) => typeof piece === "string").join("");

/** Each statement with the rules kept underneath it, which stand right before it. */
function grouped(ground: readonly Item[]): Item[][] {
  const slots: Item[][] = [];
  let kept: Item[] = [];
  for (const item of ground) {
    kept.push(item);
    if (item.from.hidden !== undefined || item.from.beneath !== undefined) continue;
    slots.push(kept);
    kept = [];
  }
  return kept.length > 0 ? [...slots, kept] : slots;
}

/** The last statement under each heading, by the heading's title. */
function partsOf(ground: readonly (readonly Item[])[]): ReadonlyMap<string, number> {
  const parts = new Map<string, number>();
  let title: string | undefined;
  ground.forEach((slot, i) => {
    const { statement } = slot.at(-1)!;
    if (statement.body.keyword === "part") title = titleOf(statement);
    if (title !== undefined) parts.set(title, i);
  });
  return parts;
}

function behind(state: Desk, slot: number): Item[] {
  const known = state.behind.get(slot);
  if (known !== undefined) return known;
  const made: Item[] = [];
  state.behind.set(slot, made);
  return made;
}

const faulted = (item: Item, code: string, at: Span, facts: Record<string, unknown>): Item => ({
  ...item,
  faults: [...item.faults, { code, at, facts } satisfies Fault],
});

/**
 * By what a statement may be meant: its name; the text of a line; the rule of a promise; the shape of a
 * drawing.
 */
function keysOf({ statement, from }: Item): readonly string[] {
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

const slotFor = (state: Desk, statement: Statement): number | undefined => {
  const key = keyOf(statement);
  const slot =
    key === undefined || statement.body.keyword === "book" || statement.body.keyword === "use"
      ? undefined
      : state.slotOf.get(key);
  return slot !== undefined && state.slots[slot]!.length > 0 ? slot : undefined;
};

/** The statement in a slot that counts: not the rules kept underneath it. */
const topOf = (slot: readonly Item[]): Item =>
  slot.find((one) => one.from.hidden === undefined && one.from.beneath === undefined) ?? slot[0]!;

// ───────────── instead ─────────────

/** What is left to be put elsewhere: the statement itself where there is nothing to replace. */
function replace(state: Desk, item: Item, onGround: boolean, isLayer: boolean): Item | undefined {
  const { statement } = item;
  const name = statement.name?.text;
  const word = meant(statement);
  const slot = slotFor(state, statement);
  if (!isLayer) return faulted(replacedAlone(item), "layer/none", statement.instead!, { verb: "instead" });
  if (!onGround) return replacedAlone(item);
  if (slot === undefined || name === undefined) {
    const gone = name === undefined ? undefined : state.dropped.get(keyFor(word, name));
    return faulted(replacedAlone(item), "layer/nothing", statement.name?.at ?? statement.instead!, {
      verb: "instead",
      word,
      name,
      ...(gone
        ? { layer: gone.layer, also: [{ absolute: gone.at, says: `left out here in ${gone.layer}` }] }
        : {}),
    });
  }
  const under = topOf(state.slots[slot]!);
  // A second one of the same text and name: the checker says that the name is set twice.
  if (under.from.own) return item;
  let own = item;
  if (statement.instead === undefined)
    own = faulted(own, "layer/instead", statement.name!.at, {
      name,
      word,
      layer: under.from.layer,
      also: [{ absolute: placeOf(under), says: `stands here in ${under.from.layer}` }],
      mends: [{ says: "Write instead", edits: [{ at: { start: 0, end: 0 }, text: "instead " }] }],
    });
  else if (meant(under.statement) !== word)
    own = faulted(own, "layer/sort", statement.name!.at, {
      name,
      word,
      was: meant(under.statement),
      layer: under.from.layer,
      also: [{ absolute: placeOf(under), says: `stands here in ${under.from.layer}` }],
    });
  const keeps = namesBefore(statement) || statement.clauses.when !== undefined;
  if (under.from.was !== undefined && !keeps)
    own = faulted(own, "layer/again", statement.name!.at, {
      name,
      word,
      layer: under.from.layer,
      below: under.from.was.layer,
      also: [{ absolute: placeOf(under), says: `${under.from.layer} replaces it here` }],
    });
  if ((word === "stop" || word === "caution") && statement.body.keyword !== "unreadable")
    own = weakened(own, under, statement.clauses.because !== undefined, "replaces", name);
  const when = word === "figure" || word === "formula" || isLine(word) ? statement.clauses.when : undefined;
  const was = {
    layer: under.from.layer,
    rule: ruleOf(under.statement),
    ...(when === undefined ? {} : { when: plain(statement.text.slice(when.at.start, when.at.end)) }),
  };
  state.slots[slot] = isLine(word)
    ? overLine(state.slots[slot]!, under, own, was)
    : overValue(state.slots[slot]!, under, own, was);
  return undefined;
}

/**
 * Without anything underneath the statement stands alone; a condition that would leave the rule underneath in
 * force has none to leave.
 */
const replacedAlone = (item: Item): Item =>
  item.statement.body.keyword === "figure" || item.statement.body.keyword === "formula"
    ? { ...item, statement: replacing(item.statement, item.statement, undefined) }
    : item;

function weakened(
  own: Item,
  under: Item,
  hasReason: boolean,
  verb: "replaces" | "drops",
  name: string | undefined,
): Item {
  const word = meant(under.statement);
  const also = [{ absolute: placeOf(under), says: `stands here in ${under.from.layer}` }];
  const at = own.statement.name?.at ?? own.statement.ruleAt ?? { start: 0, end: 4 };
  const facts = {
    word,
    name: name ?? titleOf(under.statement),
    verb,
    layer: under.from.layer,
    text: titleOf(under.statement),
    also,
  };
  return faulted(own, hasReason ? "layer/weaker" : "layer/because", at, facts);
}

function overValue(
  slot: readonly Item[],
  under: Item,
  own: Item,
  was: NonNullable<Item["from"]["was"]>,
): Item[] {
  const { statement } = own;
  const { keyword } = statement.body;
  const hidden = slot.filter((one) => one !== under);
  if (keyword === "unreadable" || keyword === "kind" || keyword === "worked")
    return [{ ...own, from: { ...own.from, was } }];
  // A question underneath would be a second question: it is never kept.
  const keeps =
    keyword === "dial" ||
    (keyword !== "ask" && (namesBefore(statement) || statement.clauses.when !== undefined));
  if (!keeps || under.statement.name === undefined)
    return [
      { ...own, statement: replacing(statement, under.statement, undefined), from: { ...own.from, was } },
    ];
  const name = under.statement.name.text;
  const below = freeName(`${name}@${under.from.layer}`, hidden);
  const kept: Item = {
    ...under,
    statement: renamed(under.statement, below),
    from: { ...under.from, hidden: name },
  };
  return [
    ...hidden,
    kept,
    { ...own, statement: replacing(statement, under.statement, below), from: { ...own.from, was } },
  ];
}

function overLine(
  slot: readonly Item[],
  under: Item,
  own: Item,
  was: NonNullable<Item["from"]["was"]>,
): Item[] {
  const { statement } = own;
  const key = keyOf(under.statement)!;
  const top: Item = { ...own, from: { ...own.from, was } };
  if (statement.body.keyword === "unreadable" || under.statement.body.keyword === "unreadable") return [top];
  if (statement.clauses.when === undefined)
    return statement.clauses.withSteps === undefined ? overWords(slot, under, top) : [top];
  const below = freeName(`${under.statement.name!.text}@${under.from.layer}`, slot);
  const word = meant(under.statement);
  // Every line underneath gives way to each one above it.
  const beneath = slot
    .filter((one) => one.from.beneath !== undefined)
    .map((one) => ({
      ...one,
      line: {
        raw: one.line!.raw,
        over: [...one.line!.over.filter((other) => other !== key), `${word} ${below}`, key],
      },
    }));
  const raw = under.statement;
  const lines: Item[] = [
    ...beneath,
    { ...under, from: { ...under.from, beneath: under.statement.name!.text }, line: { raw, over: [key] } },
  ];
  const named = lines.map(
    (one): Item => ({
      ...one,
      statement: lineUnder(
        one.line!.raw,
        one.from.beneath === undefined || one.statement === raw ? below : one.statement.name!.text,
        one.line!.over,
      ),
    }),
  );
  if (!namesBefore(statement)) return [...slot.filter((one) => one.from.hidden !== undefined), ...named, top];
  const conditions = named.map((one): Item => {
    const { beneath, ...from } = one.from;
    return {
      piece: one.piece,
      faults: [],
      statement: conditionOf(one.line!.raw, `${word}:${one.statement.name!.text}`),
      from: { ...from, hidden: beneath! },
    };
  });
  return [
    ...slot.filter(
      (one) =>
        one.from.hidden !== undefined &&
        !conditions.some((other) => other.statement.name!.text === one.statement.name!.text),
    ),
    ...conditions,
    ...named,
    {
      ...top,
      statement: withCondition(
        statement,
        conditions.map((one) => one.statement.name!.text),
      ),
    },
  ];
}

/** A line that does not say when it applies does so when what it replaces does. */
function overWords(slot: readonly Item[], under: Item, top: Item): Item[] {
  const word = meant(under.statement);
  const lines = slot.filter((one) => one === under || one.from.beneath !== undefined);
  if (
    lines.length === 1 &&
    under.statement.clauses.when === undefined &&
    under.statement.clauses.withSteps === undefined
  )
    return [top];
  const kept = slot.filter((one) => one.from.hidden !== undefined);
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

// ───────────── drop ─────────────

const DROPPED = new Set([
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

function drop(state: Desk, item: Item, onGround: boolean, isLayer: boolean): Item {
  const { statement } = item;
  const { body, clauses } = statement;
  if (body.keyword !== "drop") return item;
  if (!isLayer) return faulted(item, "layer/none", { start: 0, end: 4 }, { verb: "drop" });
  if (!onGround) return item;
  const at = statement.ruleAt ?? clauses.title?.at ?? { start: 0, end: 4 };
  if (!DROPPED.has(body.what)) return faulted(item, "layer/what", at, { verb: "drop", words: [...DROPPED] });
  const name = body.target?.text;
  const key =
    body.rule !== undefined
      ? `promise ${ruleOf(statement)}`
      : name !== undefined
        ? body.what === "picture"
          ? `picture ${name}`
          : keyFor(body.what, name)
        : `${body.what} "${titleOf(statement)}"`;
  const slot = state.slotOf.get(key);
  const under =
    slot === undefined ? undefined : state.slots[slot]!.length > 0 ? topOf(state.slots[slot]!) : undefined;
  const said = name ?? (body.rule !== undefined ? ruleOf(statement) : titleOf(statement));
  if (slot === undefined || under === undefined) {
    const gone = state.dropped.get(key);
    return faulted(item, "layer/nothing", at, {
      verb: "drop",
      word: body.what,
      name: said,
      ...(gone
        ? { layer: gone.layer, also: [{ absolute: gone.at, says: `left out here in ${gone.layer}` }] }
        : {}),
    });
  }
  let own: Item = {
    ...item,
    from: {
      ...item.from,
      was: { layer: under.from.layer, rule: ruleOf(under.statement) || titleOf(under.statement) },
    },
  };
  const also = [{ absolute: placeOf(under), says: `stands here in ${under.from.layer}` }];
  if (under.from.own) return faulted(own, "layer/drop-own", at, { word: body.what, name: said, also });
  if (isValue(under.statement) && meant(under.statement) !== body.what)
    return faulted(own, "layer/sort", at, {
      name: said,
      word: body.what,
      was: meant(under.statement),
      layer: under.from.layer,
      also,
    });
  if (under.from.was !== undefined)
    own = faulted(own, "layer/drop-changed", at, {
      name: said,
      word: body.what,
      layer: under.from.layer,
      below: under.from.was.layer,
      also,
    });
  if (body.what === "stop" || body.what === "caution")
    own = weakened(own, under, clauses.because !== undefined, "drops", name);
  // Every drawing of a shape goes, and every promise of one rule.
  for (const [i, one] of state.slots.entries())
    if (
      i === slot ||
      ((body.what === "picture" || body.what === "promise") &&
        one.some((other) => keysOf(other).includes(key)))
    )
      state.slots[i] = [];
  const place = { start: item.piece.at.start, end: item.piece.at.end };
  for (const gone of keysOf(under)) state.dropped.set(gone, { layer: item.from.layer, at: place });
  return own;
}

// ───────────── rows added to a chart ─────────────

function add(state: Desk, item: Item, onGround: boolean, isLayer: boolean): Item | undefined {
  const { statement } = item;
  const name = statement.name!;
  if (!isLayer) return faulted(item, "layer/none", name.at, { verb: "add" });
  if (!onGround) return item;
  const slot = slotFor(state, { ...statement, body: { keyword: "unreadable", meant: "chart" } });
  const under = slot === undefined ? undefined : topOf(state.slots[slot]!);
  const gone = state.dropped.get(name.text);
  if (slot === undefined || under === undefined)
    return faulted(item, "layer/nothing", name.at, {
      verb: "add",
      word: "chart",
      name: name.text,
      ...(gone
        ? { layer: gone.layer, also: [{ absolute: gone.at, says: `left out here in ${gone.layer}` }] }
        : {}),
    });
  if (under.statement.body.keyword !== "chart")
    return faulted(item, "layer/sort", name.at, {
      name: name.text,
      word: "chart",
      was: meant(under.statement),
      layer: under.from.layer,
      also: [{ absolute: placeOf(under), says: `stands here in ${under.from.layer}` }],
    });
  const added = addRows(under, item);
  if (added === undefined) return item;
  const made = parseStatement(added.text);
  const merged: Item = {
    piece: { ...item.piece, text: added.text, lines: added.lines },
    statement: made,
    from: {
      ...under.from,
      added: [...(under.from.added ?? []), reasonOf(item)],
      layer: item.from.layer,
      own: item.from.own,
      was: { layer: under.from.layer, rule: `${under.statement.body.rows.length} rows` },
    },
    faults: [
      ...under.faults,
      ...[...statement.faults, ...item.faults].map((fault) => ({
        ...fault,
        facts: { ...fault.facts, here: placed(item.piece, fault.at) },
      })),
    ],
  };
  const inBase = state.slots[slot]!.map((one) => (one === under ? merged : one));
  state.slots[slot] = inBase;
  // A row that an earlier layer put there gives way without a word of the one underneath: both are told.
  const again = added.replaced.filter(
    (one) => under.from.was !== undefined && !under.from.own && addedBy(under, one.from),
  );
  if (again.length > 0)
    state.slots[slot] = inBase.map((one) =>
      one === merged
        ? again.reduce(
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
            merged,
          )
        : one,
    );
  return undefined;
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

/** Whether the line at `at` stands in the text of the layer that last added to the chart. */
const addedBy = ({ piece }: Item, at: number): boolean => at >= piece.at.start && at <= piece.at.end;

// ───────────── lines that go with steps ─────────────

/** A caution that goes with a step goes with it wherever that step now stands. */
function spread(items: readonly Item[]): readonly Item[] {
  const names = new Map<string, string[]>();
  for (const { from, statement } of items) {
    if (from.beneath === undefined || from.hidden !== undefined || meant(statement) !== "step") continue;
    names.set(from.beneath, [...(names.get(from.beneath) ?? []), statement.name!.text]);
  }
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
    return {
      ...item,
      statement: withSteps(
        statement,
        steps.flatMap((step) => [
          step,
          ...(names.get(step.text) ?? []).map((text) => ({ at: step.at, text })),
        ]),
      ),
      unspread: statement,
    };
  });
}
