// Opening books: from the host, from this browser, those that come with the program, and new ones.
import { shippedBook } from "../../client/storage/shipped.ts";
import { nextNumber, withEdition } from "../shop-host/edition-text.ts";
import { openDraft, openEdition } from "../shop-host/open-from-host.ts";
import { saveToFile } from "../store/files.ts";
import type { WorkbenchParts } from "./use-workbench.ts";

export interface BookActions {
  readonly save: () => void;
  readonly openKept: (key: string) => void;
  readonly openShipped: (name: string) => void;
  readonly openNew: () => void;
  /** Opens a new layer's text as a book of its own. */
  readonly openLayer: (text: string, name: string) => void;
  readonly openDraft: (book: string) => void;
  readonly openEdition: (book: string, number: number) => void;
  /** The text of a book as it comes with the program, or as last accepted in this browser. */
  readonly textOf: (from: "shipped" | "kept", key: string) => Promise<string | undefined>;
  readonly editionText: (book: string, number: number) => Promise<string | undefined>;
  /** Continues from the text of a sealed edition, as the next edition. */
  readonly takeEdition: (book: string, number: number) => void;
  /** Takes back the text of an earlier version of the draft. */
  readonly takeVersion: (version: number, text: string) => void;
}

const newBook = 'book new-book, edition 1\n    "A book of our own"\n\npart "What the technician measures"\n';

export function bookActions(parts: WorkbenchParts): BookActions {
  const { store, shop, state, panel } = parts;
  const openText = (text: string, name: string): void => {
    void store.openText(text, name);
    panel.close();
  };
  const closeIf = (done: boolean): void => {
    if (done) panel.close();
  };
  const takeEdition = async (book: string, number: number): Promise<void> => {
    const found = await shop.client.edition(book, number).catch(() => undefined);
    if (found === undefined) {
      store.tell("That edition could not be fetched.", "trouble");
      return;
    }
    store.setText(withEdition(found.text, nextNumber("", parts.editions?.[0]?.number)));
    const begun = `The text of edition ${number} stands on the bench, begun as the next one.`;
    store.tell(`${begun} Undo brings back what stood there.`);
  };
  return {
    save: () => saveToFile(parts.snapshot?.name || state.key, state.desk.text),
    openKept: (key) => void store.open(key).then(panel.close),
    openShipped: (name) =>
      void shippedBook(name).then((text) => {
        if (text !== undefined) openText(text, name);
      }),
    openNew: () => openText(newBook, "new-book"),
    openLayer: openText,
    openDraft: (book) => void openDraft(store, shop, book).then(closeIf),
    openEdition: (book, number) => void openEdition(store, shop, book, number).then(closeIf),
    textOf: (from, key) => {
      if (from === "shipped") return shippedBook(key);
      return key === state.key ? Promise.resolve(state.desk.accepted) : store.acceptedOf(key);
    },
    editionText: (book, number) =>
      shop.client.edition(book, number).then(
        (one) => one.text,
        () => undefined,
      ),
    takeEdition: (book, number) => void takeEdition(book, number),
    takeVersion: (version, text) => {
      store.setText(text);
      const back = `The text of version ${version} stands on the bench again.`;
      store.tell(`${back} Undo brings back what stood there.`);
    },
  };
}
