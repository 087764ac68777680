// Brings what is kept on this device to the shop's host, each thing once, in whatever order; tries again by itself and works in silence
// where there is no host. Entries go to `POST /api/jobs/entries`, photographs to `PUT /api/photos/{print}`.
import type { RecordShelf } from "./record-shelf.ts";

/** `none`: the pages come from a place without a shelf, asked once per load. `refused`: someone has to sign in. */
export type HostState = "unknown" | "there" | "none" | "away" | "refused";

export interface Delivery {
  readonly host: HostState;
  /** Entries and photographs that wait. */
  readonly waiting: number;
  /** When something was last delivered, in milliseconds since 1970. */
  readonly last?: number;
  /** Entries and photographs that the host will not take as they are; they stay on this device. */
  readonly unwanted: number;
}

export interface Deliverer {
  /** Something new is kept: tries at once unless it waits after a failure. */
  wake(): void;
  stop(): void;
}

type OutboxOf = Pick<RecordShelf, "waiting" | "entries" | "delivered" | "photo">;

/** What a trial of a step led to. */
type Step = "moved" | "empty" | "none" | "away" | "refused";

const most = 500;
const everyMinute = 60_000;
const longestPause = 10 * 60_000;

export interface DeliverWith {
  readonly send?: typeof fetch;
  readonly now?: () => number;
  /** Where `online`, `visibilitychange` and the minute come from; a test has its own. */
  readonly hear?: (again: () => void) => () => void;
}

export function startDelivery(shelf: OutboxOf, tell: (delivery: Delivery) => void, { send = (...given) => fetch(...given), now = Date.now, hear = hearBrowser }: DeliverWith = {}): Deliverer {
  let state: Delivery = { host: "unknown", waiting: 0, unwanted: 0 };
  const unwanted = new Set<string>();
  let batch = most;
  let failures = 0;
  let notBefore = 0;
  let running = false;
  let again = false;
  let over = false;

  const set = (part: Partial<Delivery>): void => { state = { ...state, ...part, unwanted: unwanted.size }; if (!over) tell(state); };
  const count = async (): Promise<{ entries: readonly string[]; photos: readonly string[] }> => {
    const { entries, photos } = await shelf.waiting();
    const left = { entries: entries.filter((id) => !unwanted.has(id)), photos: photos.filter((id) => !unwanted.has(id)) };
    set({ waiting: left.entries.length + left.photos.length });
    return left;
  };

  const run = async (): Promise<void> => {
    if (over) return;
    if (running) { again = true; return; }
    running = true;
    try {
      for (;;) {
        again = false;
        const left = await count();
        if (state.host === "none" || now() < notBefore) break;
        const step = left.entries.length > 0 ? await sendEntries(left.entries.slice(0, batch)) : left.photos.length > 0 ? await sendPhoto(left.photos[0]!) : "empty";
        if (step === "moved") { failures = 0; continue; }
        if (step === "empty") { if (again) continue; break; }
        if (step !== "none") { failures += 1; notBefore = now() + pauseAfter(failures); }
        set({ host: step });
        break;
      }
    } catch {
      // The browser's own store failed: the next trial reads it anew.
    } finally {
      running = false;
    }
  };

  const sendEntries = async (ids: readonly string[]): Promise<Step> => {
    const entries = await shelf.entries(ids);
    const found = new Set(entries.map((entry) => entry.id));
    // Marked, and gone: nothing is left to deliver.
    const gone = ids.filter((id) => !found.has(id));
    if (gone.length > 0) await shelf.delivered({ entries: gone });
    if (entries.length === 0) return "moved";
    const answer = await attempt(send, "/api/jobs/entries", { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(entries) });
    if (typeof answer === "string") return answer;
    if (answer.ok) {
      const taken = await takenOf(answer);
      if (taken === undefined) return "none";
      const ours = taken.filter((id) => found.has(id));
      if (ours.length === 0) return "away";
      await shelf.delivered({ entries: ours });
      batch = Math.min(most, batch * 2);
      set({ host: "there", last: now() });
      return "moved";
    }
    return tooMuch(answer.status, () => {
      // One of many spoils the delivery: fewer at a time, until the one alone is found and left here.
      if (entries.length > 1) batch = Math.ceil(entries.length / 2);
      else { unwanted.add(entries[0]!.id); batch = most; }
    });
  };

  const sendPhoto = async (print: string): Promise<Step> => {
    const kept = await shelf.photo(print);
    if (kept === undefined) { await shelf.delivered({ photos: [print] }); return "moved"; }
    const answer = await attempt(send, `/api/photos/${print}`, { method: "PUT", headers: { "content-type": kept.blob.type || "image/jpeg" }, body: kept.blob });
    if (typeof answer === "string") return answer;
    if (answer.ok) {
      await shelf.delivered({ photos: [print] });
      set({ host: "there", last: now() });
      return "moved";
    }
    return tooMuch(answer.status, () => { unwanted.add(print); });
  };

  const leave = hear(() => void run());
  void run();
  return {
    wake: () => void run(),
    stop: () => { over = true; leave(); },
  };
}

/** What the host says of a thing that it does not take as it came. */
function tooMuch(status: number, setAside: () => void): Step {
  switch (status) {
    case 400: case 409: case 413: case 415: case 422: setAside(); return "moved";
    case 401: case 403: return "refused";
    default: return "away";
  }
}

/** The answer; or `none` where nothing is at this address, `away` where nobody answers. */
async function attempt(send: typeof fetch, address: string, request: RequestInit): Promise<Response | "none" | "away"> {
  try {
    const answer = await send(address, request);
    return answer.status === 404 || answer.status === 405 ? "none" : answer;
  } catch {
    return "away";
  }
}

/** The ids that the host has now; undefined where the answer is no host's. */
async function takenOf(answer: Response): Promise<readonly string[] | undefined> {
  try {
    const said = (await answer.json()) as { taken?: unknown };
    return Array.isArray(said.taken) ? said.taken.filter((id): id is string => typeof id === "string") : undefined;
  } catch {
    return undefined;
  }
}

/** Milliseconds to wait after so many failures in a row: 5 s, 10 s, 20 s, up to ten minutes. */
export const pauseAfter = (failures: number): number => Math.min(longestPause, 2500 * 2 ** failures);

function hearBrowser(again: () => void): () => void {
  const seen = (): void => { if (document.visibilityState === "visible") again(); };
  window.addEventListener("online", again);
  document.addEventListener("visibilitychange", seen);
  const clock = setInterval(again, everyMinute);
  return () => { window.removeEventListener("online", again); document.removeEventListener("visibilitychange", seen); clearInterval(clock); };
}
