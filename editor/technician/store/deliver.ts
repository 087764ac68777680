// Brings what is kept on this device to the shop's host, each thing once, in the order in which it was made;
// tries again by itself and never gives up. Entries go to `POST /api/jobs/entries`, photographs to
// `PUT /api/photos/{print}`, the texts of the books that jobs were worked by to `PUT /api/texts/{print}`.
import { bundled } from "../../../engine/index.ts";
import type { Delivered, Hello } from "../../../core/schemas/host.ts";
import { hashText } from "../../client/storage/hash-text.ts";
import type { Outbox, RecordStorage } from "./record-storage.ts";

/**
 * `none`: nobody has ever taken anything from this device. Once somebody has, whatever else answers (a page
 * of the network, another program) is `away`. `refused`: someone has to sign in.
 */
type HostState = "unknown" | "there" | "none" | "away" | "refused";

export interface Delivery {
  readonly host: HostState;
  /** Entries and photographs that wait. */
  readonly waiting: number;
  /** When something was last delivered, in milliseconds since 1970. */
  readonly last?: number;
  /** Entries, photographs and texts that the host will not take as they are; they stay on this device. */
  readonly unwanted: number;
  /** Who is signed in, as the host said last; absent where nobody signs in. */
  readonly person?: string | undefined;
  /** Milliseconds by which this device's clock is ahead of the host's. */
  readonly skew?: number;
}

export interface Deliverer {
  /** Something new is kept: tries at once unless it waits after a failure. */
  wake(): void;
  stop(): void;
}

type OutboxOf = Pick<
  RecordStorage,
  "waiting" | "entries" | "delivered" | "photo" | "book" | "note" | "setNote"
>;

/** Note of this device: what is known of the host since somebody took something from it. */
const hostNote = "host";
interface KnownHost {
  readonly person?: string;
}

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

export function startDelivery(
  storage: OutboxOf,
  tell: (delivery: Delivery) => void,
  { send = (...given) => fetch(...given), now = Date.now, hear = hearBrowser }: DeliverWith = {},
): Deliverer {
  let state: Delivery = { host: "unknown", waiting: 0, unwanted: 0 };
  const unwanted = new Set<string>();
  let failures = 0;
  let notBefore = 0;
  let running = false;
  let again = false;
  let over = false;

  const set = (part: Partial<Delivery>): void => {
    state = { ...state, ...part, unwanted: unwanted.size };
    if (!over) tell(state);
  };
  const delivered = async (said?: Said): Promise<void> => {
    const skew = said?.at === undefined ? {} : { skew: now() - said.at };
    set({ host: "there", last: now(), ...skew });
    if (said !== undefined || !memory.knows()) await memory.know(said === undefined ? {} : personOf(said));
  };
  const memory = hostMemory(storage, (person) => set({ person }));
  const sendOne = senderOf({ storage, send, now, unwanted, delivered });
  const count = async (): Promise<Outbox> => {
    const all = await storage.waiting();
    const wanted = (names: readonly string[]): readonly string[] =>
      names.filter((name) => !unwanted.has(name));
    const left = { entries: wanted(all.entries), photos: wanted(all.photos), texts: wanted(all.texts) };
    set({ waiting: left.entries.length + left.photos.length });
    return left;
  };
  /** Sends what waits, one thing after another, until nothing is left or the host does not take it now. */
  const sendAll = async (): Promise<void> => {
    for (;;) {
      again = false;
      const left = await count();
      if (now() < notBefore) return;
      const step = await sendOne(left);
      if (step === "moved") failures = 0;
      else if (step !== "empty") {
        failures += 1;
        notBefore = now() + pauseAfter(failures);
        set({ host: step === "none" && memory.knows() ? "away" : step });
        if (step === "refused") await memory.know({});
        return;
      } else if (!again) return;
    }
  };
  const run = async (): Promise<void> => {
    if (over) return;
    if (running) {
      again = true;
      return;
    }
    running = true;
    // Where the browser's own store fails, the next trial reads it again.
    await sendAll().catch(() => undefined);
    running = false;
  };

  const leave = hear(() => void run());
  void memory.begin(send).then(run);
  return {
    wake: () => void run(),
    stop: () => {
      over = true;
      leave();
    },
  };
}

