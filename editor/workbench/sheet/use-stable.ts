// A function for rows that are drawn again only when what they are given changes.
import { useCallback, useRef } from "react";

/** A function that keeps its identity while doing what the last drawing says. */
export function useStable<Arguments extends unknown[], Answer>(
  act: (...given: Arguments) => Answer,
): (...given: Arguments) => Answer {
  const latest = useRef(act);
  latest.current = act;
  return useCallback((...given: Arguments) => latest.current(...given), []);
}
