// Keeps the page's snapshot in step with its document: asks the engine after each change, and fetches the
// books that a text may depend on.
import type { StoreApi } from "zustand/vanilla";
import { dependenciesOf } from "../../../engine/index.ts";
import type { AsyncEngine, EngineClient, Listener } from "../../client/engine/client.ts";
import type { Outline } from "../../client/engine/messages.ts";
import type { WorkbenchState } from "./document-state.ts";
import { wantedOf } from "./document-state.ts";

export interface DocumentView {
  /** Asks for the snapshot of the document as it is. */
  refresh(): void;
  setCard(job: string | undefined): void;
  /** Rows and findings of the text as it is: at once where the page has them, else from the engine. */
  outline(): Promise<Outline | undefined>;
  /** Resolves once the snapshot is that of the text as it is, or another book is open. */
  shown(): Promise<void>;
  ask<Answer>(question: (engine: AsyncEngine) => Promise<Answer>): Promise<Answer | undefined>;
}

const slowAfter = 1000;

export interface ShowWith {
  readonly start: (listener: Listener) => EngineClient;
  /** The texts that a text may depend on. */
  readonly available: (text: string) => Promise<readonly string[]>;
  readonly trouble: (says: string) => void;
}

export function showDocument(store: StoreApi<WorkbenchState>, given: ShowWith): DocumentView {
  let card: string | undefined;
  let fetching: string | undefined;
  const { start, available, trouble } = given;
  const engine = start(listenerFor(store, trouble));
  const show = (): void => engine.show(wantedOf(store.getState(), card));

  // The shelf is fetched once for each book that is opened; until then a text that names others is not
  // worked.
  const fetchShelf = async (): Promise<void> => {
    const { key, desk } = store.getState();
    if (fetching === key) return;
    fetching = key;
    const shelf = await available(desk.text).catch(() => []);
    if (fetching !== key || store.getState().key !== key) return;
    fetching = undefined;
    store.setState({ shelf });
    refresh();
  };
  const refresh = (): void => {
    const { shelf, desk } = store.getState();
    const names = (text: string): boolean => dependenciesOf(text).length > 0;
    if (shelf === undefined && (names(desk.text) || names(desk.accepted))) void fetchShelf();
    else show();
  };

  return {
    refresh,
    setCard: (job) => {
      if (job === card) return;
      card = job;
      refresh();
    },
    outline: async () => {
      const { snapshot, desk } = store.getState();
      return snapshot?.text === desk.text ? snapshot : engine.ask((to) => to.outline(desk.text));
    },
    shown: () => shownIn(store),
    ask: engine.ask,
  };
}

function listenerFor(store: StoreApi<WorkbenchState>, trouble: (says: string) => void): Listener {
  let clock: ReturnType<typeof setTimeout> | undefined;
  return {
    snapshot: (snapshot) => store.setState({ snapshot }),
    busy: (busy) => {
      clearTimeout(clock);
      if (busy) clock = setTimeout(() => store.setState({ slow: true }), slowAfter);
      else if (store.getState().slow) store.setState({ slow: false });
    },
    trouble,
  };
}

function shownIn(store: StoreApi<WorkbenchState>): Promise<void> {
  const { key } = store.getState();
  const isShown = (state: WorkbenchState): boolean =>
    state.key !== key || state.snapshot?.text === state.desk.text;
  if (isShown(store.getState())) return Promise.resolve();
  return new Promise((resolve) => {
    const stop = store.subscribe((state) => {
      if (!isShown(state)) return;
      stop();
      resolve();
    });
  });
}
