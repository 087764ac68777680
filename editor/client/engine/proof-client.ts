// The bench's way to the long proofs: first how the book stands, then how its examples guard it. Each has a
// worker of its own, so that what is proved already outlives a guard that is put away in the middle of a
// change.
import type { MutationTestView, VerificationView } from "../../../core/view.ts";
import type { ProofWish, ProofWord, Proving } from "./proof-messages.ts";

export interface ProvingState {
  /** The last standing, which may be of an older text; absent until the first is told. */
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
  let state: ProvingState = { keep: false };
  const listeners = new Set<() => void>();
  let forStanding: Worker | undefined;
  let forGuard: Worker | undefined;
  /** The books that the text may stand on. */
  let shelf: readonly string[] = [];

  const set = (part: Partial<ProvingState>): void => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };
  const open = (): Worker => {
    const worker = makeWorker();
    worker.onmessage = (event: MessageEvent<ProofWord>) => hear(event.data);
    worker.onerror = (event) => {
      set({ trouble: event.message || "The proof broke off." });
    };
    return worker;
  };
  const hear = (word: ProofWord): void => {
    const { text, running } = word;
    switch (word.is) {
      case "standing":
        if (text !== state.wanted && running) return;
        set({ standing: { text, view: word.view, running } });
        // The guard takes far longer and works on the same two hands: it waits its turn.
        if (word.view.done && text === state.wanted && text !== state.stopped) guard(text);
        return;
      case "guard":
        if (text === state.wanted || !running) set({ guard: { text, view: word.view, running } });
        return;
    }
  };
  const guard = (text: string): void => {
    if (state.guard?.text === text && state.guard.view.done) return;
    forGuard ??= open();
    send(forGuard, { does: "prove", what: "guard", text, ...(shelf.length > 0 ? { shelf } : {}) });
  };
  const leaveOff = (): void => {
    if (forStanding) send(forStanding, { does: "stop" });
    // One change of the guard can take seconds, in which it hears nothing: a guard of another text is put
    // away.
    if (forGuard) send(forGuard, { does: "stop" });
  };
  const begin = (text: string): void => {
    if (state.guard !== undefined && state.guard.text !== text) {
      forGuard?.terminate();
      forGuard = undefined;
    }
    set({ wanted: text, stopped: undefined, trouble: undefined });
    if (state.standing?.text === text && state.standing.view.done) {
      guard(text);
      return;
    }
    forStanding ??= open();
    send(forStanding, { does: "prove", what: "standing", text, ...(shelf.length > 0 ? { shelf } : {}) });
  };

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    prove: (text, at = []) => {
      shelf = at;
      if (text !== state.wanted && text !== state.stopped) begin(text);
    },
    rest: () => {
      if (state.wanted !== undefined) {
        set({ wanted: undefined });
        leaveOff();
      }
    },
    stop: () => {
      set({ stopped: state.wanted, wanted: undefined });
      leaveOff();
    },
    goOn: () => {
      const text = state.stopped ?? state.wanted;
      if (text !== undefined) begin(text);
    },
    setKeep: (keep) => set({ keep }),
  };
}

const send = (worker: Worker, wish: ProofWish): void => worker.postMessage(wish);
