// Brings newly sealed editions to a tablet as they are sealed. Silent where the pages come from a place
// without a host.
import type { HostClient } from "../../client/storage/host-client.ts";
import { HostRefusal, hostClient } from "../../client/storage/host-client.ts";
import type { Sealed, SealedBook } from "./sealed-books.ts";

const askAgain = 60_000;

/**
 * `tell` is called with all that is known, first and whenever an edition is new; it keeps that on the device
 * before it goes on.
 */
export async function followSealed(
  known: Sealed,
  tell: (sealed: Sealed) => Promise<void>,
  client: HostClient = hostClient(),
): Promise<void> {
  let sealed = known;
  let looking: Promise<void> | undefined;
  const look = async (): Promise<void> => {
    const { books } = await client.books();
    const fresh: SealedBook[] = [];
    const faulty = { ...sealed.faulty };
    for (const { name, edition } of books) {
      if (edition === undefined) continue;
      const had = sealed.books.find((one) => one.name === name);
      if (had?.print === edition.print && had.number === edition.number) {
        fresh.push(had);
        continue;
      }
      const { title, number, print, text, stands, faults, reason } = await client.edition(
        name,
        edition.number,
      );
      const under = await Promise.all(stands.map((one) => client.text(one.print)));
      fresh.push({ name, title, number, print, text, under });
      if (faults.length > 0) faulty[print] = { faults: faults.length, reason: reason ?? "" };
    }
    if (fresh.length === sealed.books.length && fresh.every((one) => sealed.books.includes(one))) return;
    sealed = { books: fresh, faulty };
    await tell(sealed);
  };
  const lookAgain = (): void => {
    looking = (looking ?? Promise.resolve()).then(look).catch(() => undefined);
  };
  for (;;) {
    try {
      await look();
      break;
    } catch (cause) {
      // No such address: files are served here and nothing else.
      if (
        cause instanceof HostRefusal &&
        cause.status > 0 &&
        cause.status < 500 &&
        cause.status !== 401 &&
        cause.status !== 403
      )
        return;
      await new Promise<void>((resolve) => {
        setTimeout(resolve, askAgain);
        globalThis.addEventListener?.("online", () => resolve(), { once: true });
      });
    }
  }
  client.events({}, (event) => {
    if (event.is === "edition" || event.is === "anew") lookAgain();
  });
}
