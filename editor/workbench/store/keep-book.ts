// Keeps the open book in the browser soon after each change, and opens, lists and drops the kept ones. One
// tab writes a book at a time.
import type { StoreApi } from "zustand/vanilla";
import type { BrowserStorage, KeptBook } from "../../client/storage/browser-storage.ts";
import { writeLateNote } from "../../client/storage/browser-storage.ts";
import type { WorkbenchState } from "./document-state.ts";
import { bookToKeep } from "./document-state.ts";
import { noHistory } from "./history.ts";
import type { Hold } from "./one-tab.ts";
import { holdBook } from "./one-tab.ts";

export interface BookKeeper {
  /** Keeps the book once changes pause. */
  keepSoon(): void;
  /** Keeps at once what is not kept yet. */
  flush(): Promise<void>;
  /** For the page's last moment: writes without waiting. */
  lastMoment(): void;
  open(key: string): Promise<boolean>;
  /** Opens a text as a book of its own, under a free name made of `wish`. */
  openText(text: string, wish: string): Promise<void>;
  drop(key: string): Promise<void>;
  /** Takes the book over from the other tab that writes it. */
  takeOver(): Promise<void>;
}

/** Typing is kept this long after it pauses, in milliseconds. */
const keepAfter = 250;

export interface KeepWith {
  readonly storage: BrowserStorage | undefined;
  readonly trouble: (says: string) => void;
  /** Another document is in the state now. */
  readonly opened: () => void;
}

export function keepBook(store: StoreApi<WorkbenchState>, given: KeepWith): BookKeeper {
  const { storage, opened } = given;
  const { keepSoon, flush } = keeping(store, given);
  let hold: Hold | undefined;

  const show = async (book: KeptBook): Promise<void> => {
    await flush();
    hold?.letGo();
    store.setState({ ...shownOf(book), history: book.history, units: book.units, ...freshPage, mine: true });
    const setMine = (mine: boolean): void => {
      if (mine !== store.getState().mine) store.setState({ mine });
    };
    hold = holdBook(book.key, setMine, flush);
    opened();
    await storage?.setLastKey(book.key);
  };
  const listBooks = async (): Promise<void> => {
    if (storage) store.setState({ books: await storage.books() });
  };

  return {
    keepSoon,
    flush,
    lastMoment: () => {
      const state = store.getState();
      if (state.key && state.mine && state.kept !== "kept") writeLateNote(bookToKeep(state, Date.now()));
      void flush();
    },
    open: async (key) => {
      const book = await storage?.book(key);
      if (!book) return false;
      await show(book);
      await listBooks();
      return true;
    },
    openText: async (text, wish) => {
      const book = newBook(text, wish, (await storage?.books()) ?? []);
      await show(book);
      store.setState({ bare: true });
      await storage?.putBook(book).catch(() => store.setState({ kept: "not kept" }));
      await listBooks();
    },
    drop: async (key) => {
      await storage?.dropBook(key);
      await listBooks();
    },
    takeOver: async () => {
      const { key } = store.getState();
      await hold?.takeOver();
      const book = await storage?.book(key);
      if (!book || store.getState().key !== key) return;
      store.setState({ ...shownOf(book), history: book.history, mine: true });
      opened();
    },
  };
}

/** Writing alone: soon after a change, or at once. */
function keeping(
  store: StoreApi<WorkbenchState>,
  { storage, trouble }: KeepWith,
): Pick<BookKeeper, "keepSoon" | "flush"> {
  let clock: ReturnType<typeof setTimeout> | undefined;
  const flush = async (): Promise<void> => {
    clearTimeout(clock);
    const state = store.getState();
    if (!storage || !state.key || state.kept === "kept") return;
    const book = bookToKeep(state, Date.now());
    try {
      await storage.putBook(book);
      const { desk, key } = store.getState();
      if (desk.text === book.text && desk.jobs === book.jobs && key === book.key)
        store.setState({ kept: "kept" });
    } catch {
      store.setState({ kept: "not kept" });
      trouble("The browser could not keep this book. Save it to a file before you close the page.");
    }
  };
  const keepSoon = (): void => {
    const { key, mine, kept } = store.getState();
    if (!storage || !key || !mine) return;
    if (kept !== "keeping") store.setState({ kept: "keeping" });
    clearTimeout(clock);
    clock = setTimeout(() => void flush(), keepAfter);
  };
  return { keepSoon, flush };
}

const shownOf = ({ key, text, accepted, jobs }: KeptBook): Pick<WorkbenchState, "key" | "desk"> => ({
  key,
  desk: { text, accepted, jobs },
});

const freshPage: Partial<WorkbenchState> = {
  chosen: undefined,
  snapshot: undefined,
  shelf: undefined,
  kept: "kept",
  bare: false,
};

function newBook(text: string, wish: string, books: readonly { readonly key: string }[]): KeptBook {
  const taken = new Set(books.map((book) => book.key));
  let key = wish;
  for (let n = 2; taken.has(key); n += 1) key = `${wish} (${n})`;
  return {
    key,
    title: wish,
    text,
    accepted: text,
    jobs: [],
    units: "book",
    history: noHistory,
    at: Date.now(),
  };
}
