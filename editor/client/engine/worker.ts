// The workbench's engine, in a worker of its own: however large the book, typing is not held up.
import {
  about,
  addChartRow,
  chartOf,
  tokenColours,
  insertStatement,
  insteadOf,
  moveStatement,
  completionsAt,
  occurrencesAt,
  readBook,
  removeChartRow,
  removeStatement,
  rename,
  setCell,
  tidy,
  sensitivityOfJob,
  why,
  workedFrom,
} from "../../../engine/index.ts";
import type { Book } from "../../../engine/index.ts";
import { applyEdits } from "../../../core/span.ts";
import type { TextEdit } from "../../../core/span.ts";
import { cardRecord } from "./card-record.ts";
import { drawing } from "./answer-drawing.ts";
import type { EditReply, EngineCalls, StatementEdit } from "./messages.ts";
import { bookHere, jobHere, serve, tryHere, updateHere } from "./served.ts";

const calls: EngineCalls = {
  update: updateHere,
  why: (text, job, name, depth, units) => why(jobHere(text, job), name, depth, units),
  closeCalls: (text, job) => sensitivityOfJob(jobHere(text, job)),
  cardRecord,
  getReady: () => undefined,
  drawing,
  chart: (text, name) => chartOf(bookHere(text), name),
  edit: (text, edit) => editReply(bookHere(text), edit),
  outline: (text) => {
    const { rows, findings, under } = bookHere(text);
    return { text, rows, findings, under };
  },
  attempt: (text, within, caret) => {
    const book = tryHere(text);
    const findings = book.findings.filter(
      (finding) => finding.at.start <= within.end && finding.at.end >= within.start,
    );
    return caret === undefined ? { findings } : { findings, offers: completionsAt(book, caret) };
  },
  offers: (text, offset) => completionsAt(bookHere(text), offset),
  about: (text, offset) => about(bookHere(text), offset),
  places: (text, offset) => occurrencesAt(bookHere(text), offset),
  rename: renameAll,
  colour: tokenColours,
  colourEach: (statements) => statements.map(tokenColours),
  tidy,
  insteadOf: (text, id) => insteadOf(bookHere(text), id),
  workedFrom: (text, job, name, title, gives) => workedFrom(jobHere(text, job), name, title, gives),
};
serve<EngineCalls>(calls);

/** A new name changes no value, so the accepted text takes it as well: nothing then seems to have moved. */
function renameAll(
  text: string,
  accepted: string,
  offset: number,
  to: string,
): ReturnType<EngineCalls["rename"]> {
  const book = bookHere(text);
  const from = occurrencesAt(book, offset)?.name ?? "";
  const renamed = rename(book, offset, to);
  if ("refused" in renamed) return renamed;
  if (accepted === text) return { edits: renamed.edits, acceptedEdits: renamed.edits, from };
  const row = book.rows.find((one) => one.nameAt !== undefined && one.name === from);
  const old = bookHere(accepted);
  const at = row && old.rows.find((one) => one.id === row.id)?.nameAt;
  const before = at ? rename(old, at.start, to) : undefined;
  return { edits: renamed.edits, acceptedEdits: before && "edits" in before ? before.edits : [], from };
}

/** The book with an inserted statement in it is read here: the page asks for it next. */
function editReply(book: Book, edit: StatementEdit): EditReply {
  const edits = editOf(book, edit);
  if (edit.does !== "insert" || edits.length === 0) return { edits };
  const before = new Set(book.rows.map((row) => row.id));
  const { rows } = bookHere(applyEdits(book.text, edits));
  const row =
    rows.find((one) => !before.has(one.id) && one.keyword !== "part") ??
    rows.find((one) => one.own && one.id === edit.after);
  return { edits, ...(row === undefined ? {} : { row: row.id }) };
}

function editOf(book: Book, edit: StatementEdit): readonly TextEdit[] {
  switch (edit.does) {
    case "insert":
      return insertStatement(book, edit.after, edit.statement);
    case "move":
      return moveStatement(book, edit.id, edit.after);
    case "remove":
      return removeStatement(book, edit.id);
    case "set-cell":
      return setCell(book, edit.chart, edit.row, edit.column, edit.text);
    case "add-row":
      return addChartRow(book, edit.chart, edit.after, edit.cells);
    case "remove-row":
      return removeChartRow(book, edit.chart, edit.row);
    case "several": {
      let so = book;
      for (const one of edit.edits) so = readBook(applyEdits(so.text, editOf(so, one)), so);
      return so.text === book.text ? [] : [{ at: { start: 0, end: book.text.length }, text: so.text }];
    }
  }
}
