// Checks a whole book: names to statements, the order of work, each statement against the others' signatures,
// and what only the whole book shows: names given twice, loops, names that nothing uses, missing bases.
//
// Given the book before the edit, a statement is looked at again only if its text changed, if a signature
// that it asked for changed, or if it has a finding (whose advice may depend on anything).
import { MAX_BOOK_BYTES, MAX_BOOK_LINES, bytesOf, exceedsBytes } from "../../../core/limits.ts";
import type { Span } from "../../../core/span.ts";
import { ANYTHING, YES_NO } from "../../../core/type.ts";
import { isCurrency } from "../../../core/unit.ts";
import { makeRoom, parseStatement } from "../syntax/parse.ts";
import { type Composition, composeBook, dependsOnOthers, wholeText } from "../layers/compose.ts";
import type { Item, Origin } from "../layers/item.ts";
import { type Piece, placed, splitBook } from "../syntax/split.ts";
import type { Fault, Statement } from "../syntax/tree.ts";
import type { Names } from "./implies.ts";
import { lostCondition } from "./lost-condition.ts";
import { type Order, orderOf } from "./order.ts";
import { type Kind, type Scope, type Signature, askedKey, signature } from "./scope.ts";
import { type Checked, type CheckedTexts, checkStatement, checkTexts } from "./statement.ts";

export interface Entry {
  readonly id: string;
  readonly piece: Piece;
  readonly statement: Statement;
  readonly checked: Checked;
  readonly texts: CheckedTexts;
  /** What the signatures that it asked for were, as one text. */
  readonly asked: string;
  /** Faults that only the whole book shows; they belong to this edit of the book alone. */
  readonly above: readonly Fault[];
  /** In a book that depends on others: whose statement it is, and what it replaces. */
  readonly from?: Origin;
}

export interface CheckedBook {
  readonly text: string;
  readonly entries: readonly Entry[];
  /** Places in `entries`, what is needed first; `STOPPED` is where all stops are known. */
  readonly order: readonly number[];
  readonly byName: ReadonlyMap<string, number>;
  readonly kinds: ReadonlyMap<string, Kind>;
  /** Places of statements that are in a loop, or need one that is. */
  readonly looped: ReadonlySet<number>;
  /** Faults of the text as a whole, placed in it. */
  readonly whole: readonly Fault[];
  /** Equal texts mean that nothing seen by all statements has changed. */
  readonly common: string;
  /** How the book was put together, where it depends on others. */
  readonly composition?: Composition;
}

/** The node of the order that means "all stops are known". */
export const STOPPED = -1;
/** The node that means "which steps apply, and their times, are known". */
export const STEPS = -2;

/**
 * Checks the book `text`. `bookTexts` are the texts of the books that it may depend on; `before` is the book
 * before an edit, whose entries are kept where nothing they depend on has changed.
 */
export function checkBook(
  text: string,
  before?: CheckedBook,
  bookTexts: readonly string[] = [],
): CheckedBook {
  const { statements, pieces, composition, tooLarge, all } = readStatements(text, bookTexts);
  const byName = namesOf(statements);
  const kinds = kindsOf(statements);
  const { order, loops, needs } = workOrder(statements, byName);
  const looped = new Set(loops.flat().filter((i) => i < statements.length));
  const common = commonKey(statements, kinds, all) + [...(composition?.dropped.keys() ?? [])].join("\n");
  const signatures = new Map<string, Signature>();
  const work: Work = {
    statements,
    pieces,
    items: composition?.items,
    byName,
    looped,
    signatures,
    scope: scopeOf(byName, kinds, signatures, all, composition?.dropped),
    reusable: new Map(
      before?.common === common ? before.entries.map((entry) => [entry.statement, entry]) : [],
    ),
  };
  const entries = entriesOf(work, checkInOrder(work, order));
  addBookFaults(entries, byName, loops, needs);
  return {
    text,
    entries,
    order,
    byName,
    kinds,
    looped: spreadLoops(looped, needs, order),
    whole: tooLarge ? [tooLarge] : [],
    common,
    ...(composition ? { composition } : {}),
  };
}

