// The books that a job can go by: the shop's sealed editions, those that come with the program, and those
// kept in this browser as they were last accepted. A rule still being written never reaches the panel.
import { dependenciesOf } from "../../../engine/index.ts";
import type { BrowserStorage } from "../../client/storage/browser-storage.ts";
import type { SealedBook } from "./sealed-books.ts";
import { shippedBook, shippedBooks } from "../../client/storage/shipped.ts";

export interface JobBook {
  readonly key: string;
  readonly title: string;
  readonly edition: number | undefined;
  readonly from: "sealed" | "shipped" | "kept";
  readonly text: string;
  /** Texts that it stands on, where they are known. */
  readonly under?: readonly string[];
}

/**
 * All of them, sealed ones first, then the shipped one that opens by itself. A sealed one stands in the place
 * of one kept or shipped under its name, and a kept one in that of a shipped one.
 */
export async function jobBooks(
  storage: BrowserStorage | undefined,
  sealed: readonly SealedBook[] = [],
): Promise<readonly JobBook[]> {
  const kept = new Map(((await storage?.books().catch(() => [])) ?? []).map((book) => [book.key, book]));
  const keys = [...new Set([...sealed.map((book) => book.name), ...shippedBooks, ...kept.keys()])];
  return (await Promise.all(keys.map((key) => jobBook(key, storage, sealed)))).filter(
    (book) => book !== undefined && asksOrTells(book.text),
  ) as readonly JobBook[];
}

export async function jobBook(
  key: string,
  storage: BrowserStorage | undefined,
  sealed: readonly SealedBook[] = [],
): Promise<JobBook | undefined> {
  const edition = sealed.find((book) => book.name === key);
  if (edition !== undefined)
    return {
      key,
      title: edition.title || key,
      edition: edition.number,
      from: "sealed",
      text: edition.text,
      under: edition.under,
    };
  const own = await storage?.book(key).catch(() => undefined);
  const text = own?.accepted ?? (await shippedBook(key));
  if (text === undefined) return undefined;
  const head = headOf(text);
  return {
    key,
    text,
    title: head.title || own?.title || key,
    edition: head.edition,
    from: own === undefined ? "shipped" : "kept",
  };
}

/** What a book says of itself in its first statement, without the book being read as a whole. */
export function headOf(text: string): {
  readonly name: string;
  readonly title: string;
  readonly edition: number | undefined;
} {
  const [, name = "", edition, title = ""] =
    /^book[ \t]+([^\s,]*)[^\n,]*(?:,[ \t]*edition[ \t]+(\d+))?[^\n]*\n(?:[ \t]+"([^"\n]*)")?/m.exec(text) ??
    [];
  return { name, title, edition: edition === undefined ? undefined : Number(edition) };
}

/**
 * A book of formulas alone is there for other books; one that brings another in may ask by that one's
 * questions.
 */
const asksOrTells = (text: string): boolean =>
  /^(ask|step|stop)\s/m.test(text) || (dependenciesOf(text).length > 0 && !/^formula\s/m.test(text));

const note = "bevelbook job book";

/**
 * The book named in the page's address, else the one chosen on this device; undefined where nobody has
 * chosen.
 */
export function chosenBook(): string | undefined {
  const named = new URLSearchParams(location.search).get("book");
  if (named !== null && named !== "") return named;
  try {
    return localStorage.getItem(note) ?? undefined;
  } catch {
    return undefined;
  }
}

export function chooseBook(key: string): void {
  try {
    localStorage.setItem(note, key);
  } catch {
    // Asked again at the next visit.
  }
  // The address would else name the book before.
  if (location.search !== "") history.replaceState(undefined, "", location.pathname);
}
