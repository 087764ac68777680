// The shop's host as the bench knows it: whether there is one, its books, the draft of the open book, and
// what happens there while the page is open. Where there is none, everything works in the browser alone and
// nothing is said of it.
import type { BookLine, Hello, HostEvent } from "../../../core/schemas/host.ts";
import type { WorkbenchStore } from "./document.ts";
import type { DraftState, Made } from "./draft-keeper.ts";
import { keepDrafts } from "./draft-keeper.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import { newId } from "../../client/storage/content-hash.ts";

export interface ShopState {
  /** `refused`: someone has to sign in. */
  readonly host: "unknown" | "none" | "there" | "away" | "refused";
  readonly you?: Hello["you"];
  readonly books: readonly BookLine[];
  readonly draft?: DraftState;
  /** Rise whenever something of that sort happened, so that what shows it looks again. */
  readonly sealings: number;
  readonly deliveries: number;
}

export interface Shop {
  readonly client: HostClient;
  state(): ShopState;
  subscribe(listener: () => void): () => void;
  settle(text: string): void;
  goOnWith(whose: "theirs" | "mine"): void;
  /** Asks the host again now. */
  again(): void;
  /** The person looks at this page again, perhaps after signing in at another. */
  seen(): void;
  /** The kept book that was made from this draft; undefined if this browser has none. */
  keyOf(book: string): string | undefined;
  stop(): void;
}

const askAgain = 10_000;

/** Whether this person may write drafts and seal. */
export const writes = (you: Hello["you"] | undefined): boolean =>
  you !== undefined && !["technician", "viewer"].includes(you.role);

/** The name that a book gives itself; undefined where its first line gives none that the host can use. */
export const nameIn = (text: string): string | undefined =>
  /^book[ \t]+([a-z][a-z0-9-]{0,99})(?=[\s,]|$)/m.exec(text)?.[1];

export function openShop(client: HostClient, store: WorkbenchStore): Shop {
  let state: ShopState = { host: "unknown", books: [], sealings: 0, deliveries: 0 };
  const listeners = new Set<() => void>();
  const device = newId();
  let over = false;
  let clock: ReturnType<typeof setTimeout> | undefined;
  let listClock: ReturnType<typeof setTimeout> | undefined;
  let hearing: { readonly book: string | undefined; readonly stop: () => void } | undefined;

  const set = (part: Partial<ShopState>): void => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };
  const keeper = keepDrafts({
    client,
    device,
    text: () => store.state().desk.text,
    take: (text) => store.setText(text),
    tell: (says) => store.tell(says),
    made,
    setMade,
    changed: () => {
      const draft = keeper.state();
      const { draft: _old, ...rest } = state;
      state = rest;
      set({ ...(draft === undefined ? {} : { draft }) });
    },
  });

  const list = async (): Promise<void> => {
    try {
      set({ books: (await client.books()).books });
    } catch {
      /* Asked again at the next event. */
    }
  };
  const listSoon = (): void => {
    clearTimeout(listClock);
    listClock = setTimeout(() => void list(), 250);
  };
  const hear = (event: HostEvent): void => {
    keeper.hear(event);
    switch (event.is) {
      case "edition":
        store.tell(`Edition ${event.number} of ${event.book} is sealed, by ${event.who}.`);
        set({ sealings: state.sealings + 1 });
        listSoon();
        return;
      case "draft":
        listSoon();
        return;
      case "jobs":
        set({ deliveries: state.deliveries + 1 });
        return;
      case "anew":
        set({ sealings: state.sealings + 1, deliveries: state.deliveries + 1 });
        listSoon();
        return;
      case "open":
        return;
    }
  };
  const known = (is: boolean): void => {
    if (!is && state.host === "there") set({ host: "refused" });
    if (is && (state.host === "refused" || keeper.state()?.is === "signed-out")) void ask();
  };
  /** What is on the bench now, told to the keeper of drafts and to the others. */
  let seen = { key: "", text: "" };
  const look = (): void => {
    const { key, desk: document, mine } = store.state();
    // After the session has ended the keeper goes on noting what is typed.
    if (key === "" || (state.host !== "there" && !(state.host === "refused" && keeper.state() !== undefined)))
      return;
    const book = mine && writes(state.you) ? nameIn(document.text) : undefined;
    keeper.open(key, book);
    if (hearing === undefined || hearing.book !== book) {
      hearing?.stop();
      hearing = {
        book,
        stop: client.events({ device, ...(book === undefined ? {} : { draft: book }) }, hear, known),
      };
    }
    if (seen.key === key && seen.text !== document.text) keeper.typed();
    seen = { key, text: document.text };
  };
  const ask = async (): Promise<void> => {
    clearTimeout(clock);
    if (over) return;
    try {
      const { you } = await client.hello();
      set({ host: "there", you });
      void list();
      look();
      if (keeper.state()?.is === "signed-out") keeper.again();
    } catch (cause) {
      const status = cause instanceof HostRefusal ? cause.status : 0;
      // A place that only serves files has no such address, and says so once.
      set({
        host: status === 401 || status === 403 ? "refused" : status === 0 || status >= 500 ? "away" : "none",
      });
      if (state.host === "away") clock = setTimeout(() => void ask(), askAgain);
    }
  };
  const leave = store.subscribe(look);
  void ask();

  return {
    client,
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    settle: keeper.settle,
    goOnWith: keeper.goOnWith,
    again: () => {
      if (state.host === "there") keeper.again();
      else void ask();
    },
    seen: () => {
      if (state.host === "refused" || keeper.state()?.is === "signed-out") void ask();
    },
    keyOf: (book) => store.state().books.find(({ key }) => made(key)?.book === book)?.key,
    stop: () => {
      over = true;
      clearTimeout(clock);
      clearTimeout(listClock);
      leave();
      hearing?.stop();
    },
  };
}

const noteName = (key: string): string => `bevelbook draft of ${key}`;

function made(key: string): Made | undefined {
  try {
    const note = JSON.parse(localStorage.getItem(noteName(key)) ?? "null") as Partial<Made> | null;
    return note !== null && typeof note.book === "string" && typeof note.version === "number"
      ? { book: note.book, version: note.version, typed: note.typed === true }
      : undefined;
  } catch {
    return undefined;
  }
}

function setMade(key: string, to: Made): void {
  try {
    localStorage.setItem(noteName(key), JSON.stringify(to));
  } catch {
    // At the next visit a person is asked which of the two drafts goes on.
  }
}