interface Read {
  readonly statements: readonly Statement[];
  readonly pieces: readonly Piece[];
  readonly composition?: Composition;
  /** Set where the book, with what it depends on, is too large to be read: then it has no statements. */
  readonly tooLarge?: Fault;
  /** The text with those that it depends on. */
  readonly all: string;
}

/** The statements of a text and of the books that it depends on. */
function readStatements(text: string, bookTexts: readonly string[]): Read {
  const ownFault = sizeFault(text);
  if (ownFault !== undefined) return { statements: [], pieces: [], tooLarge: ownFault, all: text };
  const pieces = splitBook(text);
  makeRoom(pieces.length);
  const statements = pieces.map((piece) => parseStatement(piece.text));
  if (!dependsOnOthers(statements)) return { statements, pieces, all: text };
  const composition = composeBook(text, pieces, statements, bookTexts);
  const all = wholeText(text, composition.under);
  const tooLarge = sizeFault(all);
  if (tooLarge !== undefined) return { statements: [], pieces: [], tooLarge, all };
  const { items } = composition;
  makeRoom(items.length);
  return {
    statements: items.map((item) => item.statement),
    pieces: items.map((item) => item.piece),
    composition,
    all,
  };
}

/** A book while its statements are checked. */
interface Work {
  readonly statements: readonly Statement[];
  readonly pieces: readonly Piece[];
  readonly items: readonly Item[] | undefined;
  readonly byName: ReadonlyMap<string, number>;
  readonly looped: ReadonlySet<number>;
  /** Filled as statements are checked, what is needed first. */
  readonly signatures: Map<string, Signature>;
  readonly scope: Scope;
  /** Entries of the book before the edit that may be kept. */
  readonly reusable: ReadonlyMap<Statement, Entry>;
}

/** A checked statement, and the signatures that its value depends on, as one text. */
interface CheckedNeeds {
  readonly checked: Checked;
  readonly needsKey: string;
}

const keyOfNames = ({ signatures }: Work, statement: Statement, names: readonly string[]): string =>
  names.map((name) => askedKey((one) => signatures.get(one), name, statement)).join("\n");

/** Checks each statement after those it needs, and fills the signatures. */
function checkInOrder(work: Work, order: readonly number[]): readonly CheckedNeeds[] {
  const { statements, signatures, byName, looped } = work;
  // A loop's members know nothing of one another's values; what they declare is enough to check the rest.
  for (const member of looped) {
    const name = statements[member]?.name?.text;
    if (name !== undefined)
      signatures.set(name, signature({ what: "figure", type: ANYTHING, unit: undefined }));
  }
  const all: CheckedNeeds[] = new Array(statements.length);
  for (const i of order) {
    if (i < 0) continue;
    const statement = statements[i]!;
    const needsKey = keyOfNames(work, statement, statement.needs);
    const old = work.reusable.get(statement);
    const keep = old !== undefined && old.checked.faults.length === 0 && askedOfNeeds(old) === needsKey;
    const checked = keep ? old.checked : checkStatement(work.scope, statement);
    all[i] = { checked, needsKey };
    const name = statement.name?.text;
    if (name === undefined) continue;
    if (checked.signature !== undefined && byName.get(name) === i)
      signatures.set(name, looped.has(i) ? { ...checked.signature } : checked.signature);
    // A line underneath asks whether the one above it applies.
    if (work.items !== undefined && LINES.has(statement.body.keyword))
      signatures.set(`${statement.body.keyword} ${name}`, LINE);
  }
  return all;
}

/** The entries, with the texts of each statement, which are checked when all signatures are known. */
function entriesOf(work: Work, checked: readonly CheckedNeeds[]): Entry[] {
  const { statements, pieces, items, scope, reusable } = work;
  const ids = idsOf(statements);
  return statements.map((statement, i): Entry => {
    const old = reusable.get(statement);
    const asked = `${checked[i]!.needsKey}\u0000${keyOfNames(work, statement, statement.uses)}`;
    const keep = old !== undefined && old.texts.faults.length === 0 && old.asked === asked;
    return {
      id: ids[i]!,
      piece: pieces[i]!,
      statement,
      checked: checked[i]!.checked,
      texts: keep ? old.texts : checkTexts(scope, statement),
      asked,
      above: items?.[i]?.faults ?? [],
      ...(items === undefined ? {} : { from: items[i]!.from }),
    };
  });
}

