// Entry of the technician's page: starts the engine, opens what this device keeps and draws the page. The
// controller is `page/job-session.ts`, the view `page/page-view.tsx`.
import { createRoot } from "react-dom/client";
import { startEngine } from "../client/engine/client.ts";
import { jobWorker } from "../client/engine/job-engine-worker.ts";
import type { JobPageCalls } from "../client/engine/messages.ts";
import type { BrowserStorage } from "../client/storage/browser-storage.ts";
import { openBrowserStorage } from "../client/storage/browser-storage.ts";
import { pageSettings } from "../ui/words/page-settings.ts";
import { fetchWords } from "../ui/words/words.ts";
import { keepOffline } from "./offline/keep-offline.ts";
import { InLanguage } from "./page/in-language.tsx";
import { JobSession } from "./page/job-session.ts";
import { emptyPage, hasFirstScreen, troubleOf } from "./page/page-state.ts";
import { PageView } from "./page/page-view.tsx";
import { createStore, until } from "./page/store.ts";
import { openDeviceJobs } from "./store/device-jobs.ts";
import { openRecordStorage } from "./store/record-storage.ts";
import { sealedKept } from "./store/sealed-books.ts";
import "../ui/look/look.css";
import "./job-page.css";

const page = createStore(emptyPage);

// The engine and the words are fetched while the browser opens what it keeps.
const engine = startEngine<JobPageCalls>(jobWorker, {
  snapshot: (snapshot) => page.set({ snapshot }),
  busy: () => undefined,
  trouble: (says) => page.set({ trouble: troubleOf(says) }),
});
const words = fetchWords(pageSettings().language).catch(() => undefined);
const [storage, recordStorage] = await Promise.all([
  openBrowserStorage().catch((): BrowserStorage | undefined => undefined),
  openRecordStorage().catch(() => undefined),
]);
const jobs = await openDeviceJobs(recordStorage);
await words;
page.set({ sealed: await sealedKept(jobs.shelf) });
const session = new JobSession({ page, engine, jobs, storage });

const root = document.getElementById("root");
if (root)
  createRoot(root).render(
    <InLanguage>
      <PageView session={session} />
    </InLanguage>,
  );

// Both would delay the first screen. The files for a day without a network are not kept during development.
const firstScreen = until(page, hasFirstScreen);
if (import.meta.env.PROD) void firstScreen.then(() => keepOffline(import.meta.url));
await session.start();
void firstScreen
  .then(() => import("./store/follow-sealed.ts"))
  .then(({ followSealed }) => followSealed(page.get().sealed, session.takeSealed))
  .catch(() => undefined);
