// The workbench's way to a comparison of two books: one at a time, the last wish wins, and a worker that
// failed is reported and ended.
import { createStore } from "zustand/vanilla";
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
  const store = createStore<ComparisonState>()(() => ({ running: false }));
  let worker: Worker | undefined;
  let last = 0;
  const hear = ({ id, rules, view, from, running }: WeighWord): void => {
    if (id !== last) return;
    const known = store.getState().view?.moved.slice(0, from) ?? [];
    const grown = view === undefined ? {} : { view: { ...view, moved: [...known, ...view.moved] } };
    store.setState({ rules, ...grown, running });
  };
  const open = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<WeighWord>) => hear(event.data);
    made.onerror = (event) => {
      worker?.terminate();
      worker = undefined;
      store.setState({ running: false, trouble: event.message || "The weighing broke off." });
    };
    return made;
  };
  const send = (call: WeighCall): void => {
    worker ??= open();
    worker.postMessage(call);
  };
  return {
    state: store.getState,
    subscribe: store.subscribe,
    weigh: (wish) => {
      const state = store.getState();
      if (state.wish !== undefined && state.trouble === undefined && sameWish(state.wish, wish)) {
        if (state.running || state.view?.done === true) return;
        store.setState({ running: true });
        send({ does: "go on" });
        return;
      }
      last += 1;
      store.setState({ wish, running: true }, true);
      send({ does: "weigh", id: last, wish });
    },
    stop: () => {
      if (store.getState().running) send({ does: "stop" });
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
