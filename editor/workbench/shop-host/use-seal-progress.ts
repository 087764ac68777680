// How far the host is while it proves a book that is being sealed.
import { useEffect, useState } from "react";
import type { SealProgress } from "../../../core/schemas/host.ts";
import type { HostClient } from "../../client/storage/host-client.ts";

/** Milliseconds between two questions to the host. */
const every = 500;

/** Asks the host while `sealing`; undefined before its first word. */
export function useSealProgress(
  client: HostClient,
  book: string,
  sealing: boolean,
): SealProgress | undefined {
  const [progress, setProgress] = useState<SealProgress>();
  useEffect(() => {
    if (!sealing) return undefined;
    let over = false;
    let clock: ReturnType<typeof setTimeout> | undefined;
    const look = async (): Promise<void> => {
      // A host that does not answer now says so to the sealing itself.
      const said = await client.sealProgress(book).catch(() => undefined);
      if (over) return;
      if (said !== undefined) setProgress(said);
      clock = setTimeout(() => void look(), every);
    };
    clock = setTimeout(() => void look(), every);
    return () => {
      over = true;
      clearTimeout(clock);
      setProgress(undefined);
    };
  }, [client, book, sealing]);
  return progress;
}
