// The jobs on this device and the one that is open, apart from what draws them. What a person does becomes an
// entry that is kept at once; what a job is follows from its entries alone.
import { bundled, unbundled } from "../../../engine/index.ts";
import { foldJob } from "../../../core/record.ts";
import type { BookRef, Deed, JobEntry, JobRecord } from "../../../core/record.ts";
import type { BookByPrint } from "../../../core/schemas/host.ts";
import type { Answers } from "../../../core/view.ts";
import type { Delivery } from "./deliver.ts";
import { startDelivery } from "./deliver.ts";
import { newId, hashText } from "../../client/storage/content-hash.ts";
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

/** Reads what is kept; `shelf` absent: works on, keeps nothing and says so. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export async function openDeviceJobs(
  storage: RecordStorage | undefined,
  {
    now = Date.now,
    deliver = startDelivery,
  }: { readonly now?: () => number; readonly deliver?: typeof startDelivery } = {},
): Promise<DeviceJobs> {
  const entries = new Map<string, JobEntry>();
  const folded = new Map<string, JobRecord>();
  for (const entry of (await storage?.all().catch(() => [])) ?? []) entries.set(entry.id, entry);
  const byJob = new Map<string, JobEntry[]>();
  for (const entry of entries.values()) byJob.set(entry.job, [...(byJob.get(entry.job) ?? []), entry]);
  for (const [job, of] of byJob) folded.set(job, foldJob(job, of));

  const device = storage?.device ?? newId();
  let begun: { readonly ref: BookRef; readonly text: KeptText } | undefined;
  let open = newId();
  let delivery: Delivery = { host: "unknown", waiting: 0, unwanted: 0 };
  let unkept = storage === undefined;
  let state: DeviceJobsState = worked();
  const listeners = new Set<() => void>();

  function worked(): DeviceJobsState {
    const jobs = [...folded.values()].sort((a, b) => b.changed - a.changed || (a.id < b.id ? -1 : 1));
    return { open: folded.get(open) ?? foldJob(open, []), jobs, delivery, unkept };
  }
  const changed = (): void => {
    state = worked();
    for (const listener of listeners) listener();
  };

  // Another page of this browser is told what was added here.
  const others = typeof BroadcastChannel === "undefined" ? undefined : new BroadcastChannel("bevelbook jobs");
  others?.addEventListener("message", ({ data }: MessageEvent<readonly JobEntry[]>) => {
    take(data);
    changed();
  });

  const take = (added: readonly JobEntry[]): void => {
    for (const entry of added)
      byJob.set(entry.job, [...(byJob.get(entry.job) ?? []).filter((one) => one.id !== entry.id), entry]);
    for (const job of new Set(added.map((entry) => entry.job)))
      folded.set(job, foldJob(job, byJob.get(job) ?? []));
  };

  const deliverer =
    storage &&
    deliver(storage, (to) => {
      delivery = to;
      changed();
    });

  const add = (...deeds: readonly Deed[]): void => addTo(open, ...deeds);
  const addTo = (job: string, ...deeds: readonly Deed[]): void => {
    const record = folded.get(job);
    if (deeds.length === 0 || record?.signed !== undefined) return;
    const all: Deed[] =
      record === undefined && begun !== undefined && deeds[0]?.does !== "begin"
        ? [{ does: "begin", book: begun.ref, title: "" }, ...deeds]
        : [...deeds];
    // Later than all that was done here before, even if the clock was set back or the deeds fall into one
    // millisecond.
    let at = Math.max(now(), (record?.changed ?? 0) + 1);
    const made = all.map((deed): JobEntry => ({ ...deed, id: newId(), job, at: at++, device }));
    take(made);
    changed();
    others?.postMessage(made);
    // The first job of a device is opened by nobody, and is found again all the same.
    if (record === undefined && job === open) remember();
    const text = record === undefined ? begun?.text : undefined;
    Promise.all([text && storage?.addBook(text), storage?.add(made)]).then(
      () => deliverer?.wake(),
      () => {
        unkept = true;
        changed();
      },
    );
  };
  const remember = (): void => {
    storage?.setNote("open job", open).catch(() => undefined);
  };

  const last = await storage?.note("open job").catch(() => undefined);
  if (typeof last === "string") {
    open = last;
    state = worked();
  }

  return {
    shelf: storage,
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    add,
    addTo,
    answer: (answers) => {
      const was = state.open.answers;
      const names = new Set([...Object.keys(was), ...Object.keys(answers)]);
      add(
        ...[...names]
          .filter((ask) => was[ask] !== answers[ask])
          .map(
            (ask): Deed => ({
              does: "answer",
              ask,
              ...(answers[ask] === undefined ? {} : { text: answers[ask] }),
            }),
          ),
      );
    },
    tick: (ticked) => {
      const was = state.open.ticked;
      const steps = new Set([...Object.keys(was), ...Object.keys(ticked)]);
      add(
        ...[...steps]
          .filter((step) => was[step] !== ticked[step])
          .map(
            (step): Deed => ({
              does: "tick",
              step,
              ...(ticked[step] === undefined ? {} : { text: ticked[step] }),
            }),
          ),
      );
    },
    name: (title) => {
      const book = state.open.book ?? begun?.ref;
      if (book !== undefined && title.trim() !== "" && title.trim() !== state.open.title)
        add({ does: "begin", book, title: title.trim() });
    },
    setBook: (text, sealed = false) => {
      begun = {
        text,
        ref: {
          name: text.name,
          ...(text.edition === undefined ? {} : { edition: text.edition }),
          print: text.print,
          sealed,
        },
      };
    },
    begin: () => {
      // A job in which nothing was done yet is as good as a new one.
      if (folded.has(open)) open = newId();
      remember();
      changed();
    },
    openJob: (id) => {
      open = id;
      remember();
      changed();
    },
    addPhoto: async (photo, more) => {
      await storage?.addPhoto(photo).catch(() => {
        unkept = true;
      });
      add({ does: "photo", photo: photo.photo, ...more });
    },
  };
}
