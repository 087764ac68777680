// Books and jobs at hand in the worker, so that after an edit only what can have changed is done again.
import {
  toleranceEffectsOf,
  readBook,
  showJob,
  relevantQuestionsOf,
  wholeTextOf,
  workJob,
} from "../../../engine/index.ts";
import type { Book, Job } from "../../../engine/index.ts";
import type { JobView, Row } from "../../../core/view.ts";
import type { Before, CardProofs, JobToWork, Snapshot, Wanted } from "./messages.ts";

let current: Book | undefined;
let accepted: Book | undefined;
let worked = new Map<string, Job>();
let workedBefore = new Map<string, Job>();
/** The books at hand, and those that the two books were read with. */
let shelf: readonly string[] = [];
const shelfOf = new WeakMap<Book, readonly string[]>();

const same = (a: readonly string[] | undefined, b: readonly string[]): boolean =>
  a === b || (a !== undefined && a.length === b.length && a.every((text, i) => text === b[i]));
const isOf = (book: Book | undefined, text: string): book is Book =>
  book !== undefined && book.text === text && same(shelfOf.get(book), shelf);

function read(text: string, before: Book | undefined): Book {
  const book = readBook(text, before, shelf);
  shelfOf.set(book, shelf);
  return book;
}

/** All that the screens show, worked from what was worked last. */
export function show(wanted: Wanted): Snapshot {
  const began = performance.now();
  const given = wanted.shelf ?? [];
  if (!same(given, shelf)) shelf = given;
  const book = bookOf(wanted.text);
  const jobs: Record<string, JobView> = {};
  const kept = new Map<string, Job>();
  for (const job of wanted.jobs) {
    const done = workJob(book, job.answers, worked.get(job.id));
    kept.set(job.id, done);
    jobs[job.id] = showJob(done, wanted.units);
  }
  worked = kept;
  const onCard = wanted.card === undefined ? undefined : kept.get(wanted.card);
  const before = wanted.accepted === wanted.text ? undefined : howItStood(book, wanted);
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
    jobs,
    ...(onCard ? { card: proofsOf(wanted.card!, onCard, wanted) } : {}),
    before,
    took: performance.now() - began,
  };
}

function proofsOf(id: string, job: Job, { units }: Wanted): CardProofs {
  const open = toleranceEffectsOf(job, units);
  return { job: id, matters: relevantQuestionsOf(job), ...(open ? { doubts: open } : {}) };
}

/** The same answers worked by the accepted text: so a changed cell differs by the rules alone. */
function howItStood(book: Book, wanted: Wanted): Before {
  if (!isOf(accepted, wanted.accepted)) accepted = read(wanted.accepted, accepted ?? book);
  const old = accepted;
  const jobs: Record<string, JobView> = {};
  const kept = new Map<string, Job>();
  for (const job of wanted.jobs) {
    const done = workJob(old, job.answers, workedBefore.get(job.id));
    kept.set(job.id, done);
    jobs[job.id] = showJob(done, wanted.units);
  }
  workedBefore = kept;

  // What stands underneath is compared in the whole that both are made of.
  const [oldWhole, whole] = [wholeTextOf(old), wholeTextOf(book)];
  const oldText = new Map(
    old.rows.map((row) => [row.id, oldWhole.slice(row.at.start, row.at.end).trimEnd()]),
  );
  const oldRule = new Map(old.rows.map((row) => [row.id, row.rule]));
  const rules: Record<string, string> = {};
  const added: string[] = [];
  const here = new Set<string>();
  // Headings underneath are known by their number, which an own heading shifts; they never change.
  const counts = (row: Row): boolean => row.own || row.keyword !== "part";
  for (const row of book.rows) {
    here.add(row.id);
    if (!counts(row)) continue;
    const was = oldText.get(row.id);
    if (was === undefined) added.push(row.id);
    else if (was !== whole.slice(row.at.start, row.at.end).trimEnd())
      rules[row.id] = oldRule.get(row.id) ?? "";
  }
  return {
    rules,
    added,
    gone: old.rows.filter((row) => counts(row) && !here.has(row.id)).map((row) => row.id),
    jobs,
  };
}

/** The book of this text, read again only where it differs from one at hand. */
export function bookOf(text: string): Book {
  if (isOf(current, text)) return current;
  if (isOf(accepted, text)) return accepted;
  current = read(text, current);
  return current;
}

/** The job worked on this book; what was worked before is used again. */
export function workOn(book: Book, job: JobToWork): Job {
  return workJob(book, job.answers, worked.get(job.id));
}

/** A text that is only tried: read against the book at hand, and not kept. */
export const tryBook = (text: string): Book => readBook(text, current, shelf);
