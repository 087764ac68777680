// The workbench's way to the long proofs: first what is proved of the book, then how its examples guard it.
// Each has a worker of its own, so that what is proved already outlives a guard that is ended in the middle
// of a change.
import type { StoreApi } from "zustand/vanilla";
import { createStore } from "zustand/vanilla";
import type { MutationTestView, VerificationView } from "../../../core/view.ts";
import type { ProofWish, ProofWord, Proving } from "./proof-messages.ts";

export interface ProvingState {
  /** The last standing, which may be of an older text; absent until the first report. */
  readonly standing?: Proving<VerificationView>;
  readonly guard?: Proving<MutationTestView>;
  /** The text that shall be proved; absent while nothing is wanted. */
  readonly wanted?: string;
  /** The text at which a person pressed Stop: it is not taken up again by itself. */
  readonly stopped?: string;
  /** Prove on after every edit, also while the standing is not looked at. */
  readonly keep: boolean;
  /** The worker failed on this text. */
  readonly trouble?: string;
}

export interface Prover {
  state(): ProvingState;
  subscribe(listener: () => void): () => void;
  /**
   * Proves this text from now on, unless it was stopped by hand; the same text again goes on where it was.
   */
  prove(text: string, shelf?: readonly string[]): void;
  /** Leaves off without blame: the next `prove` goes on. */
  rest(): void;
  stop(): void;
  goOn(): void;
  setKeep(keep: boolean): void;
}

export function makeProver(makeWorker: () => Worker): Prover {
  const store = createStore<ProvingState>()(() => ({ keep: false }));
  const { begin, leaveOff, setShelf } = proving(store, makeWorker);
  return {
    state: store.getState,
    subscribe: store.subscribe,
    prove: (text, shelf = []) => {
      setShelf(shelf);
      const { wanted, stopped } = store.getState();
      if (text !== wanted && text !== stopped) begin(text);
    },
    rest: () => {
      if (store.getState().wanted === undefined) return;
      store.setState({ wanted: undefined });
      leaveOff();
    },
    stop: () => {
      store.setState(({ wanted }) => ({ stopped: wanted, wanted: undefined }));
      leaveOff();
    },
    goOn: () => {
      const { stopped, wanted } = store.getState();
      const text = stopped ?? wanted;
      if (text !== undefined) begin(text);
    },
    setKeep: (keep) => store.setState({ keep }),
  };
}

/** The two workers and what they report. */
function proving(store: StoreApi<ProvingState>, makeWorker: () => Worker) {
  let forStanding: Worker | undefined;
  let forGuard: Worker | undefined;
  /** The books that the text may depend on. */
  let shelf: readonly string[] = [];

  const open = (): Worker => {
    const worker = makeWorker();
    worker.onmessage = (event: MessageEvent<ProofWord>) => hear(event.data);
    worker.onerror = (event) => store.setState({ trouble: event.message || "The proof broke off." });
    return worker;
  };
  const hear = (word: ProofWord): void => {
    const { text, running } = word;
    const { wanted, stopped } = store.getState();
    switch (word.is) {
      case "standing":
        if (text !== wanted && running) return;
        store.setState({ standing: { text, view: word.view, running } });
        // The guard takes far longer and works on the same two cores: it waits its turn.
        if (word.view.done && text === wanted && text !== stopped) guard(text);
        return;
      case "guard":
        if (text === wanted || !running) store.setState({ guard: { text, view: word.view, running } });
        return;
    }
  };
  const send = (worker: Worker, what: "standing" | "guard", text: string): void =>
    post(worker, { does: "prove", what, text, ...(shelf.length > 0 ? { shelf } : {}) });
  const guard = (text: string): void => {
    const done = store.getState().guard;
    if (done?.text === text && done.view.done) return;
    forGuard ??= open();
    send(forGuard, "guard", text);
  };

  return {
    setShelf: (at: readonly string[]): void => {
      shelf = at;
    },
    leaveOff: (): void => {
      if (forStanding) post(forStanding, { does: "stop" });
      if (forGuard) post(forGuard, { does: "stop" });
    },
    begin: (text: string): void => {
      const state = store.getState();
      // One change of the guard can take seconds, in which it hears nothing: a guard of another text is
      // ended.
      if (state.guard !== undefined && state.guard.text !== text) {
        forGuard?.terminate();
        forGuard = undefined;
      }
      store.setState({ wanted: text, stopped: undefined, trouble: undefined });
      if (state.standing?.text === text && state.standing.view.done) {
        guard(text);
        return;
      }
      forStanding ??= open();
      send(forStanding, "standing", text);
    },
  };
}

const post = (worker: Worker, wish: ProofWish): void => worker.postMessage(wish);
