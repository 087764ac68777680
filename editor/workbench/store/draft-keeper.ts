// The open book's draft on the shop's host: saved as it is typed, each save naming the version that it
// changed. What another person saved in between is merged with the text here, statement by statement; where
// both changed one statement nothing is saved until a person has chosen.
import { capitalise } from "../../../core/capitalise.ts";
import type { StoreApi } from "zustand/vanilla";
import { createStore } from "zustand/vanilla";
import { mergeTexts } from "../../../core/merge.ts";
import type { Draft, HostEvent, OpenBy } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";

export interface DraftState {
  readonly book: string;
  /** The newest version that the text here contains; 0 while the host has none. */
  readonly version: number;
  /**
   * `waiting`: the host does not answer. `apart`: the host has a draft of this name that this text was not
   * made from. `clash`: both changed one statement. `signed-out`: the session has ended; typing goes on and
   * is kept in the browser.
   */
  readonly is:
    | "opening"
    | "none"
    | "kept"
    | "keeping"
    | "waiting"
    | "apart"
    | "clash"
    | "refused"
    | "signed-out";
  /** Others that have this draft open, this page not among them. */
  readonly others: readonly OpenBy[];
  readonly base: string;
  /** The other draft or the other's save, where `is` says that there is one. */
  readonly theirs?: Theirs;
  /** Why the host does not take it. */
  readonly refusal?: string;
}
interface Theirs {
  readonly version: number;
  readonly text: string;
  readonly who: string;
  readonly at: number;
}

/** Which version of which draft a kept book was made from; kept with the book in the browser. */
export interface Made {
  readonly book: string;
  readonly version: number;
  readonly typed: boolean;
}

export interface DraftKeeper {
  state(): DraftState | undefined;
  /** Another book is open, or none that can have a draft; the same one again changes nothing. */
  open(key: string, book: string | undefined): void;
  /** The open book's text has changed. */
  typed(): void;
  hear(event: HostEvent): void;
  /** The clash is settled by this text. */
  settle(text: string): void;
  /** Of two drafts that have nothing to do with each other, this one goes on. */
  goOnWith(whose: "theirs" | "mine"): void;
  /** Asks the host again now. */
  again(): void;
}

export interface KeepWith {
  readonly client: Pick<HostClient, "draft" | "saveDraft" | "draftVersion">;
  readonly device: string;
  readonly text: () => string;
  /** Makes this the open book's text, as a step that can be undone. */
  readonly take: (text: string) => void;
  readonly tell: (says: string) => void;
  readonly changed: () => void;
  readonly made: (key: string) => Made | undefined;
  readonly setMade: (key: string, made: Made) => void;
  /** Milliseconds for which typing rests before it is saved. */
  readonly rest?: number;
}

const retryFirst = 2000;
const retryMost = 30_000;

/** The keeper's parts have this in common. */
interface Keeping {
  readonly given: KeepWith;
  readonly store: StoreApi<Kept>;
  readonly set: (part: Partial<DraftState>) => void;
  /** Runs this after so many milliseconds, and not what was to run before. */
  readonly soon: (act: () => Promise<void>, after: number) => void;
}
interface Kept {
  readonly key: string;
  readonly draft?: DraftState;
  readonly failures: number;
}

export function keepDrafts(given: KeepWith): DraftKeeper {
  const store = createStore<Kept>()(() => ({ key: "", failures: 0 }));
  let clock: ReturnType<typeof setTimeout> | undefined;
  const keeping: Keeping = {
    given,
    store,
    set: (part) => {
      const { draft } = store.getState();
      if (draft === undefined) return;
      store.setState({ draft: nextState(draft, part) });
      given.changed();
    },
    soon: (act, after) => {
      clearTimeout(clock);
      clock = setTimeout(() => void act(), after);
    },
  };
  const { find, save } = finding(keeping);
  const draft = (): DraftState | undefined => store.getState().draft;
  return {
    state: draft,
    open: (key, book) => {
      if (key === store.getState().key && book === draft()?.book) return;
      clearTimeout(clock);
      store.setState({ key, failures: 0, draft: book === undefined ? undefined : opening(book) });
      given.changed();
      if (book !== undefined) void find();
    },
    typed: () => typed(keeping, find, save),
    hear: (event) => hear(keeping, event, find, save),
    settle: (text) => takeUp(keeping, save, text),
    goOnWith: (whose) => takeUp(keeping, save, whose === "theirs" ? draft()?.theirs?.text : undefined),
    again: () => {
      clearTimeout(clock);
      const is = draft()?.is;
      if (is !== "waiting" && is !== "refused" && is !== "signed-out") return;
      if (is !== "signed-out") keeping.set({ is: "opening" });
      void find();
    },
  };
}