const LINES: ReadonlySet<string> = new Set(["step", "caution", "stop"]);
const LINE = signature({ what: "figure", type: YES_NO, unit: undefined });

const askedOfNeeds = (entry: Entry): string => entry.asked.slice(0, entry.asked.indexOf("\u0000"));

// ───────────── names ─────────────

const VALUED = new Set(["ask", "dial", "figure", "chart", "list", "formula"]);

const meant = (statement: Statement): string =>
  statement.body.keyword === "unreadable" ? statement.body.meant : statement.body.keyword;

/** `figure bevel-width`, `caution #2`; a name set twice gets `#2` behind it. */
function idsOf(statements: readonly Statement[]): readonly string[] {
  const seen = new Map<string, number>();
  return statements.map((statement) => {
    const base = statement.name ? `${meant(statement)} ${statement.name.text}` : meant(statement);
    const count = (seen.get(base) ?? 0) + 1;
    seen.set(base, count);
    return statement.name ? (count === 1 ? base : `${base} #${count}`) : `${base} #${count}`;
  });
}

/**
 * Values by their names; kinds, steps, cautions and stops by their word and name. The first to set a name has
 * it.
 */
function namesOf(statements: readonly Statement[]): Map<string, number> {
  const byName = new Map<string, number>();
  for (const [i, statement] of statements.entries()) {
    if (statement.name === undefined) continue;
    const word = meant(statement);
    const key = VALUED.has(word) ? statement.name.text : `${word} ${statement.name.text}`;
    if (!byName.has(key)) byName.set(key, i);
  }
  return byName;
}

function kindsOf(statements: readonly Statement[]): Map<string, Kind> {
  const kinds = new Map<string, Kind>();
  for (const { body, name } of statements) {
    if (body.keyword === "kind" && name !== undefined && !kinds.has(name.text))
      kinds.set(name.text, { name: name.text, words: [...new Set(body.words.map((one) => one.word))] });
  }
  return kinds;
}

/** What every statement can see without naming it: kinds and their words, names of lines, the currency. */
function commonKey(statements: readonly Statement[], kinds: ReadonlyMap<string, Kind>, text: string): string {
  const lines = statements.flatMap((one) =>
    one.name && ["step", "caution", "stop"].includes(meant(one)) ? [`${meant(one)} ${one.name.text}`] : [],
  );
  const broken = statements.flatMap((one) =>
    one.body.keyword === "unreadable" && one.name ? [one.name.text] : [],
  );
  return JSON.stringify([
    [...kinds].map(([name, kind]) => [name, kind.words]),
    lines,
    broken,
    currencyIn(text),
  ]);
}

/** The first currency code behind a number or a slash, or before one. */
function currencyIn(text: string): string | undefined {
  if (text === lastLooked.text) return lastLooked.currency;
  lastLooked = { text, currency: undefined };
  for (const match of text.matchAll(/\b[A-Z]{3}\b/g)) {
    if (!isCurrency(match[0])) continue;
    lastLooked = { text, currency: match[0] };
    break;
  }
  return lastLooked.currency;
}

/** The text is looked through once for each reading of a book, though two steps of it ask. */
let lastLooked: { readonly text: string; readonly currency: string | undefined } = {
  text: "",
  currency: undefined,
};

/**
 * Near misses are looked for among this many names in all; a book of thousands of unknown names gets no
 * advice for the rest.
 */
const MOST_LOOKED = 200_000;

