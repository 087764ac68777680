// Puts a book together from its own text and those that it depends on: books that it uses, and the book that
// it amends, which may itself depend on others. What comes out is one list of statements in the order of the
// whole.
import { MAX_BOOKS_UNDER, MAX_CHAIN_OF_BOOKS } from "../../../core/limits.ts";
import type { Reason } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import { parseStatement } from "../syntax/parse.ts";
import { headOf } from "../syntax/dependencies.ts";
import { type Piece, splitBook } from "../syntax/split.ts";
import type { Fault, Statement } from "../syntax/tree.ts";
import { type Dependency, contentHash } from "./content-hash.ts";
import { type Item, embedded, meant } from "./item.ts";
import { applyLayer } from "./layer.ts";
import { type Found, findBook } from "./book-list.ts";

export interface Under {
  readonly name: string;
  readonly edition: number | undefined;
  readonly text: string;
  /** Where the text begins in the whole, behind the book's own. */
  readonly start: number;
  readonly as: "used" | "amended";
}

interface Lacking {
  readonly code: string;
  readonly facts: Fault["facts"];
  readonly reason: Reason;
}

export interface Composition {
  readonly name: string;
  readonly text: string;
  readonly items: readonly Item[];
  readonly under: readonly Under[];
  /** Books that the own text names, each with its own composition. */
  readonly direct: readonly { readonly start: number; readonly of: Composition }[];
  readonly dependencies: readonly Dependency[];
  /** Books that it or those underneath name and that cannot be read, as findings tell it. */
  readonly lacking: readonly Lacking[];
  /** What layers of this book have left out, by key, and where that is said. */
  readonly dropped: ReadonlyMap<string, { readonly layer: string; readonly at: Span }>;
}

/** How a book came to be composed, and what may still be spent on it. */
interface Path {
  /** Texts above, which would be a circle if they came again. */
  readonly texts: readonly string[];
  readonly left: { books: number };
}

/** Whether the statements name another book, or say what only a layer can. */
export const dependsOnOthers = (statements: readonly Statement[]): boolean =>
  statements.some(
    ({ body, instead, clauses }) =>
      body.keyword === "use" ||
      body.keyword === "drop" ||
      body.keyword === "add" ||
      instead !== undefined ||
      clauses.after !== undefined ||
      (body.keyword === "book" && body.amends !== undefined),
  );

/** The whole text: the own one, and those underneath from where they begin. */
export const wholeText = (text: string, under: readonly Under[]): string =>
  [text, ...under.map((one) => one.text)].join("\n");

/** A book while it is put together. */
interface Composing {
  readonly name: string;
  readonly text: string;
  /** Texts of the books that it may depend on. */
  readonly bookTexts: readonly string[];
  readonly path: Path;
  readonly under: Under[];
  readonly direct: { start: number; of: Composition }[];
  readonly dependencies: Dependency[];
  readonly lacking: Composition["lacking"][number][];
  /** Faults and reasons to release nothing, by the index of the statement. */
  readonly faults: Map<number, Fault[]>;
  readonly withheld: Map<number, Reason>;
  /** Where the next text begins in the whole. */
  next: number;
}

/** One statement's wish for another book. */
interface Wanted {
  /** Index of the statement. */
  readonly by: number;
  readonly name: string;
  readonly edition: number | undefined;
  readonly at: Span;
  readonly as: Under["as"];
}

interface Embedded {
  readonly of: Composition;
  readonly start: number;
}

export function composeBook(
  text: string,
  pieces: readonly Piece[],
  statements: readonly Statement[],
  bookTexts: readonly string[],
  path: Path = { texts: [], left: { books: MAX_BOOKS_UNDER } },
): Composition {
  const name = headOf(text)?.name ?? "";
  const composing: Composing = {
    name,
    text,
    bookTexts,
    path,
    under: [],
    direct: [],
    dependencies: [],
    lacking: [],
    faults: new Map(),
    withheld: new Map(),
    next: text.length + 1,
  };
  const { isLayer, base, brought } = findDependencies(composing, pieces, statements);
  const own = statements.map((statement, i): Item => {
    const withholds = composing.withheld.get(i);
    return {
      piece: pieces[i]!,
      statement,
      from: { layer: name, own: true, ...(withholds === undefined ? {} : { withholds }) },
      faults: composing.faults.get(i) ?? [],
    };
  });
  const { items, dropped } = applyLayer({
    own,
    base: base && baseItems(base),
    brought,
    isLayer,
    dropped: droppedIn(base),
  });
  const { under, direct, lacking } = composing;
  const dependencies = unique(composing.dependencies, direct);
  return { name, text, items, under, direct, lacking, dependencies, dropped };
}

/** Reads each book that a statement names: the one amended, and what the used ones bring. */
function findDependencies(
  composing: Composing,
  pieces: readonly Piece[],
  statements: readonly Statement[],
): {
  readonly isLayer: boolean;
  readonly base: Embedded | undefined;
  readonly brought: ReadonlyMap<number, readonly Item[]>;
} {
  let base: Embedded | undefined;
  let isLayer = false;
  const brought = new Map<number, readonly Item[]>();
  for (const [by, { body, name }] of statements.entries()) {
    if (body.keyword === "book" && body.amends !== undefined && !isLayer) {
      isLayer = true;
      const { name: amended, edition } = body.amends;
      base = fetchBook(composing, { by, name: amended.text, edition, at: amended.at, as: "amended" });
    } else if (body.keyword === "use" && name !== undefined) {
      const { edition } = body;
      const used = fetchBook(composing, { by, name: name.text, edition, at: name.at, as: "used" });
      if (used !== undefined) brought.set(by, broughtBy(used, pieces[by]!.at.start));
    }
  }
  return { isLayer, base, brought };
}

