// The bench's way to a weighing: one at a time, the last wish wins, and a worker that failed is told and put away.
import type { RuleChangeView, WeighView } from "../../../core/view.ts";
import type { WeighCall, WeighWish, WeighWord } from "./weigh-portions.ts";

export interface WeighState {
  readonly wish?: WeighWish;
  readonly rules?: readonly RuleChangeView[];
  readonly view?: WeighView;
  readonly running: boolean;
  readonly trouble?: string;
}

export interface Weigher {
  state(): WeighState;
  subscribe(listener: () => void): () => void;
  /** Weighs this pair; the same pair again changes nothing. */
  weigh(wish: WeighWish): void;
  /** Leaves off; what is weighed so far stays. */
  stop(): void;
}

export function makeWeigher(makeWorker: () => Worker): Weigher {
  let state: WeighState = { running: false };
  const listeners = new Set<() => void>();
  let worker: Worker | undefined;
  let last = 0;
  const set = (next: WeighState): void => { state = next; for (const listener of listeners) listener(); };
  const open = (): Worker => {
    const made = makeWorker();
    made.onmessage = (event: MessageEvent<WeighWord>) => {
      const { id, rules, view, running } = event.data;
      if (id === last) set({ ...state, rules, ...(view === undefined ? {} : { view }), running });
    };
    made.onerror = (event) => { worker?.terminate(); worker = undefined; set({ ...state, running: false, trouble: event.message || "The weighing broke off." }); };
    return made;
  };
  const send = (call: WeighCall): void => { worker ??= open(); worker.postMessage(call); };
  return {
    state: () => state,
    subscribe: (listener) => { listeners.add(listener); return () => listeners.delete(listener); },
    weigh: (wish) => {
      const now = state.wish;
      if (now !== undefined && state.trouble === undefined && now.before === wish.before && now.after === wish.after && now.spread === wish.spread && JSON.stringify(now.logged) === JSON.stringify(wish.logged)) return;
      last += 1;
      set({ wish, running: true });
      send({ does: "weigh", id: last, wish });
    },
    stop: () => { if (state.running) send({ does: "stop" }); },
  };
}
