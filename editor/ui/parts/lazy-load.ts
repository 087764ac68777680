// A part of the page that is fetched once the first screen stands, so that the first question never waits for
// it.
import { useEffect, useState } from "react";

/** What has come already, so that whoever asks later has it at once. */
const come = new Map<() => Promise<unknown>, unknown>();

/**
 * What `load` brings; undefined until it is there. `load` has to be the same function every time. Nothing is
 * fetched as long as `due` is false.
 */
export function useLoaded<Part>(load: () => Promise<Part>, due = true): Part | undefined {
  const [part, setPart] = useState(come.get(load) as Part | undefined);
  useEffect(() => {
    if (!due || part !== undefined) return undefined;
    let gone = false;
    load().then(
      (is) => {
        come.set(load, is);
        if (!gone) setPart(() => is);
      },
      () => undefined,
    );
    return () => {
      gone = true;
    };
  }, [load, due, part]);
  return part;
}