/** The book that is wanted; undefined with a finding where it cannot be read. */
function fetchBook(composing: Composing, wanted: Wanted): Embedded | undefined {
  const { name, text, bookTexts, path } = composing;
  const found = findBook(
    bookTexts.filter((one) => one !== text),
    wanted.name,
    wanted.edition,
  );
  const above = path.texts.map((one) => headOf(one)?.name ?? "");
  const circle: Reason = { code: "book-circle", book: wanted.name };
  if (found === undefined && wanted.name === name)
    return refuse(composing, wanted, "use/circle", { way: [name, wanted.name] }, circle);
  if (found === undefined) {
    const missing: Reason = { code: "book-missing", book: wanted.name, as: wanted.as };
    return refuse(composing, wanted, "use/missing", { way: [name, wanted.name] }, missing);
  }
  if (path.texts.includes(found.text))
    return refuse(composing, wanted, "use/circle", { way: [...above, name, wanted.name] }, circle);
  if (path.texts.length + 1 >= MAX_CHAIN_OF_BOOKS || --path.left.books < 0)
    return refuse(composing, wanted, "use/deep", { most: MAX_CHAIN_OF_BOOKS }, { code: "books-too-deep" });
  if (found.moved !== undefined)
    addFault(composing, wanted, "use/edition", { has: found.edition, moved: found.moved });
  const of = composeText(found.text, bookTexts, { texts: [...path.texts, text], left: path.left });
  // What a book underneath lacks is lacking here.
  for (const one of of.lacking.slice(0, 4)) withhold(composing, wanted, one);
  return embed(composing, wanted, found, of);
}

/** Puts the text behind those that are there. */
function embed(composing: Composing, wanted: Wanted, found: Found, of: Composition): Embedded {
  const start = composing.next;
  composing.under.push(
    { name: wanted.name, edition: found.edition, text: found.text, start, as: wanted.as },
    ...of.under.map((one) => ({ ...one, start: one.start + start })),
  );
  composing.direct.push({ start, of });
  composing.next = start + wholeLength(of) + 1;
  composing.dependencies.push({
    name: wanted.name,
    edition: found.edition,
    fingerprint: contentHash(found.text, of.dependencies),
  });
  return { of, start };
}

function addFault({ faults }: Composing, wanted: Wanted, code: string, facts: Fault["facts"]): void {
  const { by, name, edition, at, as } = wanted;
  faults.set(by, [...(faults.get(by) ?? []), { code, at, facts: { name, edition, as, ...facts } }]);
}

/** Notes that a book cannot be read, so that nothing is released. */
function withhold(composing: Composing, wanted: Wanted, { code, facts, reason }: Lacking): void {
  const { name, edition, as } = wanted;
  addFault(composing, wanted, code, facts);
  composing.withheld.set(wanted.by, reason);
  composing.lacking.push({ code, facts: { name, edition, as, by: composing.name, ...facts }, reason });
}

function refuse(
  composing: Composing,
  wanted: Wanted,
  code: string,
  facts: Fault["facts"],
  reason: Reason,
): undefined {
  withhold(composing, wanted, { code, facts, reason });
  composing.dependencies.push({ name: wanted.name, edition: wanted.edition, fingerprint: "" });
}

/** Statements that have had their effect in their own book. */
const SPENT: ReadonlySet<string> = new Set(["book", "use", "drop", "add"]);

const baseItems = ({ of, start }: Embedded): readonly Item[] =>
  of.items.filter((item) => !SPENT.has(item.statement.body.keyword)).map((item) => embedded(item, start));

/** What layers underneath have left out, placed in the whole. */
const droppedIn = (base: Embedded | undefined): Composition["dropped"] =>
  new Map(
    [...(base?.of.dropped ?? [])].map(([key, one]) => [
      key,
      { ...one, at: { start: one.at.start + base!.start, end: one.at.end + base!.start } },
    ]),
  );

/** What a used book gives away; its work, its promises and its examples stay at home. */
const BROUGHT: ReadonlySet<string> = new Set(["kind", "dial", "formula", "figure", "chart", "list", "ask"]);

/** `by`: where the line that brings it begins. */
const broughtBy = ({ of, start }: Embedded, by: number): readonly Item[] =>
  of.items
    .filter((item) => BROUGHT.has(meant(item.statement)))
    .map((item) => embedded(item, start))
    .map((item) => ({ ...item, from: { ...item.from, brought: by } }));

const wholeLength = (of: Composition): number =>
  of.under.reduce((sum, one) => sum + 1 + one.text.length, of.text.length);

function composeText(text: string, bookTexts: readonly string[], path: Path): Composition {
  const pieces = splitBook(text);
  const statements = pieces.map((piece) => parseStatement(piece.text));
  return composeBook(text, pieces, statements, bookTexts, path);
}

/** The books named, then those that they depend on, each once. */
function unique(named: readonly Dependency[], direct: Composition["direct"]): readonly Dependency[] {
  const all = [...named, ...direct.flatMap((one) => one.of.dependencies)];
  return all.filter(
    (one, i) =>
      all.findIndex(
        (other) =>
          other.name === one.name && other.edition === one.edition && other.fingerprint === one.fingerprint,
      ) === i,
  );
}
