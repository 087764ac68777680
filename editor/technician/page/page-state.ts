// What the job page holds besides the jobs of the device, and what follows from it: which screen is shown,
// and what the engine is asked to evaluate. Pure.
import type { JobRecord } from "../../../core/record.ts";
import type { JobView, UnitSystem } from "../../../core/view.ts";
import type { Drafts } from "../../card/answer-drafts.ts";
import type { Snapshot, Wanted } from "../../client/engine/messages.ts";
import type { WordKey } from "../../ui/words/en.ts";
import type { KeptText } from "../store/record-storage.ts";
import type { Sealed, SealedBook } from "../store/sealed-books.ts";

/** An edition that was sealed while the page was open. */
export interface SealedNews {
  readonly edition: number;
  /** The open job has answers already, so it stays with its own book. */
  readonly begun: boolean;
  /** The edition of that book, where it has one. */
  readonly from: number | undefined;
}

export interface PageState {
  /** The book for new jobs: its key in the list of books; "" before one is chosen. */
  readonly key: string;
  readonly text: string;
  readonly print: string;
  /** Texts of the books that it depends on, and no others; absent where it depends on none. */
  readonly shelf?: readonly string[] | undefined;
  /** The book of the open job, where it is another one; `book` undefined if this device does not have it. */
  readonly other?: { readonly print: string; readonly book: KeptText | undefined };
  readonly units: UnitSystem;
  readonly drafts: Drafts;
  readonly sealed: Sealed;
  readonly snapshot?: Snapshot;
  readonly trouble?: { readonly key: WordKey; readonly reason: string };
  /** Shown until it is read. */
  readonly news?: SealedNews;
  /** The list of books is on the screen. */
  readonly choosing?: boolean;
}

export const emptyPage: PageState = {
  key: "",
  text: "",
  print: "",
  units: "book",
  drafts: {},
  sealed: { books: [], faulty: {} },
};

/**
 * The text of the open job's book, also after that book was changed elsewhere. Undefined if this device does
 * not have it.
 */
const textOfJob = (page: PageState): string | undefined =>
  page.other === undefined ? page.text : page.other.book?.text;

/** The content hash that names the book of the open job. */
export const printOfJob = (page: PageState): string => page.other?.print ?? page.print;

/** The open job's book is not on this device. */
export const isWithoutBook = (page: PageState): boolean =>
  page.other !== undefined && page.other.book === undefined;

/** The open job as evaluated by its own book; undefined until that has been done. */
export function viewOfJob(page: PageState, job: string): JobView | undefined {
  return page.snapshot?.text === textOfJob(page) ? page.snapshot?.jobs[job] : undefined;
}

export type PageScreen =
  | { readonly is: "choosing" }
  | { readonly is: "without-book" }
  | { readonly is: "reading" }
  | { readonly is: "job"; readonly snapshot: Snapshot; readonly view: JobView };

export function screenOf(page: PageState, job: string): PageScreen {
  const view = viewOfJob(page, job);
  if (page.choosing) return { is: "choosing" };
  if (isWithoutBook(page)) return { is: "without-book" };
  if (page.snapshot === undefined || view === undefined) return { is: "reading" };
  return { is: "job", snapshot: page.snapshot, view };
}

/** There is something on the screen besides "Reading the book…". */
export const hasFirstScreen = (page: PageState): boolean =>
  page.snapshot !== undefined || page.choosing === true || page.trouble !== undefined;

/**
 * What the engine is asked for the open job; `sameAs` is equal for equal requests. Undefined while the job's
 * own book is still being looked up, or where this device does not have it.
 */
export function requestFor(
  page: PageState,
  { id, answers, book }: JobRecord,
): { readonly wanted: Wanted; readonly sameAs: string } | undefined {
  const text = textOfJob(page);
  const print = printOfJob(page);
  if (text === undefined || (book?.print ?? page.print) !== print) return undefined;
  const shelf = page.other === undefined ? page.shelf : page.other.book?.under;
  return {
    sameAs: JSON.stringify([id, answers, page.units, print]),
    wanted: {
      text,
      accepted: text,
      jobs: [{ id, answers }],
      units: page.units,
      card: id,
      hash: print,
      ...(shelf === undefined ? {} : { shelf }),
    },
  };
}

/**
 * What to tell about an edition that has just been sealed. Undefined where the page has its very text
 * already: that is no news.
 */
export function newsOf(sealed: SealedBook, page: PageState, open: JobRecord): SealedNews | undefined {
  if (sealed.print === page.print) return undefined;
  return { edition: sealed.number, begun: open.book !== undefined, from: open.book?.edition };
}

/** What went wrong, from the sentence of the engine's client. */
export const troubleOf = (says: string): NonNullable<PageState["trouble"]> =>
  says.startsWith("Working this out took")
    ? { key: "page.restarted", reason: "" }
    : { key: "page.failed", reason: says.replace(/ Your text is kept\.$/, "") };
