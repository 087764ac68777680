// The record of a job: a set of entries, each made once, on one device, and never changed. What a job is
// follows from its entries alone, whatever the order in which they arrive and however often, so that tablets
// can deliver late.
import type { JobState } from "./job-state.ts";
import type { Answers } from "./view.ts";

/**
 * Which book a card was made by. `print` is SHA-256 of a text: of a sealed edition's own text, whose ground
 * the sealing names; of an unsealed book with all that it stood on (`core/bundle.ts`). Records made before
 * bundles have the print of the own text alone.
 */
export interface BookRef {
  readonly name: string;
  /** Absent for a book that gives none. */
  readonly edition?: number;
  readonly print: string;
  readonly sealed: boolean;
}

/** Whether a photograph was taken before the work, while it went on, or after it. */
export type PhotoShows = "before" | "during" | "after";

/**
 * The card as it stood when it was signed: enough to see, years later, whether it still comes out the same.
 */
export interface CardRecord {
  readonly state: JobState;
  /** Version of the engine that worked it. */
  readonly engine: string;
  readonly values: readonly { readonly name: string; readonly text: string }[];
  readonly stops: readonly string[];
  readonly cautions: readonly string[];
  readonly steps: readonly string[];
}

/**
 * What a person did to a job. A later `begin` may give the job another title; its book stays the first one's.
 */
export type Deed =
  | { readonly does: "begin"; readonly book: BookRef; readonly title: string }
  /** `text` absent takes the answer back. */
  | { readonly does: "answer"; readonly ask: string; readonly text?: string }
  /** A step ticked with the words that it had; `text` absent takes the tick back. */
  | { readonly does: "tick"; readonly step: string; readonly text?: string }
  /** What was really used; the same `line` again replaces it, without `what` takes it back. */
  | {
      readonly does: "used";
      readonly line: string;
      readonly what?: string;
      readonly amount?: string;
      readonly lot?: string;
      readonly note?: string;
    }
  /** A photograph by the SHA-256 of its bytes in hexadecimal; without `type` takes it back. */
  | {
      readonly does: "photo";
      readonly photo: string;
      readonly type?: string;
      readonly bytes?: number;
      readonly caption?: string;
      readonly shows?: PhotoShows;
    }
  | { readonly does: "note"; readonly line: string; readonly text?: string }
  /** A wait that runs: `ends` in milliseconds since 1970; absent takes it back. */
  | { readonly does: "timer"; readonly timer: string; readonly says?: string; readonly ends?: number }
  | { readonly does: "sign"; readonly name: string; readonly card: CardRecord; readonly note?: string };

export type JobEntry = Deed & {
  /** A UUID: the same entry delivered twice is one. */
  readonly id: string;
  readonly job: string;
  /** Milliseconds since 1970, by the device's clock. */
  readonly at: number;
  readonly device: string;
  /** Who was signed in; absent where nobody is. */
  readonly by?: string;
};

export interface UsedLine {
  readonly line: string;
  readonly what: string;
  readonly amount: string;
  readonly lot: string;
  readonly note: string;
  readonly at: number;
}
export interface PhotoLine {
  readonly photo: string;
  readonly type: string;
  readonly bytes: number;
  readonly caption: string;
  readonly shows?: PhotoShows;
  readonly at: number;
}
export interface NoteLine {
  readonly line: string;
  readonly text: string;
  readonly at: number;
  readonly by?: string;
}
export interface TimerLine {
  readonly timer: string;
  readonly says: string;
  readonly ends: number;
  readonly at: number;
}
export interface Signed {
  readonly at: number;
  readonly name: string;
  readonly by?: string;
  readonly card: CardRecord;
  readonly note?: string;
}

export interface JobRecord {
  readonly id: string;
  readonly book?: BookRef;
  readonly title: string;
  readonly begun: number;
  readonly changed: number;
  readonly answers: Answers;
  readonly ticked: Readonly<Record<string, string>>;
  readonly used: readonly UsedLine[];
  readonly photos: readonly PhotoLine[];
  readonly notes: readonly NoteLine[];
  readonly timers: readonly TimerLine[];
  /** The first signing holds; what came after it is told, never mixed in. */
  readonly signed?: Signed;
  /** Entries made after the signing. */
  readonly after: readonly JobEntry[];
}

/** Earlier first; of two at one moment the one with the smaller id. */
const inTime = (a: JobEntry, b: JobEntry): number => a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/**
 * The job that its entries make: of two deeds about one thing the later holds. Gives the same for any order
 * and any repetition.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function foldJob(id: string, entries: Iterable<JobEntry>): JobRecord {
  const once = new Map<string, JobEntry>();
  for (const entry of entries) if (entry.job === id) once.set(entry.id, entry);
  const sorted = [...once.values()].sort(inTime);
  const answers = new Map<string, string>();
  const ticked = new Map<string, string>();
  const used = new Map<string, UsedLine>();
  const photos = new Map<string, PhotoLine>();
  const notes = new Map<string, NoteLine>();
  const timers = new Map<string, TimerLine>();
  const after: JobEntry[] = [];
  let book: BookRef | undefined;
  let title = "";
  let signed: Signed | undefined;
  for (const entry of sorted) {
    if (signed !== undefined) {
      after.push(entry);
      continue;
    }
    const { at } = entry;
    switch (entry.does) {
      case "begin":
        book ??= entry.book;
        title = entry.title || title;
        break;
      case "answer":
        put(answers, entry.ask, entry.text);
        break;
      case "tick":
        put(ticked, entry.step, entry.text);
        break;
      case "used":
        put(
          used,
          entry.line,
          entry.what === undefined
            ? undefined
            : {
                line: entry.line,
                what: entry.what,
                amount: entry.amount ?? "",
                lot: entry.lot ?? "",
                note: entry.note ?? "",
                at,
              },
        );
        break;
      case "photo":
        put(
          photos,
          entry.photo,
          entry.type === undefined
            ? undefined
            : {
                photo: entry.photo,
                type: entry.type,
                bytes: entry.bytes ?? 0,
                caption: entry.caption ?? "",
                ...(entry.shows === undefined ? {} : { shows: entry.shows }),
                at,
              },
        );
        break;
      case "note":
        put(
          notes,
          entry.line,
          entry.text === undefined
            ? undefined
            : { line: entry.line, text: entry.text, at, ...(entry.by === undefined ? {} : { by: entry.by }) },
        );
        break;
      case "timer":
        put(
          timers,
          entry.timer,
          entry.ends === undefined
            ? undefined
            : { timer: entry.timer, says: entry.says ?? "", ends: entry.ends, at },
        );
        break;
      case "sign":
        signed = {
          at,
          name: entry.name,
          card: entry.card,
          ...(entry.by === undefined ? {} : { by: entry.by }),
          ...(entry.note === undefined ? {} : { note: entry.note }),
        };
        break;
    }
  }
  return {
    id,
    ...(book === undefined ? {} : { book }),
    title,
    begun: sorted[0]?.at ?? 0,
    changed: sorted.at(-1)?.at ?? 0,
    answers: Object.fromEntries(answers),
    ticked: Object.fromEntries(ticked),
    used: [...used.values()],
    photos: [...photos.values()],
    notes: [...notes.values()],
    timers: [...timers.values()],
    ...(signed === undefined ? {} : { signed }),
    after,
  };
}

function put<T>(into: Map<string, T>, key: string, value: T | undefined): void {
  if (value === undefined) into.delete(key);
  else into.set(key, value);
}