/** What is known of the host, kept so that the next load of the page knows it before it has asked. */
function hostMemory(storage: OutboxOf, tell: (person: string | undefined) => void) {
  let known: KnownHost | undefined;
  const know = async (host: KnownHost): Promise<void> => {
    if (known !== undefined && known.person === host.person) return;
    known = host;
    tell(host.person);
    await storage.setNote(hostNote, host);
  };
  return {
    /** Whether somebody has ever taken something from this device. */
    knows: (): boolean => known !== undefined,
    know,
    /** Somebody else may have signed in since. Without a host the one of before stays. */
    begin: async (send: typeof fetch): Promise<void> => {
      known = (await storage.note(hostNote).catch(() => undefined)) as KnownHost | undefined;
      // Nothing was ever delivered: the first delivery will say who is signed in.
      if (known === undefined) return;
      if (known.person !== undefined) tell(known.person);
      const asked = await personAsked(send);
      if (asked !== undefined) await know(asked).catch(() => undefined);
    },
  };
}

const personOf = ({ by }: Said): KnownHost => (by === undefined ? {} : { person: by });

interface SendWith {
  readonly storage: OutboxOf;
  readonly send: typeof fetch;
  readonly now: () => number;
  /** Gets the ids of what the host will not take as it is. */
  readonly unwanted: Set<string>;
  /** Something came through; `said` of a delivery of entries. */
  delivered(said?: Said): Promise<void>;
}

/** Sends the first of the entries that wait: fewer at a time while the host takes none. */
function entrySender({
  storage,
  send,
  now,
  unwanted,
  delivered,
}: SendWith): (ids: readonly string[]) => Promise<Step> {
  let batch = most;

  return async (ids) => {
    const entries = await storage.entries(ids.slice(0, batch));
    const found = new Set(entries.map((entry) => entry.id));
    // Marked, and gone: nothing is left to deliver.
    const gone = ids.slice(0, batch).filter((id) => !found.has(id));
    if (gone.length > 0) await storage.delivered({ entries: gone });
    if (entries.length === 0) return "moved";
    const answer = await attempt(send, "/api/jobs/entries", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ entries, sent: now() }),
    });
    if (typeof answer === "string") return answer;
    if (answer.ok) {
      const said = await saidOf(answer);
      if (said === undefined) return "none";
      const has = said.has.filter((id) => found.has(id));
      for (const place of said.refused) if (entries[place] !== undefined) unwanted.add(entries[place].id);
      if (has.length === 0 && said.refused.length === 0) return "away";
      await storage.delivered({ entries: has });
      batch = Math.min(most, batch * 2);
      await delivered(said);
      return "moved";
    }
    // A host that breaks on one entry answers other questions: the entry is set aside, and the rest goes on.
    const breaks = answer.status === 500 && (entries.length > 1 || (await isThere(send)));
    return tooMuch(breaks ? 422 : answer.status, () => {
      // One of many spoils the delivery: fewer at a time, until the one alone is found and left here. More
      // again only after one has come through.
      if (entries.length > 1) batch = Math.ceil(entries.length / 2);
      else unwanted.add(entries[0]!.id);
    });
  };
}

const hello = (send: typeof fetch): Promise<Response | "none" | "away"> =>
  attempt(send, "/api/hello", { method: "GET" });

/** Whether the host answers at all. */
async function isThere(send: typeof fetch): Promise<boolean> {
  const answer = await hello(send);
  return typeof answer !== "string" && answer.ok;
}

/** Who is signed in, as the host says; undefined where no host answers. */
async function personAsked(send: typeof fetch): Promise<KnownHost | undefined> {
  const answer = await hello(send);
  if (typeof answer === "string" || !isJson(answer)) return undefined;
  if (answer.status === 401) return {};
  const said = (await answer.json().catch(() => undefined)) as Partial<Hello> | undefined;
  if (said?.program !== "bevelbook") return undefined;
  return said.asked === true && said.you !== undefined ? { person: said.you.name } : {};
}

