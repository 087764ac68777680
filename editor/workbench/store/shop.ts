// The shop's host as the bench knows it: whether there is one, its books, the draft of the open book, and
// what happens there while the page is open. Where there is none, everything works in the browser alone and
// nothing is said of it.
import type { BookLine, Hello, HostEvent } from "../../../core/schemas/host.ts";
import type { StoreApi } from "zustand/vanilla";
import { createStore } from "zustand/vanilla";
import type { WorkbenchStore } from "./document.ts";
import type { DraftKeeper, DraftState, Made } from "./draft-keeper.ts";
import { keepDrafts } from "./draft-keeper.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import { newId } from "../../client/storage/hash-text.ts";

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

export function openShop(client: HostClient, document: WorkbenchStore): Shop {
  const store = createStore<ShopState>()(() => ({ host: "unknown", books: [], sealings: 0, deliveries: 0 }));
  const device = newId();
  const keeper = keepDrafts({
    client,
    device,
    text: () => document.state().desk.text,
    take: (text) => document.setText(text),
    tell: (says) => document.tell(says),
    made,
    setMade,
    changed: () => store.setState({ draft: keeper.state() }),
  });
  const shop: ShopParts = { client, document, store, keeper, device };
  const events = hearEvents(shop);
  const { ask, stop } = askHost(shop, events.look, events.list);
  events.onSession((known) => {
    const { host } = store.getState();
    if (!known && host === "there") store.setState({ host: "refused" });
    if (known && (host === "refused" || keeper.state()?.is === "signed-out")) void ask();
  });
  const leave = document.subscribe(events.look);
  void ask();

  return {
    client,
    state: store.getState,
    subscribe: store.subscribe,
    settle: keeper.settle,
    goOnWith: keeper.goOnWith,
    again: () => {
      if (store.getState().host === "there") keeper.again();
      else void ask();
    },
    seen: () => {
      if (store.getState().host === "refused" || keeper.state()?.is === "signed-out") void ask();
    },
    keyOf: (book) => document.state().books.find(({ key }) => made(key)?.book === book)?.key,
    stop: () => {
      stop();
      leave();
      events.stop();
    },
  };
}

interface ShopParts {
  readonly client: HostClient;
  readonly document: WorkbenchStore;
  readonly store: StoreApi<ShopState>;
  readonly keeper: DraftKeeper;
  readonly device: string;
}

/** Asks the host who this person is; again while nobody answers. */
function askHost(
  { client, store, keeper }: ShopParts,
  look: () => void,
  list: () => Promise<void>,
): { readonly ask: () => Promise<void>; readonly stop: () => void } {
  let clock: ReturnType<typeof setTimeout> | undefined;
  let over = false;
  const ask = async (): Promise<void> => {
    clearTimeout(clock);
    if (over) return;
    try {
      const { you } = await client.hello();
      store.setState({ host: "there", you });
      void list();
      look();
      if (keeper.state()?.is === "signed-out") keeper.again();
    } catch (cause) {
      const host = hostBehind(cause);
      store.setState({ host });
      if (host === "away") clock = setTimeout(() => void ask(), askAgain);
    }
  };
  return {
    ask,
    stop: () => {
      over = true;
      clearTimeout(clock);
    },
  };
}

/** A place that only serves files has no such address, and says so once. */
function hostBehind(cause: unknown): ShopState["host"] {
  const status = cause instanceof HostRefusal ? cause.status : 0;
  if (status === 401 || status === 403) return "refused";
  return status === 0 || status >= 500 ? "away" : "none";
}

/** Listens to the host while a book is open, and hands the open book to the keeper of drafts. */
function hearEvents({ client, document, store, keeper, device }: ShopParts) {
  let clock: ReturnType<typeof setTimeout> | undefined;
  let hearing: { readonly book: string | undefined; readonly stop: () => void } | undefined;
  let session: (known: boolean) => void = () => undefined;
  let seen = { key: "", text: "" };

  const list = async (): Promise<void> => {
    try {
      store.setState({ books: (await client.books()).books });
    } catch {
      /* Asked again at the next event. */
    }
  };
  const hear = (event: HostEvent): void => {
    keeper.hear(event);
    if (event.is === "edition")
      document.tell(`Edition ${event.number} of ${event.book} is sealed, by ${event.who}.`);
    store.setState((state) => withEvent(state, event));
    if (event.is === "jobs" || event.is === "open") return;
    clearTimeout(clock);
    clock = setTimeout(() => void list(), 250);
  };
  const listenTo = (book: string | undefined): void => {
    hearing?.stop();
    const what = { device, ...(book === undefined ? {} : { draft: book }) };
    hearing = { book, stop: client.events(what, hear, (known) => session(known)) };
  };
  const look = (): void => {
    const { key, desk, mine } = document.state();
    const { host, you } = store.getState();
    // After the session has ended the keeper goes on noting what is typed.
    const isListening = host === "there" || (host === "refused" && keeper.state() !== undefined);
    if (key === "" || !isListening) return;
    const book = mine && writes(you) ? nameIn(desk.text) : undefined;
    keeper.open(key, book);
    if (hearing === undefined || hearing.book !== book) listenTo(book);
    if (seen.key === key && seen.text !== desk.text) keeper.typed();
    seen = { key, text: desk.text };
  };
  return {
    list,
    look,
    /** Called at each new beginning with whether the host knows who listens. */
    onSession: (listener: (known: boolean) => void): void => {
      session = listener;
    },
    stop: (): void => {
      clearTimeout(clock);
      hearing?.stop();
    },
  };
}

/** What shows editions or deliveries looks again when their counts rise. */
function withEvent(state: ShopState, event: HostEvent): Partial<ShopState> {
  const sealings = state.sealings + 1;
  const deliveries = state.deliveries + 1;
  switch (event.is) {
    case "edition":
      return { sealings };
    case "jobs":
      return { deliveries };
    case "anew":
      return { sealings, deliveries };
    case "draft":
    case "open":
      return {};
  }
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
