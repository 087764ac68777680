// The engine in a worker of its own, so that no book, however large, stops the hand that types.
import { expose } from "comlink";
import { about, addChartRow, chartOf, colour, insertStatement, moveStatement, offers, places, readBook, removeChartRow, removeStatement, rename, setCell, showJob, tidy, why, workJob, workedFrom } from "../../../engine/index.ts";
import type { Book, Job } from "../../../engine/index.ts";
import { applyEdits } from "../../../core/span.ts";
import type { TextEdit } from "../../../core/span.ts";
import type { JobView } from "../../../core/view.ts";
import type { Before, EngineCalls, JobToWork, Snapshot, StatementEdit, Wanted } from "./shapes.ts";

const calls: EngineCalls = {
  show,
  why: (text, job, name, depth, units) => why(workOn(bookOf(text), job), name, depth, units),
  chart: (text, name) => chartOf(bookOf(text), name),
  edit: (text, edit) => editOf(bookOf(text), edit),
  attempt: (text, within, caret) => {
    const book = readBook(text, current);
    const findings = book.findings.filter((finding) => finding.at.start <= within.end && finding.at.end >= within.start);
    return caret === undefined ? { findings } : { findings, offers: offers(book, caret) };
  },
  offers: (text, offset) => offers(bookOf(text), offset),
  about: (text, offset) => about(bookOf(text), offset),
  places: (text, offset) => places(bookOf(text), offset),
  rename: (text, offset, to) => rename(bookOf(text), offset, to),
  colour,
  tidy,
  workedFrom: (text, job, name, title, gives) => workedFrom(workOn(bookOf(text), job), name, title, gives),
};
expose(calls);

let current: Book | undefined;
let accepted: Book | undefined;
let worked = new Map<string, Job>();
let workedBefore = new Map<string, Job>();

function show(wanted: Wanted): Snapshot {
  const began = performance.now();
  const book = bookOf(wanted.text);
  const jobs: Record<string, JobView> = {};
  const kept = new Map<string, Job>();
  for (const job of wanted.jobs) {
    const done = workJob(book, job.answers, worked.get(job.id));
    kept.set(job.id, done);
    jobs[job.id] = showJob(done, wanted.units);
  }
  worked = kept;
  const before = wanted.accepted === wanted.text ? undefined : howItStood(book, wanted);
  return {
    text: wanted.text, accepted: wanted.accepted, units: wanted.units,
    name: book.name, edition: book.edition, title: book.title,
    rows: book.rows, kinds: book.kinds, asks: book.asks, worked: book.worked, pictures: book.pictures, findings: book.findings,
    jobs, before, took: performance.now() - began,
  };
}

/** The same answers worked by the accepted text: so a changed cell differs by the rules alone. */
function howItStood(book: Book, wanted: Wanted): Before {
  if (accepted?.text !== wanted.accepted) accepted = readBook(wanted.accepted, accepted ?? book);
  const old = accepted;
  const jobs: Record<string, JobView> = {};
  const kept = new Map<string, Job>();
  for (const job of wanted.jobs) {
    const done = workJob(old, job.answers, workedBefore.get(job.id));
    kept.set(job.id, done);
    jobs[job.id] = showJob(done, wanted.units);
  }
  workedBefore = kept;

  const oldText = new Map(old.rows.map((row) => [row.id, old.text.slice(row.at.start, row.at.end).trimEnd()]));
  const oldRule = new Map(old.rows.map((row) => [row.id, row.rule]));
  const rules: Record<string, string> = {};
  const added: string[] = [];
  const here = new Set<string>();
  for (const row of book.rows) {
    here.add(row.id);
    const was = oldText.get(row.id);
    if (was === undefined) added.push(row.id);
    else if (was !== book.text.slice(row.at.start, row.at.end).trimEnd()) rules[row.id] = oldRule.get(row.id) ?? "";
  }
  return { rules, added, gone: old.rows.filter((row) => !here.has(row.id)).map((row) => row.id), jobs };
}

function bookOf(text: string): Book {
  if (current?.text === text) return current;
  if (accepted?.text === text) return accepted;
  current = readBook(text, current);
  return current;
}

function workOn(book: Book, job: JobToWork): Job {
  return workJob(book, job.answers, worked.get(job.id));
}

function editOf(book: Book, edit: StatementEdit): readonly TextEdit[] {
  switch (edit.does) {
    case "insert": return insertStatement(book, edit.after, edit.statement);
    case "move": return moveStatement(book, edit.id, edit.after);
    case "remove": return removeStatement(book, edit.id);
    case "set-cell": return setCell(book, edit.chart, edit.row, edit.column, edit.text);
    case "add-row": return addChartRow(book, edit.chart, edit.after, edit.cells);
    case "remove-row": return removeChartRow(book, edit.chart, edit.row);
    case "several": {
      let so = book;
      for (const one of edit.edits) so = readBook(applyEdits(so.text, editOf(so, one)), so);
      return so.text === book.text ? [] : [{ at: { start: 0, end: book.text.length }, text: so.text }];
    }
  }
}
