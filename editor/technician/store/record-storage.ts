// Where the records of jobs are kept in this browser: entries that are never changed, photographs, the books
// that they were made by, and what still has to be delivered. A database of its own, so that the bench's
// never waits for it.
import { openDB } from "idb";
import type { DBSchema, IDBPDatabase } from "idb";
import type { JobEntry } from "../../../core/record.ts";
import { newId } from "../../client/storage/hash-text.ts";

export interface KeptText {
  readonly print: string;
  readonly name: string;
  readonly title: string;
  readonly edition?: number;
  readonly text: string;
  readonly at: number;
  /** Texts that the book depended on when the job was begun; absent where they were not kept. */
  readonly under?: readonly string[];
}
export interface KeptPhoto {
  readonly photo: string;
  readonly blob: Blob;
  readonly small?: Blob;
}

/** Ids of entries, prints of photographs and of the texts of books. */
export interface Outbox {
  readonly entries: readonly string[];
  readonly photos: readonly string[];
  readonly texts: readonly string[];
}

export interface RecordStorage {
  /** Names this browser among the devices of a shop. */
  readonly device: string;
  all(): Promise<readonly JobEntry[]>;
  /** Keeps entries and marks them as not delivered; an entry that is there already stays as it is. */
  add(entries: readonly JobEntry[]): Promise<void>;
  photo(photo: string): Promise<KeptPhoto | undefined>;
  addPhoto(photo: KeptPhoto): Promise<void>;
  book(print: string): Promise<KeptText | undefined>;
  addBook(book: KeptText): Promise<void>;
  note(name: string): Promise<unknown>;
  setNote(name: string, value: unknown): Promise<void>;
  /** What is not delivered yet, entries as they were made. */
  waiting(): Promise<Outbox>;
  entries(ids: readonly string[]): Promise<readonly JobEntry[]>;
  delivered(what: Partial<Outbox>): Promise<void>;
}

interface Shelf extends DBSchema {
  entries: { key: string; value: JobEntry };
  photos: { key: string; value: KeptPhoto };
  books: { key: string; value: KeptText };
  /** By `entry ID`, `photo PRINT` or `text PRINT`: when it was put there, in milliseconds since 1970. */
  outbox: { key: string; value: number };
  notes: { key: string; value: unknown };
}

/** Rejects where the browser keeps nothing. */
export async function openRecordStorage(name = "bevelbook jobs"): Promise<RecordStorage> {
  const shelf: IDBPDatabase<Shelf> = await openDB<Shelf>(name, 1, {
    upgrade: (db) => {
      db.createObjectStore("entries", { keyPath: "id" });
      db.createObjectStore("photos", { keyPath: "photo" });
      db.createObjectStore("books", { keyPath: "print" });
      db.createObjectStore("outbox");
      db.createObjectStore("notes");
    },
  });
  let device = await shelf.get("notes", "device");
  if (typeof device !== "string") {
    device = newId();
    await shelf.put("notes", device, "device");
  }
  return {
    device: device as string,
    all: () => shelf.getAll("entries"),
    add: async (entries) => {
      const writing = shelf.transaction(["entries", "outbox"], "readwrite");
      for (const entry of entries) {
        void writing.objectStore("entries").put(entry);
        void writing.objectStore("outbox").put(entry.at, `entry ${entry.id}`);
      }
      // Closed by hand: a page that goes away in this moment would take an open transaction with it.
      writing.commit();
      await writing.done;
    },
    photo: (photo) => shelf.get("photos", photo),
    addPhoto: async (photo) => {
      const writing = shelf.transaction(["photos", "outbox"], "readwrite");
      void writing.objectStore("photos").put(photo);
      void writing.objectStore("outbox").put(0, `photo ${photo.photo}`);
      writing.commit();
      await writing.done;
    },
    book: (print) => shelf.get("books", print),
    addBook: async (book) => {
      const writing = shelf.transaction(["books", "outbox"], "readwrite");
      if ((await writing.objectStore("books").get(book.print)) === undefined) {
        void writing.objectStore("books").put(book);
        void writing.objectStore("outbox").put(book.at, `text ${book.print}`);
      }
      await writing.done;
    },
    note: (key) => shelf.get("notes", key),
    setNote: async (key, value) => {
      await shelf.put("notes", value, key);
    },
    waiting: async () => {
      const reading = shelf.transaction("outbox");
      const [keys, times] = await Promise.all([reading.store.getAllKeys(), reading.store.getAll()]);
      const inOrder = keys.map((key, i) => ({ key, at: times[i]! })).sort((a, b) => a.at - b.at);
      const of = (kind: string) =>
        inOrder.filter(({ key }) => key.startsWith(kind)).map(({ key }) => key.slice(kind.length));
      return { entries: of("entry "), photos: of("photo "), texts: of("text ") };
    },
    entries: async (ids) => {
      const reading = shelf.transaction("entries");
      return (await Promise.all(ids.map((id) => reading.store.get(id)))).filter(
        (entry) => entry !== undefined,
      );
    },
    delivered: async ({ entries = [], photos = [], texts = [] }) => {
      const writing = shelf.transaction("outbox", "readwrite");
      for (const id of entries) void writing.store.delete(`entry ${id}`);
      for (const photo of photos) void writing.store.delete(`photo ${photo}`);
      for (const text of texts) void writing.store.delete(`text ${text}`);
      await writing.done;
    },
  };
}
