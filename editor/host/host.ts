// The shop's host: the shelf, the engine at its hand, the API and the pages, opened together and closed together.
import { hostApi } from "./api/app.ts";
import { endEvents } from "./api/events.ts";
import { openPresence } from "./api/presence.ts";
import { type Who, thisDesk } from "./api/who.ts";
import { type Rework, reworkSigned } from "./desk/again.ts";
import { openDesk } from "./desk/desk.ts";
import { listen } from "./listen.ts";
import { pagesApp } from "./pages.ts";
import type { Settings, ShelfSettings } from "./settings.ts";
import { type Shelf, openShelf } from "./shelf/shelf.ts";
import { Trouble } from "./shelf/troubles.ts";

export interface Host {
  /** Ends with a slash. */
  readonly address: string;
  readonly port: number;
  readonly shelf: Shelf;
  readonly rework: Rework;
  /** Answers what is being asked, then closes all; after it the data is one file again. */
  close(): Promise<void>;
}

/** Opens the host for the built pages in `folder`. What keeps it from opening comes back as a sentence. */
export async function openHost(folder: string, settings: Settings, shelfSettings: ShelfSettings, who: Who = thisDesk): Promise<Host | { readonly failed: string }> {
  let shelf: Shelf;
  try {
    shelf = await openShelf(shelfSettings);
  } catch (cause) {
    if (cause instanceof Trouble) return { failed: cause.message };
    throw cause;
  }
  const desk = openDesk();
  const rework = reworkSigned(shelf, desk);
  const presence = openPresence(shelf);
  const api = hostApi({ shelf, desk, rework, presence, who, proofSeconds: shelfSettings.proofSeconds });
  const listening = await listen(pagesApp(folder, api), settings);
  const closeRest = async (): Promise<void> => {
    endEvents();
    presence.close();
    await desk.close();
    await rework.idle();
    await shelf.close();
  };
  if ("failed" in listening) {
    await closeRest();
    return listening;
  }
  // Cards that were signed while the host was away, or when it was ended.
  rework.poke();
  return { address: listening.address, port: listening.port, shelf, rework, close: async () => { listening.close(); await closeRest(); } };
}
