// The engine in a worker of its own, so that no book, however large, stops the hand that types.
import { expose } from "comlink";
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
import { drawing } from "./drawing.ts";
import type { EngineCalls, StatementEdit } from "./messages.ts";
import { bookOf, show, tryBook, workOn } from "./open-books.ts";

const calls: EngineCalls = {
  show,
  why: (text, job, name, depth, units) => why(workOn(bookOf(text), job), name, depth, units),
  closeCalls: (text, job) => sensitivityOfJob(workOn(bookOf(text), job)),
  cardRecord,
  getReady: () => undefined,
  drawing,
  chart: (text, name) => chartOf(bookOf(text), name),
  edit: (text, edit) => editOf(bookOf(text), edit),
  attempt: (text, within, caret) => {
    const book = tryBook(text);
    const findings = book.findings.filter(
      (finding) => finding.at.start <= within.end && finding.at.end >= within.start,
    );
    return caret === undefined ? { findings } : { findings, offers: completionsAt(book, caret) };
  },
  offers: (text, offset) => completionsAt(bookOf(text), offset),
  about: (text, offset) => about(bookOf(text), offset),
  places: (text, offset) => occurrencesAt(bookOf(text), offset),
  rename: renameAll,
  colour: tokenColours,
  colourEach: (statements) => statements.map(tokenColours),
  tidy,
  insteadOf: (text, id) => insteadOf(bookOf(text), id),
  workedFrom: (text, job, name, title, gives) => workedFrom(workOn(bookOf(text), job), name, title, gives),
};
expose(calls);

/** A new name changes no value, so the accepted text takes it as well: nothing then seems to have moved. */
function renameAll(
  text: string,
  accepted: string,
  offset: number,
  to: string,
): ReturnType<EngineCalls["rename"]> {
  const book = bookOf(text);
  const from = occurrencesAt(book, offset)?.name ?? "";
  const renamed = rename(book, offset, to);
  if ("refused" in renamed) return renamed;
  if (accepted === text) return { edits: renamed.edits, acceptedEdits: renamed.edits, from };
  const row = book.rows.find((one) => one.nameAt !== undefined && one.name === from);
  const old = bookOf(accepted);
  const at = row && old.rows.find((one) => one.id === row.id)?.nameAt;
  const before = at ? rename(old, at.start, to) : undefined;
  return { edits: renamed.edits, acceptedEdits: before && "edits" in before ? before.edits : [], from };
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
