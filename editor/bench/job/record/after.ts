// A part of the page that is fetched once the first screen stands, so that the first question never waits for it.
import { useEffect, useState } from "react";

/** What `load` brings; undefined until it is there. `load` has to be the same function every time. */
export function useLoaded<Part>(load: () => Promise<Part>): Part | undefined {
  const [part, setPart] = useState<{ readonly is: Part }>();
  useEffect(() => {
    let gone = false;
    load().then((is) => { if (!gone) setPart({ is }); }, () => undefined);
    return () => { gone = true; };
  }, [load]);
  return part?.is;
}
