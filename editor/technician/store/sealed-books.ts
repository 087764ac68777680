// The shop's sealed editions as a tablet keeps them: the newest of each book with all that it stands on, so
// that jobs go by it without a network, and of every edition it ever saw what it was sealed in spite of.
import type { RecordStorage } from "./record-storage.ts";

export interface SealedBook {
  readonly name: string;
  readonly title: string;
  readonly number: number;
  readonly print: string;
  readonly text: string;
  /** Texts of the books that it stands on. */
  readonly under: readonly string[];
}

export interface Sealed {
  readonly books: readonly SealedBook[];
  /** By print of the edition: how many faults it was sealed with, and the written reason. */
  readonly faulty: Readonly<Record<string, { readonly faults: number; readonly reason: string }>>;
}

const noneSealed: Sealed = { books: [], faulty: {} };
const note = "sealed editions";

export async function sealedKept(storage: RecordStorage | undefined): Promise<Sealed> {
  const kept = (await storage?.note(note).catch(() => undefined)) as Sealed | undefined;
  return kept !== undefined && Array.isArray(kept.books) ? kept : noneSealed;
}

export const keepSealed = async (storage: RecordStorage | undefined, sealed: Sealed): Promise<void> => {
  await storage?.setNote(note, sealed).catch(() => undefined);
};
