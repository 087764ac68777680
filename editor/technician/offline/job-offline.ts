// Keeps the technician's page working without a network after its first visit. Its files are kept in a cache
// named by the build's print; the list of them is put in when the page is built. Nothing else is ever kept:
// no answer of the host under /api/, no bench. A new build waits until the page is opened anew, so that an
// open job never loses a file that it still needs.

/** What this worker uses of its own surroundings, which the page's types do not know. */
interface Surroundings {
  addEventListener(type: "install" | "activate", listener: (event: ExtendableEvent) => void): void;
  addEventListener(type: "message", listener: (event: ExtendableMessageEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: FetchEvent) => void): void;
  skipWaiting(): Promise<void>;
  readonly clients: Clients;
  readonly location: WorkerLocation;
}
const here = self as unknown as Surroundings;

/** Put in by the build: the print of the page's files, and their paths below the folder of this file. */
const built = JSON.parse("%built%") as { readonly print: string; readonly files: readonly string[] };

const ours = "bevelbook-job-";
const cacheName = ours + built.print;
const page = "job.html";
/** A network that says nothing for so long, in milliseconds, is as good as none. */
const patience = 2500;

const root = new URL("./", here.location.href);
const paths = new Set(built.files.map((file) => new URL(file, root).pathname));
const pagePath = new URL(page, root).pathname;
const isPage = (path: string): boolean => path === pagePath || path === new URL("job", root).pathname;

here.addEventListener("install", (event) => {
  // Past the browser's own cache for the page, whose name stays while its content changes.
  event.waitUntil(
    caches
      .open(cacheName)
      .then((cache) =>
        cache.addAll(
          built.files.map(
            (file) => new Request(new URL(file, root), file.startsWith("assets/") ? {} : { cache: "reload" }),
          ),
        ),
      ),
  );
});

here.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys())
        if (name.startsWith(ours) && name !== cacheName) await caches.delete(name);
      await here.clients.claim();
    })(),
  );
});

// A page of this very build, opened alone, asks the waiting worker to take over; an older page still open
// keeps its own.
here.addEventListener("message", (event) => {
  const { script } = (event.data ?? {}) as { readonly script?: unknown };
  if (typeof script !== "string" || !paths.has(new URL(script).pathname)) return;
  event.waitUntil(
    (async () => {
      // A page that is being replaced is counted for a moment longer.
      for (let n = 0; n < 8; n += 1) {
        if ((await pagesOpen()) <= 1) return here.skipWaiting();
        await new Promise((resolve) => {
          setTimeout(resolve, 500);
        });
      }
      return undefined;
    })(),
  );
});

here.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== root.origin || pathname.startsWith("/api/")) return;
  if (request.mode === "navigate") {
    if (isPage(pathname)) event.respondWith(freshPage(request));
  } else if (paths.has(pathname))
    event.respondWith(kept(pathname).then((answer) => answer ?? fetch(request)));
});

const pagesOpen = async (): Promise<number> =>
  (await here.clients.matchAll({ includeUncontrolled: true, type: "window" })).filter((one) =>
    isPage(new URL(one.url).pathname),
  ).length;

/**
 * The page as the host has it now; the kept one where the host does not answer, or answers that it cannot.
 */
async function freshPage(request: Request): Promise<Response> {
  const old = await kept(pagePath);
  if (old === undefined) return fetch(request);
  try {
    const answer = await Promise.race([
      fetch(request),
      new Promise<undefined>((resolve) => {
        setTimeout(() => resolve(undefined), patience);
      }),
    ]);
    return answer === undefined || answer.status >= 500 ? old : answer;
  } catch {
    return old;
  }
}

const kept = (path: string): Promise<Response | undefined> =>
  caches.open(cacheName).then((cache) => cache.match(new URL(path, root).href));
