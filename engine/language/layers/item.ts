// One statement of a combined book: its tree as it counts there, where it is, and whose it is.
import type { Reason } from "../../../core/reason.ts";
import type { Span } from "../../../core/span.ts";
import { type Piece, placed } from "../syntax/split.ts";
import type { Fault, Statement } from "../syntax/tree.ts";

/** What a statement replaces, adds to or leaves out. */
interface Was {
  readonly layer: string;
  readonly rule: string;
  /**
   * Where the statement counts only under a condition: the condition as written; elsewhere what it replaces
   * is in force.
   */
  readonly when?: string;
}

export interface Origin {
  /** Name of the book that the statement is in. */
  readonly layer: string;
  /** Whether that is the text being read, and none underneath. */
  readonly own: boolean;
  /** A rule that is kept only as the value underneath: the name that it had. It is no row of its own. */
  readonly hidden?: string;
  /** A line underneath that stays in force where the one above does not apply: the name that both have. */
  readonly beneath?: string;
  /** What it replaces. */
  readonly was?: Was;
  /** Of a chart with rows of several books: the reason and basis that each layer gives for its own. */
  readonly added?: readonly { readonly layer: string; readonly because?: string; readonly basis?: string }[];
  /** Of a statement that a used book brings: where the line that brings it begins. */
  readonly brought?: number;
  /** Why nothing is released: the book that it names cannot be read. */
  readonly withholds?: Reason;
}

export interface Item {
  readonly piece: Piece;
  readonly statement: Statement;
  readonly from: Origin;
  /** Faults of the putting together, placed in the statement. */
  readonly faults: readonly Fault[];
  /** The statement before its steps were spread over the names of each step. */
  readonly unspread?: Statement;
  /** Of a line underneath another: the line as it was written, and the keys of the lines above it. */
  readonly line?: { readonly raw: Statement; readonly over: readonly string[] };
}

/**
 * The same, seen from a text in which its own text begins `by` further on; what was wrong in it is known
 * there.
 */
export function embedded({ piece, statement, unspread, from, line }: Item, by: number): Item {
  const move = (at: Piece["at"]) => ({ start: at.start + by, end: at.end + by });
  const moved: Piece = {
    ...piece,
    at: move(piece.at),
    lead: move(piece.lead),
    ...(piece.lines ? { lines: piece.lines.map((one) => ({ from: one.from, at: one.at + by })) } : {}),
  };
  const { brought: _, ...origin } = from;
  return {
    piece: moved,
    statement: unspread ?? statement,
    from: { ...origin, own: false },
    faults: [],
    ...(line ? { line } : {}),
  };
}

const VALUED = new Set(["ask", "dial", "figure", "chart", "list", "formula"]);

export const meant = (statement: Statement): string =>
  statement.body.keyword === "unreadable" ? statement.body.meant : statement.body.keyword;

/** Values are known by their names; everything else by its word and name. */
export const keyFor = (word: string, name: string): string => (VALUED.has(word) ? name : `${word} ${name}`);

export const keyOf = (statement: Statement): string | undefined =>
  statement.name === undefined ? undefined : keyFor(meant(statement), statement.name.text);

export const isValue = (statement: Statement): boolean => VALUED.has(meant(statement));

/** The name of a rule kept underneath, for a reader: `width@house` is width of house. */
export const readable = (name: string): string =>
  name.replace(
    /(?:(?:step|caution|stop):)?([\p{L}\p{M}\p{N}-]+)@([\p{L}\p{M}\p{N}-]+)(?:@\d+)?/gu,
    "$1 of $2",
  );

/** Where a statement's name, or else its first word, is in the whole. */
export const placeOf = ({ piece, statement }: Item): Span =>
  placed(piece, statement.name?.at ?? { start: 0, end: 4 });

/** A stretch of a statement on one line, without comments. */
export const plain = (text: string): string =>
  text
    .replace(/--[^\n]*/g, "")
    .replace(/\s+/g, " ")
    .trim();

export const ruleOf = ({ text, ruleAt }: Statement): string =>
  ruleAt === undefined ? "" : plain(text.slice(ruleAt.start, ruleAt.end));