function scopeOf(
  byName: ReadonlyMap<string, number>,
  kinds: ReadonlyMap<string, Kind>,
  signatures: ReadonlyMap<string, Signature>,
  text: string,
  dropped: ReadonlyMap<string, unknown> | undefined,
): Scope {
  const withWord = new Map<string, Kind[]>();
  for (const kind of kinds.values())
    for (const word of kind.words) withWord.set(word, [...(withWord.get(word) ?? []), kind]);
  const currency = currencyIn(text);
  let looked = 0;
  const lines = (keyword: string) =>
    [...byName.keys()].flatMap((key) =>
      key.startsWith(`${keyword} `) ? [key.slice(keyword.length + 1)] : [],
    );
  return {
    signature: (name) => signatures.get(name),
    spoiled: (name) => byName.has(name) && !signatures.has(name),
    kind: (name) => kinds.get(name),
    kindsWith: (word) => withWord.get(word) ?? [],
    names: () => {
      looked += signatures.size;
      // Rules kept underneath have names that nobody can write.
      return looked > MOST_LOOKED ? [] : [...signatures.keys()].filter((name) => !/[ @]/.test(name));
    },
    kinds: () => kinds.keys(),
    // A line that a layer leaves out is known still: it never applies.
    hasLine: (keyword, name) =>
      byName.has(`${keyword} ${name}`) || dropped?.has(`${keyword} ${name}`) === true,
    lines,
    currency: () => currency,
  };
}

// ───────────── order and loops ─────────────

function workOrder(
  statements: readonly Statement[],
  byName: ReadonlyMap<string, number>,
): Order & { readonly needs: readonly (readonly number[])[] } {
  const [stopped, steps] = [statements.length, statements.length + 1];
  const lines = (word: string) => statements.flatMap((one, i) => (meant(one) === word ? [i] : []));
  const needs = statements.map((statement) =>
    statement.needs.flatMap((name) => {
      const at = byName.get(name) ?? (name === "stopped" ? stopped : name === "steps" ? steps : undefined);
      return at === undefined ? [] : [at];
    }),
  );
  needs.push(lines("stop"), lines("step"));
  const { order, loops } = orderOf(needs);
  return { order: order.map((i) => (i === stopped ? STOPPED : i === steps ? STEPS : i)), loops, needs };
}

/** A value that needs a looped one has no value either. */
function spreadLoops(
  looped: ReadonlySet<number>,
  needs: readonly (readonly number[])[],
  order: readonly number[],
): ReadonlySet<number> {
  const all = new Set(looped);
  for (const i of order) if (i >= 0 && needs[i]!.some((n) => all.has(n))) all.add(i);
  return all;
}

// ───────────── what only the whole book shows ─────────────

/** Adds a fault to the entry `i`. */
type Note = (i: number, code: string, at: Span, facts: Readonly<Record<string, unknown>>) => void;

function addBookFaults(
  entries: Entry[],
  byName: ReadonlyMap<string, number>,
  loops: readonly (readonly number[])[],
  needs: readonly (readonly number[])[],
): void {
  const note: Note = (i, code, at, facts) => {
    const entry = entries[i]!;
    entries[i] = { ...entry, above: [...entry.above, { code, at, facts }] };
  };
  const place = (i: number, at: Span): Span => placed(entries[i]!.piece, at);

  const books: number[] = [];
  for (const [i, { statement }] of entries.entries()) {
    const { name, body, clauses } = statement;
    const word = meant(statement);
    if (body.keyword === "book" && entries[i]!.from?.own !== false) {
      if (books.length > 0) note(i, "book/twice", { start: 0, end: 4 }, {});
      else if (i > 0) note(i, "book/first", { start: 0, end: 4 }, {});
      books.push(i);
    }
    if (name !== undefined) {
      const first = byName.get(VALUED.has(word) ? name.text : `${word} ${name.text}`)!;
      if (first !== i) {
        const earlier = entries[first]!.statement.name!.at;
        note(i, "name/twice", name.at, { name: name.text, elsewhere: place(first, earlier) });
      }
    }
    if (
      (body.keyword === "dial" || body.keyword === "chart") &&
      clauses.from === undefined &&
      name !== undefined
    )
      note(i, "basis/missing", name.at, { name: name.text, keyword: body.keyword });
  }
  for (const loop of loops) {
    const first = loop.find((i) => i < entries.length);
    if (first === undefined) continue;
    const path = pathThrough([first, ...loop.filter((i) => i !== first)], needs);
    const at = entries[first]!.statement.name?.at ?? { start: 0, end: 4 };
    const called = (i: number) =>
      entries[i]?.statement.name?.text ?? entries[i]?.id ?? (i === entries.length ? "stopped" : "the steps");
    note(first, "name/loop", at, {
      path: path.map(called),
      also: path
        .slice(1, -1)
        .filter((i) => i < entries.length)
        .map((i) => ({
          absolute: place(i, entries[i]!.statement.name?.at ?? { start: 0, end: 4 }),
          says: "this one needs the next",
        })),
    });
  }
  lostConditions(entries, byName, note);
  unused(entries, note);
}

