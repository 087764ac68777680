// The record of a job: a set of entries, each made once, on one device, and never changed. What a job is
// follows from its entries alone, however often they arrive, so that tablets can deliver late. On a device
// the device's clock orders them; at the host the order in which the host received them does, whatever any
// clock says.
import type { JobState } from "./job-state.ts";
import type { Answers } from "./view.ts";

/**
 * Which book a card was made by. `print` is SHA-256 of a text: of a sealed edition's own text, whose sealing
 * names the books it depends on; of an unsealed book with everything it depended on
 * (`engine/language/layers/bundle.ts`). Records made before bundles have the hash of the own text alone.
 */
export interface BookRef {
  readonly name: string;
  /** Absent for a book that gives none. */
  readonly edition?: number;
  readonly print: string;
  readonly sealed: boolean;
}

/** A step that was due and was not done, or one that this part does not need. */
export type LeftHow = "skipped" | "not-needed";

/** Whether a photograph was taken before the work, while it went on, or after it. */
export type PhotoShows = "before" | "during" | "after";

/**
 * The card as it was when it was signed: enough to see, years later, whether it still comes out the same.
 */
export interface CardRecord {
  readonly state: JobState;
  /** Version of the engine that worked it. */
  readonly engine: string;
  readonly values: readonly { readonly name: string; readonly text: string }[];
  readonly stops: readonly string[];
  readonly cautions: readonly string[];
  /** Cautions whose condition was still open; absent where there were none. */
  readonly mayApply?: readonly string[];
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
  /** A step left out, with the words that it had, and why; `text` absent takes that back. */
  | {
      readonly does: "leave";
      readonly step: string;
      readonly text?: string;
      readonly how?: LeftHow;
      readonly reason?: string;
    }
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

/** How the host came by an entry. */
export interface Received {
  /** Number of the line in the host's log: those of one delivery have the same. */
  readonly line: number;
  /** Milliseconds since 1970, by the host's clock. */
  readonly at: number;
  /** Who was signed in when it was delivered. */
  readonly by: string;
  /** Milliseconds by which the device's clock was ahead of the host's; absent where it did not say. */
  readonly skew?: number;
}

/** An entry as the host hands it out; one on its device was not received yet. */
export type KeptEntry = JobEntry & { readonly received?: Received };

export interface LeftStep {
  /** The words that it had when it was left out. */
  readonly text: string;
  readonly how: LeftHow;
  readonly reason: string;
}

export interface UsedLine {
  readonly line: string;
  readonly what: string;
  readonly amount: string;
  readonly lot: string;
  readonly note: string;
  readonly at: number;
  readonly received?: Received;
}
export interface PhotoLine {
  readonly photo: string;
  readonly type: string;
  readonly bytes: number;
  readonly caption: string;
  readonly shows?: PhotoShows;
  readonly at: number;
  readonly received?: Received;
}
export interface NoteLine {
  readonly line: string;
  readonly text: string;
  readonly at: number;
  readonly by?: string;
  readonly received?: Received;
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
  readonly received?: Received;
}

export interface JobRecord {
  readonly id: string;
  readonly book?: BookRef;
  /** Other books that the job was begun by as well: the first holds. */
  readonly otherBooks?: readonly BookRef[];
  readonly title: string;
  /** By the clock of the device. */
  readonly begun: number;
  /** By the host's clock where it has received the last entry. */
  readonly changed: number;
  readonly answers: Answers;
  readonly ticked: Readonly<Record<string, string>>;
  /** Steps left out, by id. A step is ticked or left out, never both: the later of the two holds. */
  readonly left: Readonly<Record<string, LeftStep>>;
  readonly used: readonly UsedLine[];
  readonly photos: readonly PhotoLine[];
  readonly notes: readonly NoteLine[];
  readonly timers: readonly TimerLine[];
  /** The first signing holds. What came after it is in `after` and changes nothing else. */
  readonly signed?: Signed;
  /** Entries that stand behind the signing. */
  readonly after: readonly KeptEntry[];
}

/**
 * As the host received them; what came together, and what it has not received, by the device's clock, and at
 * one moment by id.
 */
const inOrder = (a: KeptEntry, b: KeptEntry): number => {
  const [first, second] = [a.received?.line ?? Infinity, b.received?.line ?? Infinity];
  if (first !== second) return first - second;
  return a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
};

/** A job while its entries are gone through. */
interface Fold {
  book: BookRef | undefined;
  readonly otherBooks: Map<string, BookRef>;
  title: string;
  signed: Signed | undefined;
  readonly answers: Map<string, string>;
  readonly ticked: Map<string, string>;
  readonly left: Map<string, LeftStep>;
  readonly used: Map<string, UsedLine>;
  readonly photos: Map<string, PhotoLine>;
  readonly notes: Map<string, NoteLine>;
  readonly timers: Map<string, TimerLine>;
}

/**
 * The job that its entries make: of two deeds about one thing the later holds, and the first signing closes
 * it. Gives the same for any order and any repetition of what is given.
 */
export function foldJob(id: string, entries: Iterable<KeptEntry>): JobRecord {
  const once = new Map<string, KeptEntry>();
  for (const entry of entries) if (entry.job === id) once.set(entry.id, entry);
  const sorted = [...once.values()].sort(inOrder);
  const signing = sorted.findIndex((entry) => entry.does === "sign");
  const counted = signing < 0 ? sorted : sorted.slice(0, signing + 1);
  const fold: Fold = {
    book: undefined,
    otherBooks: new Map(),
    title: "",
    signed: undefined,
    answers: new Map(),
    ticked: new Map(),
    left: new Map(),
    used: new Map(),
    photos: new Map(),
    notes: new Map(),
    timers: new Map(),
  };
  for (const entry of counted) apply(fold, entry);
  const { book, otherBooks, title, signed } = fold;
  return {
    id,
    ...(book === undefined ? {} : { book }),
    ...(otherBooks.size === 0 ? {} : { otherBooks: [...otherBooks.values()] }),
    title,
    begun: sorted[0]?.at ?? 0,
    changed: sorted.reduce((latest, entry) => Math.max(latest, entry.received?.at ?? entry.at), 0),
    answers: Object.fromEntries(fold.answers),
    ticked: Object.fromEntries(fold.ticked),
    left: Object.fromEntries(fold.left),
    used: [...fold.used.values()],
    photos: [...fold.photos.values()],
    notes: [...fold.notes.values()],
    timers: [...fold.timers.values()],
    ...(signed === undefined ? {} : { signed }),
    after: sorted.slice(counted.length),
  };
}

function apply(fold: Fold, entry: KeptEntry): void {
  switch (entry.does) {
    case "begin":
      fold.book ??= entry.book;
      if (entry.book.print !== fold.book.print) fold.otherBooks.set(entry.book.print, entry.book);
      fold.title = entry.title || fold.title;
      break;
    case "answer":
      put(fold.answers, entry.ask, entry.text);
      break;
    case "tick":
      put(fold.ticked, entry.step, entry.text);
      fold.left.delete(entry.step);
      break;
    case "leave":
      put(fold.left, entry.step, leftStep(entry));
      fold.ticked.delete(entry.step);
      break;
    case "used":
      put(fold.used, entry.line, usedLine(entry));
      break;
    case "photo":
      put(fold.photos, entry.photo, photoLine(entry));
      break;
    case "note":
      put(fold.notes, entry.line, noteLine(entry));
      break;
    case "timer":
      put(fold.timers, entry.timer, timerLine(entry));
      break;
    case "sign":
      fold.signed = signedBy(entry);
      break;
  }
}

type Entry<D extends Deed["does"]> = Extract<KeptEntry, { does: D }>;

const receivedOf = ({ received }: KeptEntry): { received?: Received } =>
  received === undefined ? {} : { received };

const leftStep = ({ text, how, reason }: Entry<"leave">): LeftStep | undefined =>
  text === undefined ? undefined : { text, how: how ?? "skipped", reason: reason ?? "" };

const usedLine = (entry: Entry<"used">): UsedLine | undefined => {
  const { line, what, amount, lot, note, at } = entry;
  return what === undefined
    ? undefined
    : { line, what, amount: amount ?? "", lot: lot ?? "", note: note ?? "", at, ...receivedOf(entry) };
};

const photoLine = (entry: Entry<"photo">): PhotoLine | undefined => {
  const { photo, type, bytes, caption, shows, at } = entry;
  return type === undefined
    ? undefined
    : {
        photo,
        type,
        bytes: bytes ?? 0,
        caption: caption ?? "",
        ...(shows === undefined ? {} : { shows }),
        at,
        ...receivedOf(entry),
      };
};

const noteLine = (entry: Entry<"note">): NoteLine | undefined => {
  const { line, text, at, by } = entry;
  return text === undefined
    ? undefined
    : { line, text, at, ...(by === undefined ? {} : { by }), ...receivedOf(entry) };
};

const timerLine = ({ timer, says, ends, at }: Entry<"timer">): TimerLine | undefined =>
  ends === undefined ? undefined : { timer, says: says ?? "", ends, at };

const signedBy = (entry: Entry<"sign">): Signed => {
  const { at, name, card, by, note } = entry;
  return {
    at,
    name,
    card,
    ...(by === undefined ? {} : { by }),
    ...(note === undefined ? {} : { note }),
    ...receivedOf(entry),
  };
};

function put<T>(into: Map<string, T>, key: string, value: T | undefined): void {
  if (value === undefined) into.delete(key);
  else into.set(key, value);
}
