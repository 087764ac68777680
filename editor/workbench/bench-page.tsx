// The workbench page: opens what was kept, or the book that comes with the program.
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { startEngine } from "../client/engine/client.ts";
import { engineWorker } from "../client/engine/engine-worker.ts";
import { booksAtHand } from "../client/storage/page-book-resolver.ts";
import { createWorkbenchStore } from "./store/document.ts";
import { hostClient } from "../client/storage/host-client.ts";
import type { BrowserStorage } from "../client/storage/browser-storage.ts";
import { openBrowserStorage } from "../client/storage/browser-storage.ts";
import { underFromHost } from "./store/host-base-books.ts";
import { openShop } from "./store/shop.ts";
import { shippedBook, shippedBooks } from "../client/storage/shipped.ts";
import "../ui/look/look.css";

const storage: BrowserStorage | undefined = await openBrowserStorage().catch(() => undefined);
const host = hostClient();
const store = createWorkbenchStore(
  storage,
  (listener) => startEngine(engineWorker, listener),
  (text) => booksAtHand(text, storage, (of) => underFromHost(host, of)),
);
if (!storage)
  store.tell(
    "This browser does not let the page keep anything. Save the book to a file before you close the page.",
    "trouble",
  );

const shop = openShop(host, store);

const root = document.getElementById("root");
const seen = (): void => {
  if (document.visibilityState === "visible") shop.seen();
};
window.addEventListener("focus", seen);
document.addEventListener("visibilitychange", seen);
if (root) createRoot(root).render(<App bench={store} shop={shop} />);

const last = await storage?.lastKey();
if (last === undefined || !(await store.open(last))) {
  const name = shippedBooks[0];
  const text = name === undefined ? undefined : await shippedBook(name);
  if (name !== undefined && text !== undefined) await store.openText(text, name);
  else await store.openText('book new-book, edition 1\n    "A book of our own"\n', "new-book");
}