const opening = (book: string): DraftState => ({ book, version: 0, is: "opening", others: [], base: "" });

/** The other's text goes with the state that it belongs to, and so does the reason of a refusal. */
function nextState(state: DraftState, part: Partial<DraftState>): DraftState {
  const { theirs, refusal, ...old } = state;
  return {
    ...old,
    ...(theirs !== undefined && (part.is ?? state.is) === state.is ? { theirs } : {}),
    ...(refusal !== undefined && part.is === undefined ? { refusal } : {}),
    ...part,
  };
}

/** Notes the version that the text here contains, and that this book was made from it. */
function noteVersion({ given, store, set }: Keeping, version: number, base: string): void {
  const { key, draft } = store.getState();
  if (draft === undefined) return;
  const same = given.text() === base;
  set({ version, base, is: same ? "kept" : "keeping" });
  given.setMade(key, { book: draft.book, version, typed: !same });
}

/** A session that has ended, a refusal, or a host that does not answer: that one is asked again by itself. */
function failed({ store, set, soon }: Keeping, cause: unknown, act: () => Promise<void>): void {
  if (cause instanceof HostRefusal && cause.status === 401) {
    set({ is: "signed-out" });
    return;
  }
  if (!(cause instanceof HostRefusal) || (cause.status > 0 && cause.status < 500)) {
    set({ is: "refused", refusal: cause instanceof Error ? cause.message : String(cause) });
    return;
  }
  const failures = store.getState().failures + 1;
  store.setState({ failures });
  set({ is: "waiting" });
  soon(act, Math.min(retryMost, retryFirst * 2 ** (failures - 1)));
}

/** Takes over a newer version where nothing was typed here since the last. */
function bringIn(keeping: Keeping, draft: Draft): void {
  const { given, store, set } = keeping;
  if (store.getState().draft === undefined) return;
  set({ version: draft.version, base: draft.text });
  given.take(draft.text);
  noteVersion(keeping, draft.version, draft.text);
  given.tell(`${capitalise(draft.who)} saved version ${draft.version} of ${draft.book}. It stands here now.`);
}

/** `find` looks what the host has of the open book; `save` brings it what was typed. */
function finding(keeping: Keeping): Record<"find" | "save", () => Promise<void>> {
  const { given, store, set } = keeping;
  const isOpen = (book: string): boolean => store.getState().draft?.book === book;

  const compare = async (book: string, draft: Draft | undefined): Promise<void> => {
    const was = given.made(store.getState().key);
    const from = was?.book === book && was.version > 0 ? was.version : undefined;
    const base = await baseOf(given, draft, from);
    if (!isOpen(book)) return;
    store.setState({ failures: 0 });
    set({ others: othersIn(given, draft?.open ?? []) });
    if (draft === undefined) {
      set({ version: 0, base: "", is: "none" });
      if (was?.book === book && was.typed) await save();
    } else if (given.text() === draft.text) noteVersion(keeping, draft.version, draft.text);
    else if (base === undefined || from === undefined) set({ is: "apart", theirs: draft });
    else {
      set({ version: from, base, is: "keeping" });
      if (given.text() === base) bringIn(keeping, draft);
      else await save();
    }
  };
  const find = async (): Promise<void> => {
    const book = store.getState().draft?.book;
    if (book === undefined) return;
    try {
      await compare(book, await draftOf(given, book));
    } catch (cause) {
      if (isOpen(book)) failed(keeping, cause, find);
    }
  };
  const save = saving(keeping);
  return { find, save };
}

/** Undefined where the host has none. */
const draftOf = (given: KeepWith, book: string): Promise<Draft | undefined> =>
  given.client.draft(book).catch((cause: unknown) => {
    if (cause instanceof HostRefusal && cause.status === 404) return undefined;
    throw cause;
  });

/** The text of the version that the book here was made from; undefined where the host does not have it. */
async function baseOf(
  { client }: KeepWith,
  draft: Draft | undefined,
  from: number | undefined,
): Promise<string | undefined> {
  if (draft === undefined || from === undefined || from > draft.version) return undefined;
  return from === draft.version ? draft.text : client.draftVersion(draft.book, from);
}

