// The workbench page: opens what was kept, or the book that comes with the program.
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { startEngine } from "../client/engine/client.ts";
import { engineWorker } from "../client/engine/engine-worker.ts";
import { booksAtHand } from "../client/storage/book-resolver.ts";
import { makeBench } from "./store/document.ts";
import { hostClient } from "../client/storage/host-client.ts";
import type { Keep } from "../client/storage/browser-storage.ts";
import { openKeep } from "../client/storage/browser-storage.ts";
import { underFromHost } from "./store/host-under.ts";
import { openShop } from "./store/shop.ts";
import { shippedBook, shippedBooks } from "../client/storage/shipped.ts";
import "../ui/look/look.css";

const keep: Keep | undefined = await openKeep().catch(() => undefined);
const host = hostClient();
const bench = makeBench(keep, (listener) => startEngine(engineWorker, listener), (text) => booksAtHand(text, keep, (of) => underFromHost(host, of)));
if (!keep) bench.tell("This browser does not let the page keep anything. Save the book to a file before you close the page.", "trouble");

const shop = openShop(host, bench);

const root = document.getElementById("root");
const seen = (): void => { if (document.visibilityState === "visible") shop.seen(); };
window.addEventListener("focus", seen);
document.addEventListener("visibilitychange", seen);
if (root) createRoot(root).render(<App bench={bench} shop={shop} />);

const last = await keep?.lastKey();
if (last === undefined || !(await bench.open(last))) {
  const name = shippedBooks[0];
  const text = name === undefined ? undefined : await shippedBook(name);
  if (name !== undefined && text !== undefined) await bench.openText(text, name);
  else await bench.openText('book new-book, edition 1\n    "A book of our own"\n', "new-book");
}
