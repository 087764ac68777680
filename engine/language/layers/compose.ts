// Puts a book together from its own text and the texts that it stands on: books that it uses, and the book
// that it amends, which may itself stand on others. What comes out is one list of statements in the order of
// the whole.
import { MAX_BOOKS_UNDER, MAX_CHAIN_OF_BOOKS } from "../../../core/limits.ts";
import type { Reason } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import { parseStatement } from "../syntax/parse.ts";
import { headOf } from "../syntax/heads.ts";
import { type Piece, splitBook } from "../syntax/split.ts";
import type { Fault, Statement } from "../syntax/tree.ts";
import { type Dependency, contentHash } from "./content-hash.ts";
import { type Item, type Origin, embedded, meant } from "./item.ts";
import { applyLayer } from "./layer.ts";
import { findBook } from "./book-list.ts";

export interface Under {
  readonly name: string;
  readonly edition: number | undefined;
  readonly text: string;
  /** Where the text begins in the whole, behind the book's own. */
  readonly start: number;
  readonly as: "used" | "amended";
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
  readonly lacking: readonly {
    readonly code: string;
    readonly facts: Readonly<Record<string, unknown>>;
    readonly reason: Reason;
  }[];
  /** What layers of this book have left out, by key, and where that is said. */
  readonly dropped: ReadonlyMap<string, { readonly layer: string; readonly at: Span }>;
}

interface Way {
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function composeBook(
  text: string,
  pieces: readonly Piece[],
  statements: readonly Statement[],
  shelf: readonly string[],
  way: Way = { texts: [], left: { books: MAX_BOOKS_UNDER } },
): Composition {
  const name = headOf(text)?.name ?? "";
  const own: Origin = { layer: name, own: true };
  const under: Under[] = [];
  const direct: { start: number; of: Composition }[] = [];
  const stands: Dependency[] = [];
  const lacking: { code: string; facts: Readonly<Record<string, unknown>>; reason: Reason }[] = [];
  const faults = new Map<number, Fault[]>();
  const withheld = new Map<number, Reason>();
  let next = text.length + 1;

  const fetched = (
    at: number,
    wanted: string,
    edition: number | undefined,
    place: Span,
    as: Under["as"],
  ): { of: Composition; start: number } | undefined => {
    const tell = (code: string, facts: Readonly<Record<string, unknown>>) =>
      faults.set(at, [
        ...(faults.get(at) ?? []),
        { code, at: place, facts: { name: wanted, edition, as, ...facts } },
      ]);
    const hold = (code: string, facts: Readonly<Record<string, unknown>>, reason: Reason) => {
      tell(code, facts);
      withheld.set(at, reason);
      lacking.push({ code, facts: { name: wanted, edition, as, by: name, ...facts }, reason });
    };
    const refuse = (code: string, facts: Record<string, unknown>, reason: Reason) => {
      hold(code, facts, reason);
      stands.push({ name: wanted, edition, fingerprint: "" });
      return undefined;
    };
    const found = findBook(
      shelf.filter((one) => one !== text),
      wanted,
      edition,
    );
    if (found === undefined) {
      const circle = wanted === name;
      return refuse(
        circle ? "use/circle" : "use/missing",
        { way: [name, wanted] },
        circle ? { code: "book-circle", book: wanted } : { code: "book-missing", book: wanted, as },
      );
    }
    if (way.texts.includes(found.text))
      return refuse(
        "use/circle",
        { way: [...way.texts.map((one) => headOf(one)?.name ?? ""), name, wanted] },
        { code: "book-circle", book: wanted },
      );
    if (way.texts.length + 1 >= MAX_CHAIN_OF_BOOKS || --way.left.books < 0)
      return refuse("use/deep", { most: MAX_CHAIN_OF_BOOKS }, { code: "books-too-deep" });
    if (found.moved !== undefined) tell("use/edition", { has: found.edition, moved: found.moved });
    const of = composeText(found.text, shelf, { texts: [...way.texts, text], left: way.left });
    // What a book underneath lacks is lacking here.
    for (const one of of.lacking.slice(0, 4)) hold(one.code, one.facts, one.reason);
    const start = next;
    under.push(
      { name: wanted, edition: found.edition, text: found.text, start, as },
      ...of.under.map((one) => ({ ...one, start: one.start + start })),
    );
    direct.push({ start, of });
    next = start + wholeLength(of) + 1;
    stands.push({
      name: wanted,
      edition: found.edition,
      fingerprint: contentHash(found.text, of.dependencies),
    });
    return { of, start };
  };

  let base: { of: Composition; start: number } | undefined;
  let isLayer = false;
  const brought = new Map<number, readonly Item[]>();
  for (const [i, { body, name: word }] of statements.entries()) {
    if (body.keyword === "book" && body.amends !== undefined && !isLayer) {
      isLayer = true;
      base = fetched(i, body.amends.name.text, body.amends.edition, body.amends.name.at, "amended");
    } else if (body.keyword === "use" && word !== undefined) {
      const used = fetched(i, word.text, body.edition, word.at, "used");
      if (used !== undefined)
        brought.set(
          i,
          used.of.items
            .filter((item) => BROUGHT.has(meant(item.statement)))
            .map((item) => bringing(embedded(item, used.start), pieces[i]!.at.start)),
        );
    }
  }

  const items = statements.map(
    (statement, i): Item => ({
      piece: pieces[i]!,
      statement,
      from: withheld.has(i) ? { ...own, withholds: withheld.get(i)! } : own,
      faults: faults.get(i) ?? [],
    }),
  );
  const ground =
    base === undefined
      ? undefined
      : base.of.items
          .filter((item) => !SPENT.has(item.statement.body.keyword))
          .map((item) => embedded(item, base.start));
  const before = new Map(
    [...(base?.of.dropped ?? [])].map(([key, one]) => [
      key,
      { ...one, at: { start: one.at.start + base!.start, end: one.at.end + base!.start } },
    ]),
  );
  const laid = applyLayer(items, ground, brought, isLayer, before);
  return {
    name,
    text,
    items: laid.items,
    under,
    direct,
    lacking,
    dependencies: unique(stands, direct),
    dropped: laid.dropped,
  };
}

/** What a used book gives away; its work, its promises and its examples stay at home. */
const BROUGHT = new Set(["kind", "dial", "formula", "figure", "chart", "list", "ask"]);

const bringing = (item: Item, by: number): Item => ({ ...item, from: { ...item.from, brought: by } });

/** Statements that have had their effect where they stand. */
const SPENT = new Set(["book", "use", "drop", "add"]);

const wholeLength = (of: Composition): number =>
  of.under.reduce((sum, one) => sum + 1 + one.text.length, of.text.length);

function composeText(text: string, shelf: readonly string[], way: Way): Composition {
  const pieces = splitBook(text);
  const statements = pieces.map((piece) => parseStatement(piece.text));
  return composeBook(text, pieces, statements, shelf, way);
}

/** The books named, then those that they stand on, each once. */
function unique(stands: readonly Dependency[], direct: Composition["direct"]): readonly Dependency[] {
  const all = [...stands, ...direct.flatMap((one) => one.of.dependencies)];
  return all.filter(
    (one, i) =>
      all.findIndex(
        (other) =>
          other.name === one.name && other.edition === one.edition && other.fingerprint === one.fingerprint,
      ) === i,
  );
}
