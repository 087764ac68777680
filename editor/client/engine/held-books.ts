// The worker's books and jobs, kept from one snapshot to the next, so that after an edit only what can have
// changed is done again.
import { readBook, showJob, relevantQuestionsOf, wholeTextOf, workJob } from "../../../engine/index.ts";
import type { Book, Job } from "../../../engine/index.ts";
import type { JobView, Row } from "../../../core/view.ts";
import type { Before, CardProofs, JobToWork, Snapshot, Wanted } from "./messages.ts";

export interface BookCache {
  current?: Book;
  accepted?: Book;
  /** The last jobs, by their ids: of the current book and of the accepted one. */
  jobs: ReadonlyMap<string, Job>;
  acceptedJobs: ReadonlyMap<string, Job>;
  /** The texts that the books may depend on. */
  shelf: readonly string[];
  /** Which texts a book was read with. */
  readonly shelfOf: WeakMap<Book, readonly string[]>;
  /** Books that a content hash names, the last used one last. */
  readonly byHash: Map<string, Book>;
}

/** So many books are held by their hashes: the page's own and those of the jobs that were opened last. */
const mostByHash = 4;

export const emptyCache = (): BookCache => ({
  jobs: new Map(),
  acceptedJobs: new Map(),
  shelf: [],
  shelfOf: new WeakMap(),
  byHash: new Map(),
});

/** All that the screens show. */
export function snapshotOf(cache: BookCache, wanted: Wanted): Snapshot {
  const began = performance.now();
  const shelf = wanted.shelf ?? [];
  if (!sameTexts(shelf, cache.shelf)) cache.shelf = shelf;
  const book = wanted.hash === undefined ? bookOf(cache, wanted.text) : bookByHash(cache, wanted);
  const { jobs, views } = workAll(book, wanted, cache.jobs);
  cache.jobs = jobs;
  const onCard = wanted.card === undefined ? undefined : jobs.get(wanted.card);
  const before = wanted.accepted === wanted.text ? undefined : beforeOf(cache, book, wanted);
  return {
    text: wanted.text,
    accepted: wanted.accepted,
    units: wanted.units,
    name: book.name,
    edition: book.edition,
    title: book.title,
    rows: book.rows,
    kinds: book.kinds,
    asks: book.asks,
    worked: book.worked,
    pictures: book.pictures,
    findings: book.findings,
    under: book.under,
    jobs: views,
    ...(onCard ? { card: proofsOf(wanted.card!, onCard) } : {}),
    before,
    took: performance.now() - began,
  };
}

/** The book of this text, read again only where it differs from those that are held. */
export function bookOf(cache: BookCache, text: string): Book {
  const held = [cache.current, cache.accepted].find((book) => isOf(cache, book, text));
  if (held !== undefined) return held;
  cache.current = read(cache, text, cache.current);
  return cache.current;
}

/** The job by this book; what was worked before is used again. */
export const workOn = (cache: BookCache, book: Book, job: JobToWork): Job =>
  workJob(book, job.answers, cache.jobs.get(job.id));

/** A text that is only tried: read from the current book, and not kept. */
export const tryBook = (cache: BookCache, text: string): Book => readBook(text, cache.current, cache.shelf);

const sameTexts = (a: readonly string[] | undefined, b: readonly string[]): boolean =>
  a === b || (a !== undefined && a.length === b.length && a.every((text, i) => text === b[i]));

const isOf = (cache: BookCache, book: Book | undefined, text: string): book is Book =>
  book !== undefined && book.text === text && sameTexts(cache.shelfOf.get(book), cache.shelf);

function read(cache: BookCache, text: string, before: Book | undefined): Book {
  const book = readBook(text, before, cache.shelf);
  cache.shelfOf.set(book, cache.shelf);
  return book;
}

function bookByHash(cache: BookCache, { text, hash = "" }: Wanted): Book {
  const held = cache.byHash.get(hash);
  const book = isOf(cache, held, text) ? held : bookOf(cache, text);
  cache.current = book;
  cache.byHash.delete(hash);
  cache.byHash.set(hash, book);
  for (const oldest of cache.byHash.keys()) {
    if (cache.byHash.size <= mostByHash) break;
    cache.byHash.delete(oldest);
  }
  return book;
}

function workAll(
  book: Book,
  wanted: Wanted,
  before: ReadonlyMap<string, Job>,
): { readonly jobs: ReadonlyMap<string, Job>; readonly views: Readonly<Record<string, JobView>> } {
  const jobs = new Map(
    wanted.jobs.map(({ id, answers }) => [id, workJob(book, answers, before.get(id))] as const),
  );
  const views = Object.fromEntries([...jobs].map(([id, job]) => [id, showJob(job, wanted.units)] as const));
  return { jobs, views };
}

const proofsOf = (id: string, job: Job): CardProofs => ({ job: id, matters: relevantQuestionsOf(job) });

/** The same answers by the accepted text, so that a cell that differs differs by the rules alone. */
function beforeOf(cache: BookCache, book: Book, wanted: Wanted): Before {
  if (!isOf(cache, cache.accepted, wanted.accepted))
    cache.accepted = read(cache, wanted.accepted, cache.accepted ?? book);
  const old = cache.accepted!;
  const { jobs, views } = workAll(old, wanted, cache.acceptedJobs);
  cache.acceptedJobs = jobs;
  return { ...changedRows(old, book), jobs: views };
}

function changedRows(old: Book, book: Book): Omit<Before, "jobs"> {
  // Books underneath are compared in the whole text that both are made of.
  const [oldWhole, whole] = [wholeTextOf(old), wholeTextOf(book)];
  const oldRows = new Map(old.rows.map((row) => [row.id, row]));
  const textOf = (all: string, row: Row): string => all.slice(row.at.start, row.at.end).trimEnd();
  const rules: [string, string][] = [];
  const added: string[] = [];
  // Headings underneath are known by their number, which an own heading shifts; they never change.
  const counts = (row: Row): boolean => row.own || row.keyword !== "part";
  for (const row of book.rows.filter(counts)) {
    const was = oldRows.get(row.id);
    if (was === undefined) added.push(row.id);
    else if (textOf(oldWhole, was) !== textOf(whole, row)) rules.push([row.id, was.rule]);
  }
  const ids = new Set(book.rows.map((row) => row.id));
  const gone = old.rows.filter((row) => counts(row) && !ids.has(row.id)).map((row) => row.id);
  return { rules: Object.fromEntries(rules), added, gone };
}
