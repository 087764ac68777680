// The open book's draft on the shop's host: saved as it is typed, each save naming the version that it
// changed. What another person saved in between is put together with what stands here, statement by
// statement; where both changed one statement nothing is saved until a person has chosen.
import { mergeTexts } from "../../../core/merge.ts";
import type { Draft, HostEvent, OpenBy } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";

export interface DraftState {
  readonly book: string;
  /** The newest version that stands here whole; 0 while the host has none. */
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
  /** Another book is on the bench, or none that can have a draft; the same one again changes nothing. */
  open(key: string, book: string | undefined): void;
  /** The text on the bench is another one now. */
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
  /** Puts a text on the bench, as a step that can be undone. */
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

export function keepDrafts(given: KeepWith): DraftKeeper {
  const { client, device, text, take, tell, made, setMade, rest = 900 } = given;
  let key = "";
  let state: DraftState | undefined;
  let clock: ReturnType<typeof setTimeout> | undefined;
  let saving = false;
  let failures = 0;

  const set = (part: Partial<DraftState>): void => {
    if (state === undefined) return;
    const { theirs, refusal, ...old } = state;
    state = {
      ...old,
      ...(theirs !== undefined && (part.is ?? state.is) === state.is ? { theirs } : {}),
      ...(refusal !== undefined && part.is === undefined ? { refusal } : {}),
      ...part,
    };
    given.changed();
  };
  const soon = (act: () => Promise<void>, after: number): void => {
    clearTimeout(clock);
    clock = setTimeout(() => void act(), after);
  };
  /** What stands here whole, and that this book was made from it. */
  const standsOn = (version: number, base: string): void => {
    if (state === undefined) return;
    set({ version, base, is: text() === base ? "kept" : "keeping" });
    setMade(key, { book: state.book, version, typed: text() !== base });
  };
  const failed = (cause: unknown, act: () => Promise<void>): void => {
    if (cause instanceof HostRefusal && cause.status === 401) {
      set({ is: "signed-out" });
      return;
    }
    if (!(cause instanceof HostRefusal) || (cause.status > 0 && cause.status < 500)) {
      set({ is: "refused", refusal: cause instanceof Error ? cause.message : String(cause) });
      return;
    }
    failures += 1;
    set({ is: "waiting" });
    soon(act, Math.min(retryMost, retryFirst * 2 ** (failures - 1)));
  };

  const find = async (): Promise<void> => {
    const mine = state;
    if (mine === undefined) return;
    const { book } = mine;
    try {
      const draft = await client.draft(book).catch((cause: unknown) => {
        if (cause instanceof HostRefusal && cause.status === 404) return undefined;
        throw cause;
      });
      const was = made(key);
      const from = was?.book === book && was.version > 0 ? was.version : undefined;
      const base =
        draft === undefined || from === undefined || from > draft.version
          ? undefined
          : from === draft.version
            ? draft.text
            : await client.draftVersion(book, from);
      if (state?.book !== book) return;
      failures = 0;
      set({ others: othersIn(draft?.open ?? []) });
      if (draft === undefined) {
        set({ version: 0, base: "", is: "none" });
        if (was?.book === book && was.typed) await save();
      } else if (text() === draft.text) standsOn(draft.version, draft.text);
      else if (base === undefined || from === undefined) set({ is: "apart", theirs: draft });
      else {
        set({ version: from, base, is: "keeping" });
        if (text() === base) bringIn(draft);
        else await save();
      }
    } catch (cause) {
      if (state?.book === book) failed(cause, find);
    }
  };

  /** Takes over a newer version where nothing was typed here since the last. */
  const bringIn = (draft: Draft): void => {
    if (state === undefined) return;
    set({ version: draft.version, base: draft.text });
    take(draft.text);
    standsOn(draft.version, draft.text);
    tell(`${atStart(draft.who)} saved version ${draft.version} of ${draft.book}. It stands here now.`);
  };

  const save = async (): Promise<void> => {
    if (
      saving ||
      state === undefined ||
      state.is === "apart" ||
      state.is === "clash" ||
      state.is === "refused"
    )
      return;
    const { book, version, base } = state;
    const mine = text();
    if (version > 0 && mine === base) {
      standsOn(version, base);
      return;
    }
    saving = true;
    set({ is: "keeping" });
    let next: (() => Promise<void>) | undefined;
    try {
      const answer = await client.saveDraft(book, { base: version, text: mine, device });
      if (state?.book !== book) return;
      failures = 0;
      if ("saved" in answer) {
        standsOn(answer.saved.version, mine);
        if (text() !== mine) next = save;
      } else {
        const { theirs } = answer.conflict;
        const merged = mergeTexts(base, text(), theirs.text);
        if (merged.clashes.length > 0) set({ is: "clash", theirs });
        else {
          set({ version: theirs.version, base: theirs.text });
          take(merged.text);
          standsOn(theirs.version, theirs.text);
          tell(`${atStart(theirs.who)} saved ${book} in between. Both changes stand here now.`);
          next = save;
        }
      }
    } catch (cause) {
      if (state?.book === book) failed(cause, save);
    } finally {
      saving = false;
    }
    if (next !== undefined) await next();
  };

  const newest = async (then: (draft: Draft) => void): Promise<void> => {
    const book = state?.book;
    if (book === undefined) return;
    try {
      const draft = await client.draft(book);
      if (state?.book === book) then(draft);
    } catch {
      /* It is asked again with the next save. */
    }
  };
  const othersIn = (people: readonly OpenBy[]): readonly OpenBy[] =>
    people.filter((one) => one.device !== device);

  return {
    state: () => state,
    open: (to, book) => {
      if (to === key && book === state?.book) return;
      clearTimeout(clock);
      key = to;
      failures = 0;
      state = book === undefined ? undefined : { book, version: 0, is: "opening", others: [], base: "" };
      given.changed();
      if (state !== undefined) void find();
    },
    typed: () => {
      if (state === undefined || state.is === "apart" || state.is === "clash") return;
      // What it was made from is still to be found, or may be: the note of it stays.
      if (
        state.is === "opening" ||
        state.is === "signed-out" ||
        (state.is === "waiting" && state.version === 0)
      ) {
        const was = made(key);
        setMade(key, { book: state.book, version: was?.book === state.book ? was.version : 0, typed: true });
        // Someone may have signed in again in another tab.
        if (state.is === "signed-out") soon(find, rest);
        return;
      }
      if (state.version > 0 && text() === state.base && state.is === "kept") return;
      setMade(key, { book: state.book, version: state.version, typed: true });
      if (state.is === "waiting") return;
      set({ is: "keeping" });
      soon(save, rest);
    },
    hear: (event) => {
      if (state === undefined) return;
      if (event.is === "open" && event.book === state.book) set({ others: othersIn(event.people) });
      if (event.is === "anew") void find();
      if (state.is === "signed-out") return;
      if (
        event.is !== "draft" ||
        event.book !== state.book ||
        event.device === device ||
        event.version <= state.version
      )
        return;
      if (state.is === "clash" || state.is === "apart")
        void newest((draft) => {
          if (state !== undefined && (state.is === "clash" || state.is === "apart")) set({ theirs: draft });
        });
      else if (state.is === "kept" && text() === state.base)
        void newest((draft) => {
          if (state === undefined || draft.version <= state.version) return;
          if (state.is === "kept" && text() === state.base) bringIn(draft);
          else soon(save, 0);
        });
      else soon(save, rest);
    },
    settle: (settled) => {
      if (state?.theirs === undefined) return;
      const { version, text: theirs } = state.theirs;
      set({ is: "keeping", version, base: theirs });
      take(settled);
      standsOn(version, theirs);
      soon(save, 0);
    },
    goOnWith: (whose) => {
      if (state?.theirs === undefined) return;
      const { version, text: theirs } = state.theirs;
      set({ is: "keeping", version, base: theirs });
      if (whose === "theirs") take(theirs);
      standsOn(version, theirs);
      soon(save, 0);
    },
    again: () => {
      clearTimeout(clock);
      if (
        state !== undefined &&
        (state.is === "waiting" || state.is === "refused" || state.is === "signed-out")
      ) {
        if (state.is !== "signed-out") set({ is: "opening" });
        void find();
      }
    },
  };
}

/** A name as the first word of a sentence. */
const atStart = (name: string): string => name.charAt(0).toUpperCase() + name.slice(1);
