// The books that a job can go by: those that come with the program, and those kept in this browser as they were last accepted.
// A rule still being written never reaches the panel.
import type { Keep } from "./keep.ts";
import { namesOthers } from "./names-others.ts";
import { shippedBook, shippedBooks } from "./shipped.ts";

export interface JobBook {
  readonly key: string;
  readonly title: string;
  readonly edition: number | undefined;
  readonly from: "shipped" | "kept";
  readonly text: string;
}

/** All of them, the shipped one that opens by itself first. One kept under the name of a shipped one stands in its place. */
export async function jobBooks(keep: Keep | undefined): Promise<readonly JobBook[]> {
  const kept = new Map((await keep?.books().catch(() => []) ?? []).map((book) => [book.key, book]));
  const keys = [...shippedBooks, ...[...kept.keys()].filter((key) => !shippedBooks.includes(key))];
  return (await Promise.all(keys.map((key) => jobBook(key, keep)))).filter((book) => book !== undefined && asksOrTells(book.text)) as readonly JobBook[];
}

export async function jobBook(key: string, keep: Keep | undefined): Promise<JobBook | undefined> {
  const own = await keep?.book(key).catch(() => undefined);
  const text = own?.accepted ?? await shippedBook(key);
  if (text === undefined) return undefined;
  const { title, edition } = headOf(text);
  return { key, text, title: title || own?.title || key, edition, from: own === undefined ? "shipped" : "kept" };
}

/** What a book says of itself in its first statement, without the book being read as a whole. */
export function headOf(text: string): { readonly title: string; readonly edition: number | undefined } {
  const [, edition, title = ""] = /^book[ \t]+[^\n,]*(?:,[ \t]*edition[ \t]+(\d+))?[^\n]*\n(?:[ \t]+"([^"\n]*)")?/m.exec(text) ?? [];
  return { title, edition: edition === undefined ? undefined : Number(edition) };
}

/** A book of formulas alone is there for other books; one that brings another in may ask by that one's questions. */
const asksOrTells = (text: string): boolean => /^(ask|step|stop)\s/m.test(text) || (namesOthers(text) && !/^formula\s/m.test(text));

const note = "bevelbook job book";

/** The book named in the page's address, else the one chosen on this device; undefined where nobody has chosen. */
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
