// Books of the host put on the bench: the draft under the kept book that was made from it, or as one of its
// own; an edition as a copy.
import type { WorkbenchStore } from "../store/document.ts";
import { HostRefusal } from "../../client/storage/host-client.ts";
import type { Shop } from "../store/shop.ts";

export async function openDraft(store: WorkbenchStore, shop: Shop, book: string): Promise<boolean> {
  const key = shop.keyOf(book);
  if (key !== undefined && (await store.open(key))) return true;
  return opened(store, async () => store.openText((await shop.client.draft(book)).text, book));
}

export const openEdition = (
  store: WorkbenchStore,
  shop: Shop,
  book: string,
  number: number,
): Promise<boolean> =>
  opened(store, async () =>
    store.openText((await shop.client.edition(book, number)).text, `${book}, edition ${number}`),
  );

async function opened(store: WorkbenchStore, open: () => Promise<void>): Promise<boolean> {
  try {
    await open();
    return true;
  } catch (cause) {
    store.tell(cause instanceof HostRefusal ? cause.message : "It could not be opened.", "trouble");
    return false;
  }
}
