// What a device keeps, in memory, for tests of its delivery.
import type { JobEntry } from "../../../../core/record.ts";
import { newId } from "../../../../editor/client/storage/hash-text.ts";
import type {
  KeptPhoto,
  KeptText,
  RecordStorage,
} from "../../../../editor/technician/store/record-storage.ts";

/** A shelf in memory. */
export function shelfOf(): RecordStorage & {
  readonly kept: Map<string, JobEntry>;
  readonly out: Set<string>;
} {
  const kept = new Map<string, JobEntry>();
  const out = new Set<string>();
  const photos = new Map<string, KeptPhoto>();
  const books = new Map<string, KeptText>();
  const notes = new Map<string, unknown>();
  const of = (kind: string) =>
    [...out].filter((key) => key.startsWith(kind)).map((key) => key.slice(kind.length));
  return {
    device: "d",
    kept,
    out,
    all: async () => [...kept.values()],
    add: async (entries) => {
      for (const entry of entries) {
        kept.set(entry.id, entry);
        out.add(`entry ${entry.id}`);
      }
    },
    photo: async (photo) => photos.get(photo),
    addPhoto: async (photo) => {
      photos.set(photo.photo, photo);
      out.add(`photo ${photo.photo}`);
    },
    book: async (print) => books.get(print),
    addBook: async (book) => {
      books.set(book.print, book);
      out.add(`text ${book.print}`);
    },
    note: async (name) => notes.get(name),
    setNote: async (name, value) => {
      notes.set(name, value);
    },
    waiting: async () => ({ entries: of("entry "), photos: of("photo "), texts: of("text ") }),
    entries: async (ids) => ids.flatMap((id) => kept.get(id) ?? []),
    delivered: async ({ entries = [], photos: done = [], texts = [] }) => {
      for (const key of [
        ...entries.map((id) => `entry ${id}`),
        ...done.map((id) => `photo ${id}`),
        ...texts.map((id) => `text ${id}`),
      ])
        out.delete(key);
    },
  };
}
export const answerOf = (body: unknown, status = 200): Response => Response.json(body, { status });
/** Lets everything that was begun come to its end. */
export const settle = async (): Promise<void> => {
  for (let n = 0; n < 150; n += 1)
    await new Promise((resolve) => {
      setImmediate(resolve);
    });
};
export const entry = (n: number): JobEntry => ({
  id: newId(),
  job: "j",
  at: n,
  device: "d",
  does: "note",
  line: String(n),
  text: "x",
});