/** Sends the next thing of what waits. */
function senderOf(to: SendWith): (left: Outbox) => Promise<Step> {
  const { storage, send, unwanted, delivered } = to;
  const sendEntries = entrySender(to);

  /** `done` is what the print stands for in the outbox; without a `body` there is nothing left to send. */
  const put = async (
    address: string,
    done: Partial<Outbox>,
    body?: { readonly type: string; readonly content: BodyInit },
  ): Promise<Step> => {
    if (body !== undefined) {
      const headers = { "content-type": body.type };
      const answer = await attempt(send, address, { method: "PUT", headers, body: body.content });
      if (typeof answer === "string") return answer;
      // What answers with something else is a page of the network, and has kept nothing.
      if (answer.ok && !isJson(answer)) return "none";
      if (!answer.ok)
        return tooMuch(answer.status, () => {
          for (const print of Object.values(done).flat()) unwanted.add(print);
        });
    }
    await storage.delivered(done);
    if (body !== undefined) await delivered();
    return "moved";
  };

  const sendPhoto = async (print: string): Promise<Step> => {
    const blob = (await storage.photo(print))?.blob;
    const body = blob && { type: blob.type || "image/jpeg", content: blob };
    return put(`/api/photos/${print}`, { photos: [print] }, body);
  };

  const sendText = async (print: string): Promise<Step> => {
    const book = await storage.book(print);
    let body: { readonly type: string; readonly content: string } | undefined;
    if (book !== undefined) {
      // A sealed edition's print, and one that an earlier page made, is that of its own text: the books it
      // depends on do not go with it.
      const bundle = bundled(book.text, book.under);
      const text = bundle !== book.text && (await hashText(bundle)) === print ? bundle : book.text;
      body = { type: "application/json", content: JSON.stringify({ text }) };
    }
    return put(`/api/texts/${print}`, { texts: [print] }, body);
  };

  // The texts of books first, so that the host can work a signed card again as soon as it comes.
  return async ({ texts: [text], entries, photos: [photo] }) => {
    if (text !== undefined) return sendText(text);
    if (entries.length > 0) return sendEntries(entries);
    return photo === undefined ? "empty" : sendPhoto(photo);
  };
}

/** What the host says of a thing that it does not take as it came. */
function tooMuch(status: number, setAside: () => void): Step {
  switch (status) {
    case 400:
    case 409:
    case 413:
    case 415:
    case 422:
      setAside();
      return "moved";
    case 401:
    case 403:
      return "refused";
    default:
      return "away";
  }
}

/** The answer; or `none` where nothing is at this address, `away` where nobody answers. */
async function attempt(
  send: typeof fetch,
  address: string,
  request: RequestInit,
): Promise<Response | "none" | "away"> {
  try {
    const answer = await send(address, request);
    return answer.status === 404 || answer.status === 405 ? "none" : answer;
  } catch {
    return "away";
  }
}

interface Said {
  /** Ids that the host has now, whether they were new to it or not. */
  readonly has: readonly string[];
  /** Places in the delivery, from 0, of entries that it will not keep. */
  readonly refused: readonly number[];
  /** The host's clock, and who is signed in. */
  readonly at?: number;
  readonly by?: string;
}

const isJson = (answer: Response): boolean => answer.headers.get("content-type")?.includes("json") === true;

/** What the host says of a delivery; undefined where the answer is no host's. */
async function saidOf(answer: Response): Promise<Said | undefined> {
  try {
    const said = (await answer.json()) as Record<keyof Delivered, unknown>;
    if (!Array.isArray(said.taken)) return undefined;
    const known: readonly unknown[] = Array.isArray(said.known) ? said.known : [];
    const refused: readonly unknown[] = Array.isArray(said.refused) ? said.refused : [];
    return {
      has: [...said.taken, ...known].filter((id): id is string => typeof id === "string"),
      refused: refused.flatMap((one) =>
        typeof one === "object" && one !== null && "place" in one && typeof one.place === "number"
          ? [one.place]
          : [],
      ),
      ...(typeof said.at === "number" ? { at: said.at } : {}),
      ...(typeof said.by === "string" ? { by: said.by } : {}),
    };
  } catch {
    return undefined;
  }
}

/** Milliseconds to wait after so many failures in a row: 5 s, 10 s, 20 s, up to ten minutes. */
export const pauseAfter = (failures: number): number => Math.min(longestPause, 2500 * 2 ** failures);

function hearBrowser(again: () => void): () => void {
  const seen = (): void => {
    if (document.visibilityState === "visible") again();
  };
  window.addEventListener("online", again);
  document.addEventListener("visibilitychange", seen);
  const clock = setInterval(again, everyMinute);
  return () => {
    window.removeEventListener("online", again);
    document.removeEventListener("visibilitychange", seen);
    clearInterval(clock);
  };
}
