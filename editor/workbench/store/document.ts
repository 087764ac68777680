// The state of the bench, apart from what draws it: one book text with its two faces, the jobs laid
// alongside, what is chosen, what has changed since it was accepted. Every change goes through `change`, so
// undo and keeping miss nothing.
import { dependenciesOf } from "../../../engine/index.ts";
import type { TextEdit } from "../../../core/span.ts";
import { applyEdits } from "../../../core/span.ts";
import type { Answers, UnitSystem } from "../../../core/view.ts";
import type { AsyncEngine, EngineClient } from "../../client/engine/client.ts";
import type { Snapshot, StatementEdit } from "../../client/engine/messages.ts";
import { noHistory, record, redo, undo } from "./history.ts";
import type { BrowserStorage, KeptBook } from "../../client/storage/browser-storage.ts";
import { writeLateNote } from "../../client/storage/browser-storage.ts";
import { holdBook } from "./one-tab.ts";
import type { Hold } from "./one-tab.ts";
import type { Document, History, JobTag } from "../../client/storage/stored-work.ts";

/** A place in the sheet: a row, and one of its three own columns or a job's. */
export interface Place {
  readonly row: string;
  readonly column: "name" | "rule" | "basis" | { readonly job: string };
}

export interface WorkbenchState {
  /** Under which the book is kept; "" before one is open. */
  readonly key: string;
  readonly desk: Document;
  readonly history: History;
  readonly units: UnitSystem;
  readonly snapshot?: Snapshot;
  readonly chosen?: Place;
  /** The working-out has not answered for a while. */
  readonly slow: boolean;
  readonly kept: "kept" | "keeping" | "not kept";
  /** False while another tab writes this book. */
  readonly mine: boolean;
  readonly notices: readonly Notice[];
  readonly books: readonly { readonly key: string; readonly title: string; readonly at: number }[];
  /** A book just opened for the first time: its first jobs are still to be laid alongside. */
  readonly bare: boolean;
  /**
   * Texts of the books that this one may stand on; absent until they are fetched, for a book that names no
   * other.
   */
  readonly shelf?: readonly string[];
}

interface Notice {
  readonly id: number;
  readonly weight: "plain" | "trouble";
  readonly says: string;
}

export interface WorkbenchStore {
  state(): WorkbenchState;
  subscribe(listener: () => void): () => void;
  open(key: string): Promise<boolean>;
  /** Opens a text as a book of its own, under a free name made of `wish`. */
  openText(text: string, wish: string): Promise<void>;
  drop(key: string): Promise<void>;
  /** The text of another book kept in this browser. */
  textOf(key: string): Promise<string | undefined>;
  /** The same as it was last accepted. */
  acceptedOf(key: string): Promise<string | undefined>;
  setText(text: string, group?: string): void;
  /** Text, accepted text and jobs in one step. */
  setDesk(desk: Document): void;
  edit(edits: readonly TextEdit[], group?: string): void;
  /** Asks the engine for the edits of a statement edit and makes them; false if the engine had none. */
  statement(edit: StatementEdit): Promise<boolean>;
  setJobs(jobs: readonly JobTag[], group?: string): void;
  setAnswers(answers: readonly { readonly job: string; readonly ask: string; readonly text: string }[]): void;
  /** The first jobs of a book just opened; no step of the history. */
  layFirst(jobs: readonly JobTag[]): void;
  /** The job whose card is on the screen: more is worked for it. */
  setCard(job: string | undefined): void;
  /** The snapshot of the text as it stands now; undefined if the engine gives none in time. */
  fresh(): Promise<Snapshot | undefined>;
  accept(): void;
  /** Puts the text back to how it stood when last accepted. */
  putBack(): void;
  undo(): void;
  redo(): void;
  setUnits(units: UnitSystem): void;
  choose(place: Place | undefined): void;
  tell(says: string, weight?: Notice["weight"]): void;
  dismiss(id: number): void;
  takeOver(): Promise<void>;
  ask<Answer>(question: (engine: AsyncEngine) => Promise<Answer>): Promise<Answer | undefined>;
  /** Keeps at once what is not kept yet. */
  flush(): Promise<void>;
  /** For the page's last moment: writes without waiting. */
  lastMoment(): void;
}

/** Typing is kept this long after it pauses, in milliseconds. */
const keepAfter = 250;
const slowAfter = 1000;

