// A value that screens read and controllers change: whoever subscribes is called after each change.

export interface Store<State> {
  get(): State;
  /** Replaces the given fields; the others keep their values. */
  set(part: Partial<State>): void;
  /** Returns the function that ends the subscription. */
  subscribe(listener: () => void): () => void;
}

export function createStore<State extends object>(first: State): Store<State> {
  let state = first;
  const listeners = new Set<() => void>();
  return {
    get: () => state,
    set: (part) => {
      state = { ...state, ...part };
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

/** Resolves as soon as the state is as wanted; at once where it is so already. */
export async function until<State>(store: Store<State>, wanted: (state: State) => boolean): Promise<void> {
  while (!wanted(store.get()))
    await new Promise<void>((resolve) => {
      const stop = store.subscribe(() => {
        stop();
        resolve();
      });
    });
}
