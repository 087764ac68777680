// Where work is kept in the browser: several books by name, and the technician's answers. Writing is
// asynchronous, so what was typed in a page's last moment also goes to a small late note that is written at
// once.
import { openDB } from "idb";
import type { DBSchema, IDBPDatabase } from "idb";
import type { Answers, UnitSystem } from "../../../core/view.ts";
import type { Ticked, Draft, History, JobTag } from "./stored-work.ts";

export interface KeptBook {
  readonly key: string;
  readonly title: string;
  readonly text: string;
  readonly accepted: string;
  readonly jobs: readonly JobTag[];
  readonly units: UnitSystem;
  readonly history: History;
  /** Milliseconds since 1970, of the last change. */
  readonly at: number;
}

export interface BrowserStorage {
  books(): Promise<readonly { key: string; title: string; at: number }[]>;
  book(key: string): Promise<KeptBook | undefined>;
  putBook(book: KeptBook): Promise<void>;
  dropBook(key: string): Promise<void>;
  /** Which book was open last; undefined on a first visit. */
  lastKey(): Promise<string | undefined>;
  setLastKey(key: string): Promise<void>;
  /** The technician's job by the book of this name. */
  job(key: string): Promise<KeptJob | undefined>;
  putJob(key: string, job: KeptJob): Promise<void>;
}

/** What the technician has given: answers, what is typed and not yet taken, and the steps ticked off. */
interface KeptJob {
  readonly answers: Answers;
  readonly units: UnitSystem;
  readonly drafts?: Readonly<Record<string, Draft>>;
  readonly ticked?: Ticked;
}

interface Shelf extends DBSchema {
  books: { key: string; value: KeptBook };
  notes: { key: string; value: unknown };
  answers: { key: string; value: KeptJob };
}

export async function openBrowserStorage(): Promise<BrowserStorage> {
  const shelf: IDBPDatabase<Shelf> = await openDB<Shelf>("bevelbook", 1, {
    upgrade: (db) => {
      db.createObjectStore("books", { keyPath: "key" });
      db.createObjectStore("notes");
      db.createObjectStore("answers");
    },
  });
  return {
    books: async () =>
      (await shelf.getAll("books"))
        .map(({ key, title, at }) => ({ key, title, at }))
        .sort((a, b) => b.at - a.at),
    book: async (key) => newer(await shelf.get("books", key), lateNote(key)),
    putBook: async (book) => {
      const writing = shelf.transaction("books", "readwrite");
      void writing.store.put(book);
      // Closed by hand: a page that goes away in this moment would take an open transaction with it.
      writing.commit();
      await writing.done;
      forgetLateNote(book.key, book.at);
    },
    dropBook: async (key) => {
      await shelf.delete("books", key);
      forgetLateNote(key, Infinity);
    },
    lastKey: async () => {
      const key = await shelf.get("notes", "last book");
      return typeof key === "string" ? key : undefined;
    },
    setLastKey: async (key) => {
      await shelf.put("notes", key, "last book");
    },
    job: (key) => shelf.get("answers", key),
    putJob: async (key, job) => {
      const writing = shelf.transaction("answers", "readwrite");
      void writing.store.put(job, key);
      writing.commit();
      await writing.done;
    },
  };
}

/** Written at once, without waiting, when the page is about to go. Says nothing if the browser refuses. */
export function writeLateNote(book: KeptBook): void {
  // With the steps to undo where there is room for them, else without.
  for (const note of [book, { ...book, history: { done: [], undone: [] } }]) {
    try {
      localStorage.setItem(noteName(book.key), JSON.stringify(note));
      return;
    } catch {
      // No room: the last kept copy, at most a third of a second old, stands.
    }
  }
}

const noteName = (key: string): string => `bevelbook late ${key}`;

function lateNote(key: string): KeptBook | undefined {
  try {
    const note = localStorage.getItem(noteName(key));
    if (!note) return undefined;
    const book = JSON.parse(note) as KeptBook;
    return typeof book.text === "string" && Array.isArray(book.jobs) ? book : undefined;
  } catch {
    return undefined;
  }
}

function forgetLateNote(key: string, upTo: number): void {
  try {
    const note = lateNote(key);
    if (note && note.at <= upTo) localStorage.removeItem(noteName(key));
  } catch {
    // Nothing to forget.
  }
}

const newer = (kept: KeptBook | undefined, late: KeptBook | undefined): KeptBook | undefined =>
  late && (!kept || late.at > kept.at) ? late : kept;
