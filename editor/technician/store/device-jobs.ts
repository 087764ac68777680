// The jobs on this device and the one that is open, apart from what draws them. What a person does becomes an
// entry that is kept at once; what a job is follows from its entries alone.
import { bundled, unbundled } from "../../../engine/index.ts";
import { foldJob } from "../../../core/record.ts";
import type { BookRef, Deed, JobEntry, JobRecord } from "../../../core/record.ts";
import type { BookByPrint } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";
import type { Delivery } from "./deliver.ts";
import { startDelivery } from "./deliver.ts";
import { newId, hashText } from "../../client/storage/hash-text.ts";
import type { KeptPhoto, KeptText, RecordStorage } from "./record-storage.ts";
import type { Ticked } from "../../client/storage/stored-work.ts";

export interface DeviceJobsState {
  /** The job that is open; it has no entries until something is done. */
  readonly open: JobRecord;
  /** All jobs that something was done in, the last changed first; the open one among them. */
  readonly jobs: readonly JobRecord[];
  readonly delivery: Delivery;
  /** The browser does not keep what is done. */
  readonly unkept: boolean;
}

export interface DeviceJobs {
  state(): DeviceJobsState;
  subscribe(listener: () => void): () => void;
  /** Adds what was done to the open job; nothing where it is signed. */
  add(...deeds: readonly Deed[]): void;
  /** The same to another job of this device, which is begun already. */
  addTo(job: string, ...deeds: readonly Deed[]): void;
  /** Takes answers or ticks over as a whole: each that differs becomes an entry. */
  answer(answers: Answers): void;
  tick(ticked: Ticked): void;
  name(title: string): void;
  /** The book that jobs are begun by from now on. */
  setBook(book: KeptText, sealed?: boolean): void;
  /** Opens an empty job. */
  begin(): void;
  openJob(id: string): void;
  addPhoto(photo: KeptPhoto, more: Omit<Extract<Deed, { does: "photo" }>, "does" | "photo">): Promise<void>;
  readonly shelf: RecordStorage | undefined;
}

/**
 * A job's book with what it stood on: kept on this device, else asked of the shop's host once, and only taken
 * if it is the very book.
 */
export async function bookOfJob(
  storage: RecordStorage | undefined,
  { print, name, edition }: BookRef,
): Promise<KeptText | undefined> {
  try {
    const kept = await storage?.book(print);
    if (kept !== undefined) return kept;
    const answer = await fetch(`/api/texts/${print}`);
    if (!answer.ok) return undefined;
    const said = (await answer.json()) as Partial<BookByPrint>;
    if (
      typeof said.text !== "string" ||
      (said.under !== undefined &&
        !(Array.isArray(said.under) && said.under.every((one) => typeof one === "string")))
    )
      return undefined;
    // A host of an earlier build hands out a bundle as it was kept.
    const { text, under } =
      said.under === undefined ? unbundled(said.text) : { text: said.text, under: said.under };
    if ((await hashText(text)) !== print && (await hashText(bundled(text, under))) !== print)
      return undefined;
    const book: KeptText = {
      print,
      name,
      title: name,
      ...(edition === undefined ? {} : { edition }),
      text,
      at: Date.now(),
      ...(under === undefined ? {} : { under }),
    };
    await storage?.addBook(book);
    return book;
  } catch {
    return undefined;
  }
}

/** The entries of this device, folded job by job. */
async function readJobs(storage: RecordStorage | undefined) {
  const byJob = new Map<string, JobEntry[]>();
  const folded = new Map<string, JobRecord>();
  const take = (added: readonly JobEntry[]): void => {
    for (const entry of added)
      byJob.set(entry.job, [...(byJob.get(entry.job) ?? []).filter((one) => one.id !== entry.id), entry]);
    for (const job of new Set(added.map((entry) => entry.job)))
      folded.set(job, foldJob(job, byJob.get(job) ?? []));
  };
  take((await storage?.all().catch(() => [])) ?? []);
  return { folded, take };
}

/** What is shown of the jobs, made again from its parts at each change. */
function jobsState(folded: ReadonlyMap<string, JobRecord>, unkept: boolean) {
  const part = {
    open: newId(),
    delivery: { host: "unknown", waiting: 0, unwanted: 0 } as Delivery,
    unkept,
  };
  const listeners = new Set<() => void>();
  const made = (): DeviceJobsState => ({
    ...part,
    open: folded.get(part.open) ?? foldJob(part.open, []),
    jobs: [...folded.values()].sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1)),
  });
  let state = made();
  const changed = (more: Partial<typeof part> = {}): void => {
    Object.assign(part, more);
    state = made();
    for (const listener of listeners) listener();
  };
  const subscribe = (listener: () => void): (() => void) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  };
  return { part, changed, subscribe, state: () => state };
}

