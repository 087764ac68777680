// Proving by itself: while the standing is looked at, or the lead wants it kept up, the newest text is proved
// once typing rests.
import { useEffect, useSyncExternalStore } from "react";
import type { Prover, ProvingState } from "../../client/engine/proof-client.ts";

/** Typing rests for so long before its text is proved, in milliseconds. */
const afterTyping = 500;

/** `text` is the text as read by the engine; undefined while none is. */
export function useProving(
  prover: Prover,
  text: string | undefined,
  looked: boolean,
  shelf?: readonly string[],
): ProvingState {
  const state = useSyncExternalStore(prover.subscribe, prover.state);
  const wanted = text !== undefined && (looked || state.keep);
  useEffect(() => {
    if (!wanted || text === undefined) {
      prover.rest();
      return undefined;
    }
    const clock = setTimeout(
      () => prover.prove(text, shelf),
      prover.state().standing === undefined ? 0 : afterTyping,
    );
    return () => clearTimeout(clock);
  }, [prover, text, wanted, shelf]);
  return state;
}