/** Steps of a layer that are done where the book underneath does not want them. */
function lostConditions(entries: Entry[], byName: ReadonlyMap<string, number>, note: Note): void {
  if (!entries.some((entry) => entry.from?.beneath !== undefined)) return;
  const entryOf = (name: string) => entries[byName.get(name) ?? -1];
  const names: Names = {
    signature: (name) => entryOf(name)?.checked.signature,
    ruleOf: (name) => {
      const entry = entryOf(name);
      return entry?.statement.body.keyword === "figure" ? entry.checked.rule : undefined;
    },
  };
  for (const [i, entry] of entries.entries()) {
    const found = lostCondition(entry, entries, entryOf, names);
    if (found !== undefined) note(i, "layer/condition", found.at, found.facts);
  }
}

/** A short way round a loop, ending where it began. */
function pathThrough(loop: readonly number[], needs: readonly (readonly number[])[]): readonly number[] {
  const members = new Set(loop);
  const start = loop[0]!;
  const from = new Map<number, number>();
  const queue = [start];
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    for (const next of needs[node]!) {
      if (next === start) {
        const path = [start];
        for (let step: number | undefined = node; step !== undefined && step !== start; step = from.get(step))
          path.unshift(step);
        return [start, ...path];
      }
      if (members.has(next) && !from.has(next)) {
        from.set(next, node);
        queue.push(next);
      }
    }
  }
  return [start, start];
}

/**
 * Names that no other statement mentions. Being given in a worked example uses nothing; being expected does.
 */
function unused(entries: readonly Entry[], note: Note): void {
  if (!entries.some((entry) => entry.statement.body.keyword === "book")) return;
  const used = new Set<string>();
  let unreadable = false;
  for (const { statement } of entries) {
    const own = statement.name?.text;
    if (statement.body.keyword === "unreadable") unreadable = true;
    if (statement.body.keyword === "worked") {
      for (const one of statement.body.gives) if (one.is === "value") used.add(one.name.text);
      continue;
    }
    for (const name of statement.uses) if (name !== own) used.add(name);
  }
  // A statement that cannot be read may use anything: nothing is blamed until it can.
  if (unreadable) return;
  for (const [i, { statement }] of entries.entries()) {
    const { name, body } = statement;
    if (name === undefined || entries[i]!.from?.own === false) continue;
    const key = body.keyword === "kind" ? `kind ${name.text}` : name.text;
    if ((VALUED.has(body.keyword) || body.keyword === "kind") && !used.has(key))
      note(i, "name/unused", name.at, { name: name.text, keyword: body.keyword });
  }
}

function sizeFault(text: string): Fault | undefined {
  const at = { start: 0, end: Math.min(text.length, 1) };
  if (exceedsBytes(text, MAX_BOOK_BYTES))
    return { code: "budget/size", at, facts: { has: bytesOf(text), most: MAX_BOOK_BYTES } };
  let lines = 1;
  for (let i = text.indexOf("\n"); i >= 0; i = text.indexOf("\n", i + 1)) lines++;
  return lines > MAX_BOOK_LINES
    ? { code: "budget/lines", at, facts: { has: lines, most: MAX_BOOK_LINES } }
    : undefined;
}
