// One tab writes a book at a time. The tab that holds the book's lock writes; another is told, and may take
// it over.

export interface Hold {
  /** Takes the book from the other tab; that tab first keeps what it has. */
  takeOver(): Promise<void>;
  letGo(): void;
}

/**
 * Asks to be the one tab that writes this book. `tell(true)` when this tab writes, `tell(false)` when another
 * does; `flush` is called before the book goes to another tab.
 */
export function holdBook(key: string, tell: (mine: boolean) => void, flush: () => Promise<void>): Hold {
  const name = `bevelbook ${key}`;
  const talk = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel(name);
  let release: (() => void) | undefined;
  let over = false;

  const hold = async (how: LockOptions): Promise<void> => {
    if (!navigator.locks) {
      tell(true);
      return;
    }
    try {
      await navigator.locks.request(name, how, async (lock) => {
        if (over) return;
        if (!lock) {
          tell(false);
          return;
        }
        tell(true);
        await new Promise<void>((resolve) => {
          release = resolve;
        });
      });
    } catch {
      // The lock was taken over by another tab.
      if (!over) tell(false);
    }
  };

  talk?.addEventListener("message", (event: MessageEvent<unknown>) => {
    if (event.data === "keep it now" && release) void flush().then(() => talk.postMessage("kept"));
  });

  void hold({ ifAvailable: true });
  return {
    takeOver: async () => {
      await new Promise<void>((resolve) => {
        talk?.addEventListener("message", (event: MessageEvent<unknown>) => {
          if (event.data === "kept") resolve();
        });
        talk?.postMessage("keep it now");
        setTimeout(resolve, 600);
      });
      void hold({ steal: true });
    },
    letGo: () => {
      over = true;
      release?.();
      talk?.close();
    },
  };
}
