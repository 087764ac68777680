// The bench's way to a weighing: one at a time, the last wish wins, and a worker that failed is told and put
// away.
import type { RuleChangeView, ComparisonView } from "../../../core/view.ts";
import type { WeighCall, WeighWish, WeighWord } from "./compare-portions.ts";

export interface ComparisonState {
  readonly wish?: WeighWish;
  readonly rules?: readonly RuleChangeView[];
  readonly view?: ComparisonView;
  readonly running: boolean;
  readonly trouble?: string;
}

export interface Comparer {
  state(): ComparisonState;
  subscribe(listener: () => void): () => void;
  /**
   * Weighs this pair; the same pair again goes on where it was left off, and changes nothing once all is
   * weighed.
   */
  weigh(wish: WeighWish): void;
  /** Leaves off; what is weighed so far stays. */
  stop(): void;
}

export function startComparer(makeWorker: () => Worker): Comparer {
  let state: ComparisonState = { running: false };
  const listeners = new Set<() => void>();
  let worker: Worker | undefined;
  let last = 0;
  const set = (next: ComparisonState): void => {
    state = next;
    for (const listener of listeners) listener();
  };
  const open = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<WeighWord>) => {
      const { id, rules, view, from, running } = event.data;
      if (id === last)
        set({
          ...state,
          rules,
          ...(view === undefined
            ? {}
            : { view: { ...view, moved: [...(state.view?.moved.slice(0, from) ?? []), ...view.moved] } }),
          running,
        });
    };
    made.onerror = (event) => {
      worker?.terminate();
      worker = undefined;
      set({ ...state, running: false, trouble: event.message || "The weighing broke off." });
    };
    return made;
  };
  const send = (call: WeighCall): void => {
    worker ??= open();
    worker.postMessage(call);
  };
  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    weigh: (wish) => {
      if (state.wish !== undefined && state.trouble === undefined && sameWish(state.wish, wish)) {
        if (state.running || state.view?.done === true) return;
        set({ ...state, running: true });
        send({ does: "go on" });
        return;
      }
      last += 1;
      set({ wish, running: true });
      send({ does: "weigh", id: last, wish });
    },
    stop: () => {
      if (state.running) send({ does: "stop" });
    },
  };
}

function sameWish(a: WeighWish, b: WeighWish): boolean {
  if (
    a.before !== b.before ||
    a.after !== b.after ||
    a.spread !== b.spread ||
    a.logged.length !== b.logged.length
  )
    return false;
  // Thousands of jobs of a log are mostly the very same objects: those are not written out to be compared.
  return a.logged.every((job, i) => {
    const other = b.logged[i]!;
    return (
      job === other ||
      (job.name === other.name &&
        (job.answers === other.answers || JSON.stringify(job.answers) === JSON.stringify(other.answers)))
    );
  });
}