/** The names in which two sets of texts differ, each with the new text. */
const differing = (
  was: Readonly<Record<string, string>>,
  now: Readonly<Record<string, string>>,
): readonly (readonly [name: string, more: { readonly text?: string }])[] =>
  [...new Set([...Object.keys(was), ...Object.keys(now)])]
    .filter((name) => was[name] !== now[name])
    .map((name) => [name, now[name] === undefined ? {} : { text: now[name] }]);

interface OpenWith {
  readonly now?: () => number;
  readonly deliver?: typeof startDelivery;
}

/** Reads what is kept; `shelf` absent: works on, keeps nothing and says so. */
export async function openDeviceJobs(
  storage: RecordStorage | undefined,
  { now = Date.now, deliver = startDelivery }: OpenWith = {},
): Promise<DeviceJobs> {
  const { folded, take } = await readJobs(storage);
  const device = storage?.device ?? newId();
  const held = jobsState(folded, storage === undefined);
  const { part, changed } = held;
  let begun: { readonly ref: BookRef; readonly text: KeptText } | undefined;
  const openNow = (): JobRecord => held.state().open;
  const notKept = (): void => changed({ unkept: true });

  // Another page of this browser hears what was added here.
  const others = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel("bevelbook jobs");
  others?.addEventListener("message", ({ data }: MessageEvent<readonly JobEntry[]>) => {
    take(data);
    changed();
  });

  const deliverer = storage && deliver(storage, (delivery) => changed({ delivery }));

  const add = (...deeds: readonly Deed[]): void => addTo(part.open, ...deeds);
  const addTo = (job: string, ...deeds: readonly Deed[]): void => {
    const record = folded.get(job);
    if (deeds.length === 0 || record?.signed !== undefined) return;
    const all: readonly Deed[] =
      record === undefined && begun !== undefined && deeds[0]?.does !== "begin"
        ? [{ does: "begin", book: begun.ref, title: "" }, ...deeds]
        : deeds;
    // Later than all that was done here before, even if the clock was set back or the deeds fall into one
    // millisecond.
    let at = Math.max(now(), (record?.changed ?? 0) + 1);
    const by = signedIn(part.delivery);
    const made = all.map((deed): JobEntry => ({ ...deed, id: newId(), job, at: at++, device, ...by }));
    take(made);
    changed();
    others?.postMessage(made);
    // The first job of a device is opened by nobody, and is found again all the same.
    if (record === undefined && job === part.open) remember();
    const text = record === undefined ? begun?.text : undefined;
    Promise.all([text && storage?.addBook(text), storage?.add(made)]).then(() => deliverer?.wake(), notKept);
  };
  const remember = (): void => {
    storage?.setNote("open job", part.open).catch(() => undefined);
  };
  const openJob = (id: string): void => {
    part.open = id;
    remember();
    changed();
  };

  const last = await storage?.note("open job").catch(() => undefined);
  if (typeof last === "string") changed({ open: last });
  return {
    shelf: storage,
    state: held.state,
    subscribe: held.subscribe,
    add,
    addTo,
    ...changes(openNow, add, () => begun?.ref),
    setBook: (text, sealed = false) => {
      begun = { text, ref: refOf(text, sealed) };
    },
    // A job in which nothing was done yet is as good as a new one.
    begin: () => openJob(folded.has(part.open) ? newId() : part.open),
    openJob,
    addPhoto: async (photo, more) => {
      await storage?.addPhoto(photo).catch(notKept);
      add({ does: "photo", photo: photo.photo, ...more });
    },
  };
}

const signedIn = ({ person }: Delivery): { readonly by?: string } =>
  person === undefined ? {} : { by: person };

/** What is changed in the open job as a whole, as entries of what differs. */
const changes = (
  open: () => JobRecord,
  add: DeviceJobs["add"],
  book: () => BookRef | undefined,
): Pick<DeviceJobs, "answer" | "tick" | "name"> => ({
  answer: (answers) =>
    add(...differing(open().answers, answers).map(([ask, more]): Deed => ({ does: "answer", ask, ...more }))),
  tick: (ticked) =>
    add(...differing(open().ticked, ticked).map(([step, more]): Deed => ({ does: "tick", step, ...more }))),
  name: (title) => {
    const ref = open().book ?? book();
    if (ref !== undefined && title.trim() !== "" && title.trim() !== open().title)
      add({ does: "begin", book: ref, title: title.trim() });
  },
});

const refOf = ({ name, edition, print }: KeptText, sealed: boolean): BookRef => ({
  name,
  ...(edition === undefined ? {} : { edition }),
  print,
  sealed,
});
