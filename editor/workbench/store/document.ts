// The workbench's store: the state apart from what draws it, and everything that the screens can do with it.
// How each of these is done stands in the files beside this one.
import { createStore } from "zustand/vanilla";
import type { UnitSystem } from "../../../core/view.ts";
import type { EngineClient, Listener } from "../../client/engine/client.ts";
import type { BrowserStorage } from "../../client/storage/browser-storage.ts";
import type { Notice, Place, WorkbenchState } from "./document-state.ts";
import { initialState, withNotice } from "./document-state.ts";
import type { DocumentEditor } from "./edit-document.ts";
import { editDocument } from "./edit-document.ts";
import type { BookKeeper } from "./keep-book.ts";
import { keepBook } from "./keep-book.ts";
import type { DocumentView } from "./show-document.ts";
import { showDocument } from "./show-document.ts";

export type { Place, WorkbenchState } from "./document-state.ts";

export interface WorkbenchStore
  extends DocumentEditor,
    Omit<BookKeeper, "keepSoon">,
    Omit<DocumentView, "refresh"> {
  state(): WorkbenchState;
  subscribe(listener: () => void): () => void;
  /** The text of another book kept in this browser. */
  textOf(key: string): Promise<string | undefined>;
  /** The same as it was last accepted. */
  acceptedOf(key: string): Promise<string | undefined>;
  setUnits(units: UnitSystem): void;
  choose(place: Place | undefined): void;
  tell(says: string, weight?: Notice["weight"]): void;
  dismiss(id: number): void;
}

/** `available` gives the texts of the books that a text may depend on. */
export function createWorkbenchStore(
  storage: BrowserStorage | undefined,
  start: (listener: Listener) => EngineClient,
  available: (text: string) => Promise<readonly string[]> = () => Promise.resolve([]),
): WorkbenchStore {
  const store = createStore<WorkbenchState>()(() => initialState);
  let lastNotice = 0;
  const tell = (says: string, weight: Notice["weight"] = "plain"): void => {
    const { notices } = store.getState();
    if (notices.some((notice) => notice.says === says)) return;
    lastNotice += 1;
    store.setState({ notices: withNotice(notices, { id: lastNotice, weight, says }) });
  };
  const trouble = (says: string): void => tell(says, "trouble");
  const { refresh, ...view } = showDocument(store, { start, available, trouble });
  const { keepSoon, ...keeper } = keepBook(store, { storage, trouble, opened: refresh });
  const changed = (): void => {
    refresh();
    keepSoon();
  };

  return {
    state: store.getState,
    subscribe: store.subscribe,
    ...view,
    ...keeper,
    ...editDocument(store, { ask: view.ask, changed, tell }),
    textOf: async (key) => (await storage?.book(key))?.text,
    acceptedOf: async (key) => (await storage?.book(key))?.accepted,
    setUnits: (units) => {
      store.setState({ units });
      changed();
    },
    choose: (chosen) => store.setState({ chosen }),
    tell,
    dismiss: (id) =>
      store.setState(({ notices }) => ({ notices: notices.filter((notice) => notice.id !== id) })),
  };
}