export function createWorkbenchStore(
  storage: BrowserStorage | undefined,
  start: (listener: {
    snapshot(s: Snapshot): void;
    busy(b: boolean): void;
    trouble(says: string): void;
  }) => EngineClient,
  atHand: (text: string) => Promise<readonly string[]> = () => Promise.resolve([]),
): WorkbenchStore {
  let state: WorkbenchState = {
    key: "",
    desk: { text: "", accepted: "", jobs: [] },
    history: noHistory,
    units: "book",
    slow: false,
    kept: "kept",
    mine: true,
    notices: [],
    books: [],
    bare: false,
  };
  const listeners = new Set<() => void>();
  let hold: Hold | undefined;
  let keepClock: ReturnType<typeof setTimeout> | undefined;
  let slowClock: ReturnType<typeof setTimeout> | undefined;
  let lastNotice = 0;
  let card: string | undefined;

  const set = (part: Partial<WorkbenchState>): void => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };
  const tell = (says: string, weight: Notice["weight"] = "plain"): void => {
    if (state.notices.some((notice) => notice.says === says)) return;
    lastNotice += 1;
    // A plain word gives way to the next one; trouble stays until it is closed.
    set({
      notices: [
        ...state.notices.filter((notice) => notice.weight === "trouble").slice(-2),
        { id: lastNotice, weight, says },
      ],
    });
  };

  const engine = start({
    snapshot: (snapshot) => set({ snapshot }),
    busy: (busy) => {
      clearTimeout(slowClock);
      if (busy) slowClock = setTimeout(() => set({ slow: true }), slowAfter);
      else if (state.slow) set({ slow: false });
    },
    trouble: (says) => tell(says, "trouble"),
  });

  // The shelf is fetched once for each book that is opened; until it is there a text that names others is not
  // worked.
  let fetching: string | undefined;
  const fetchShelf = (): void => {
    const { key, desk: document } = state;
    if (fetching === key) return;
    fetching = key;
    void atHand(document.text)
      .catch(() => [])
      .then((shelf) => {
        if (fetching !== key || state.key !== key) return;
        fetching = undefined;
        set({ shelf });
        work();
      });
  };
  const work = (): void => {
    const dependsOnOthers = (text: string): boolean => dependenciesOf(text).length > 0;
    if (state.shelf === undefined && [state.desk.text, state.desk.accepted].some(dependsOnOthers))
      fetchShelf();
    else wish();
  };
  const wish = (): void =>
    engine.show({
      text: state.desk.text,
      accepted: state.desk.accepted,
      jobs: state.desk.jobs.map(({ id, answers }) => ({ id, answers })),
      units: state.units,
      ...(card === undefined ? {} : { card }),
      ...(state.shelf === undefined ? {} : { shelf: state.shelf }),
    });

  const asKept = (): KeptBook => ({
    key: state.key,
    title: state.snapshot?.title || state.key,
    ...state.desk,
    units: state.units,
    history: state.history,
    at: Date.now(),
  });
  const keepSoon = (): void => {
    if (!storage || !state.key || !state.mine) return;
    if (state.kept !== "keeping") set({ kept: "keeping" });
    clearTimeout(keepClock);
    keepClock = setTimeout(() => void flush(), keepAfter);
  };
  const flush = async (): Promise<void> => {
    clearTimeout(keepClock);
    if (!storage || !state.key || state.kept === "kept") return;
    const book = asKept();
    try {
      await storage.putBook(book);
      if (state.desk.text === book.text && state.desk.jobs === book.jobs && state.key === book.key)
        set({ kept: "kept" });
    } catch {
      set({ kept: "not kept" });
      tell("The browser could not keep this book. Save it to a file before you close the page.", "trouble");
    }
  };

  const change = (desk: Document, group?: string): void => {
    if (!state.mine) {
      tell("This book is being edited in another tab. Use it here first.", "trouble");
      return;
    }
    const history = record(state.history, state.desk, desk, Date.now(), group);
    if (history === state.history) return;
    set({ desk, history });
    work();
    keepSoon();
  };
  const travel = (to: { history: History; desk: Document } | undefined): void => {
    if (!to || !state.mine) return;
    set(to);
    work();
    keepSoon();
  };
  const show = async (book: KeptBook): Promise<void> => {
    await flush();
    hold?.letGo();
    set({
      key: book.key,
      desk: { text: book.text, accepted: book.accepted, jobs: book.jobs },
      history: book.history,
      units: book.units,
      chosen: undefined,
      snapshot: undefined,
      shelf: undefined,
      kept: "kept",
      mine: true,
      bare: false,
    });
    hold = holdBook(
      book.key,
      (mine) => {
        if (mine !== state.mine) set({ mine });
      },
      flush,
    );
    work();
    await storage?.setLastKey(book.key);
  };
  const listBooks = async (): Promise<void> => {
    if (storage) set({ books: await storage.books() });
  };

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    open: async (key) => {
      const book = await storage?.book(key);
      if (!book) return false;
      await show(book);
      await listBooks();
      return true;
    },
    openText: async (text, wish) => {
      const taken = new Set(((await storage?.books()) ?? []).map((book) => book.key));
      let key = wish;
      for (let n = 2; taken.has(key); n += 1) key = `${wish} (${n})`;
      const book: KeptBook = {
        key,
        title: wish,
        text,
        accepted: text,
        jobs: [],
        units: "book",
        history: noHistory,
        at: Date.now(),
      };
      await show(book);
      set({ bare: true });
      try {
        await storage?.putBook(book);
      } catch {
        set({ kept: "not kept" });
      }
      await listBooks();
    },
    drop: async (key) => {
      await storage?.dropBook(key);
      await listBooks();
    },
    textOf: async (key) => (await storage?.book(key))?.text,
    acceptedOf: async (key) => (await storage?.book(key))?.accepted,
    setText: (text, group) => change({ ...state.desk, text }, group),
    setDesk: (desk) => change(desk),
    edit: (edits, group) => {
      if (edits.some((edit) => edit.at.end > state.desk.text.length)) {
        tell("That stands in a book underneath. To change it here, write instead and the statement anew.");
        return;
      }
      if (edits.length > 0) change({ ...state.desk, text: applyEdits(state.desk.text, edits) }, group);
    },
    statement: async (edit) => {
      const { text } = state.desk;
      const edits = await engine.ask((to) => to.edit(text, edit));
      if (!edits || edits.length === 0 || state.desk.text !== text) return false;
      change({ ...state.desk, text: applyEdits(text, edits) });
      return true;
    },
    setJobs: (jobs, group) => change({ ...state.desk, jobs }, group),
    setAnswers: (answers) => {
      const jobs = state.desk.jobs.map((one) => {
        const given = answers.filter(
          ({ job, ask, text }) => job === one.id && (one.answers[ask] ?? "") !== text.trim(),
        );
        return given.length === 0
          ? one
          : { ...one, answers: given.reduce((so, { ask, text }) => withAnswer(so, ask, text), one.answers) };
      });
      if (jobs.some((job, place) => job !== state.desk.jobs[place])) change({ ...state.desk, jobs });
    },
    layFirst: (jobs) => {
      set({ desk: { ...state.desk, jobs }, bare: false });
      work();
      keepSoon();
    },
    setCard: (job) => {
      if (job !== card) {
        card = job;
        work();
      }
    },
    fresh: () =>
      new Promise((resolve) => {
        const isFresh = (): boolean =>
          state.snapshot !== undefined && state.snapshot.text === state.desk.text;
        if (isFresh()) {
          resolve(state.snapshot);
          return;
        }
        const end = (): void => {
          clearTimeout(clock);
          listeners.delete(look);
          resolve(isFresh() ? state.snapshot : undefined);
        };
        const look = (): void => {
          if (isFresh()) end();
        };
        const clock = setTimeout(end, 6000);
        listeners.add(look);
      }),
    accept: () => change({ ...state.desk, accepted: state.desk.text }),
    putBack: () => change({ ...state.desk, text: state.desk.accepted }),
    undo: () => travel(undo(state.history, state.desk)),
    redo: () => travel(redo(state.history, state.desk)),
    setUnits: (units) => {
      set({ units });
      work();
      keepSoon();
    },
    choose: (chosen) => set({ chosen }),
    tell,
    dismiss: (id) => set({ notices: state.notices.filter((notice) => notice.id !== id) }),
    takeOver: async () => {
      const { key } = state;
      await hold?.takeOver();
      const book = await storage?.book(key);
      if (!book || state.key !== key) return;
      set({
        desk: { text: book.text, accepted: book.accepted, jobs: book.jobs },
        history: book.history,
        mine: true,
      });
      work();
    },
    ask: (question) => engine.ask(question),
    flush,
    lastMoment: () => {
      if (state.key && state.mine && state.kept !== "kept") writeLateNote(asKept());
      void flush();
    },
  };
}

/** An empty answer takes the answer away. */
function withAnswer(answers: Answers, ask: string, text: string): Answers {
  const rest = Object.fromEntries(Object.entries(answers).filter(([name]) => name !== ask));
  return text.trim() === "" ? rest : { ...answers, [ask]: text.trim() };
}
