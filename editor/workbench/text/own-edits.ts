// Tells a text that comes back to us (what the typist wrote, a moment later) from a
// text that somebody else wrote. Only the latter may touch the editor.

export interface Echo {
  /** Notes a text that we have just handed out. */
  gave(text: string): void;
  /** Whether an arriving text is one that we handed out; it and all older ones are then settled. */
  isEcho(text: string): boolean;
  /** Whatever comes next is somebody else's, even a text that we once had: an undo is asked for. */
  forget(): void;
}

/** More than this many texts without an answer means that nobody answers. */
const MOST_WAITING = 200;

export function openEcho(): Echo {
  let waiting: string[] = [];
  return {
    gave(text) {
      waiting.push(text);
      if (waiting.length > MOST_WAITING) waiting = waiting.slice(-MOST_WAITING);
    },
    isEcho(text) {
      const found = waiting.lastIndexOf(text);
      if (found < 0) return false;
      // The newest stays known: it may well be handed to us again with other props.
      waiting = waiting.slice(found);
      return true;
    },
    forget() {
      waiting = [];
    },
  };
}
