// The engine for the technician's page: it works and explains a job, and carries nothing that edits a book.
import { expose } from "comlink";
import { whatWouldChange, why } from "../../../engine/index.ts";
import { drawing } from "./drawing.ts";
import type { JobCalls } from "./shapes.ts";
import { bookOf, cardRecord, show, workOn } from "./work.ts";

const calls: JobCalls = {
  show,
  why: (text, job, name, depth, units) => why(workOn(bookOf(text), job), name, depth, units),
  closeCalls: (text, job) => whatWouldChange(workOn(bookOf(text), job)),
  cardRecord,
  drawing,
};
expose(calls);