/** One save at a time; what was typed meanwhile, and what a merge made, is saved behind it. */
function saving(keeping: Keeping): () => Promise<void> {
  const { given, store, set } = keeping;
  let running = false;

  /** True where there is more to save. */
  const saveOnce = async ({ book, version, base }: DraftState, mine: string): Promise<boolean> => {
    const answer = await given.client.saveDraft(book, { base: version, text: mine, device: given.device });
    if (store.getState().draft?.book !== book) return false;
    store.setState({ failures: 0 });
    if ("saved" in answer) {
      noteVersion(keeping, answer.saved.version, mine);
      return given.text() !== mine;
    }
    const { theirs } = answer.conflict;
    const merged = mergeTexts(base, given.text(), theirs.text);
    if (merged.clashes.length > 0) {
      set({ is: "clash", theirs });
      return false;
    }
    set({ version: theirs.version, base: theirs.text });
    given.take(merged.text);
    noteVersion(keeping, theirs.version, theirs.text);
    given.tell(`${capitalise(theirs.who)} saved ${book} in between. Both changes stand here now.`);
    return true;
  };
  const save = async (): Promise<void> => {
    const { draft } = store.getState();
    if (running || draft === undefined || ["apart", "clash", "refused"].includes(draft.is)) return;
    const mine = given.text();
    if (draft.version > 0 && mine === draft.base) {
      noteVersion(keeping, draft.version, draft.base);
      return;
    }
    running = true;
    set({ is: "keeping" });
    let more = false;
    try {
      more = await saveOnce(draft, mine);
    } catch (cause) {
      if (store.getState().draft?.book === draft.book) failed(keeping, cause, save);
    } finally {
      running = false;
    }
    if (more) await save();
  };
  return save;
}

/** What was typed is saved once typing pauses; until the host is known it is noted in the browser. */
function typed(keeping: Keeping, find: () => Promise<void>, save: () => Promise<void>): void {
  const { given, store, set, soon } = keeping;
  const { key, draft } = store.getState();
  const { rest = usualRest } = given;
  if (draft === undefined || draft.is === "apart" || draft.is === "clash") return;
  const { is, book, version } = draft;
  // What it was made from is still to be found, or may be: the note of it stays.
  if (is === "opening" || is === "signed-out" || (is === "waiting" && version === 0)) {
    const was = given.made(key);
    given.setMade(key, { book, version: was?.book === book ? was.version : 0, typed: true });
    // Someone may have signed in again in another tab.
    if (is === "signed-out") soon(find, rest);
    return;
  }
  if (version > 0 && given.text() === draft.base && is === "kept") return;
  given.setMade(key, { book, version, typed: true });
  if (is === "waiting") return;
  set({ is: "keeping" });
  soon(save, rest);
}

/** Milliseconds for which typing pauses before it is saved, where nothing else is given. */
const usualRest = 900;

/** What happened to this draft on the host. */
function hear(
  keeping: Keeping,
  event: HostEvent,
  find: () => Promise<void>,
  save: () => Promise<void>,
): void {
  const { given, store, set, soon } = keeping;
  const { draft } = store.getState();
  if (draft === undefined) return;
  if (event.is === "open" && event.book === draft.book) set({ others: othersIn(given, event.people) });
  if (event.is === "anew") void find();
  if (draft.is === "signed-out" || event.is !== "draft" || event.book !== draft.book) return;
  if (event.device === given.device || event.version <= draft.version) return;
  const isApart = ({ is }: DraftState): boolean => is === "clash" || is === "apart";
  const isUntouched = ({ is, base }: DraftState): boolean => is === "kept" && given.text() === base;
  if (isApart(draft))
    void newest(keeping, (theirs, now) => {
      if (isApart(now)) set({ theirs });
    });
  else if (isUntouched(draft))
    void newest(keeping, (theirs, now) => {
      if (theirs.version <= now.version) return;
      if (isUntouched(now)) bringIn(keeping, theirs);
      else soon(save, 0);
    });
  else soon(save, given.rest ?? usualRest);
}

async function newest(
  { given, store }: Keeping,
  then: (theirs: Draft, now: DraftState) => void,
): Promise<void> {
  const book = store.getState().draft?.book;
  if (book === undefined) return;
  try {
    const theirs = await given.client.draft(book);
    const now = store.getState().draft;
    if (now?.book === book) then(theirs, now);
  } catch {
    /* It is asked again with the next save. */
  }
}

/**
 * From now on this book is made from the other's version; `text` replaces what is here, where it is given.
 */
function takeUp(keeping: Keeping, save: () => Promise<void>, text: string | undefined): void {
  const theirs = keeping.store.getState().draft?.theirs;
  if (theirs === undefined) return;
  keeping.set({ is: "keeping", version: theirs.version, base: theirs.text });
  if (text !== undefined) keeping.given.take(text);
  noteVersion(keeping, theirs.version, theirs.text);
  keeping.soon(save, 0);
}

const othersIn = ({ device }: KeepWith, people: readonly OpenBy[]): readonly OpenBy[] =>
  people.filter((one) => one.device !== device);

/** A name as the first word of a sentence. */
