// A callback that keeps its identity and always runs the newest version of what it was given. Effects may
// depend on it without running again, and memoised rows are not drawn again because of it.
import { useCallback, useRef } from "react";

/** A stable function that runs the `act` of the latest render. */
export function useEvent<Arguments extends unknown[], Answer>(
  act: (...given: Arguments) => Answer,
): (...given: Arguments) => Answer {
  const latest = useRef(act);
  latest.current = act;
  return useCallback((...given: Arguments) => latest.current(...given), []);
}
