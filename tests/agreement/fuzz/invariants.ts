// What must hold of every book and every job, however mutated: nothing throws, each finding points at text,
// each number is finite, and nothing takes a second.
import { cpuUsage } from "node:process";
import type { Answers, Finding } from "../../../core/view.ts";
import { type Book, type Job, readBook, showJob, wholeTextOf, workJob } from "../../../engine/index.ts";

/** Milliseconds of the processor that one call may take. */
const SLOWEST = 1000;

/** A fault in one sentence; undefined where all is well. */
export type Verdict = string | undefined;

/** Runs one call. One that was slow is run once more: the first call of a kind may pay for warming up. */
export function timed<T>(what: string, run: () => T): { readonly out?: T; readonly fault: Verdict } {
  try {
    const before = cpuUsage();
    const out = run();
    if (cpuUsage(before).user / 1000 <= SLOWEST) return { out, fault: undefined };
    const again = cpuUsage();
    run();
    const took = cpuUsage(again).user / 1000;
    return { out, fault: took > SLOWEST ? `${what} takes ${Math.round(took)} ms` : undefined };
  } catch (error) {
    const stack = (error as Error).stack?.split("\n").slice(0, 5).join("\n");
    return { fault: `${what} throws ${stack}` };
  }
}

export interface Read {
  readonly book?: Book;
  readonly fault: Verdict;
}

export function checkedRead(text: string, before?: Book, shelf?: readonly string[]): Read {
  const { out, fault } = timed("reading", () => readBook(text, before, shelf));
  return { book: out, fault: fault ?? (out && bookFault(out)) };
}

function bookFault(book: Book): Verdict {
  const length = book.text.length;
  const whole = wholeTextOf(book).length;
  for (const finding of book.findings) {
    const fault = findingFault(finding, length, whole);
    if (fault !== undefined) return fault;
  }
  const row = book.rows.find(({ at }) => !(at.start >= 0 && at.start < at.end && at.end <= whole));
  return row && `row ${row.id} stands at ${row.at.start} to ${row.at.end} of ${whole}`;
}

function findingFault({ at, code, says, also, repairs }: Finding, length: number, whole: number): Verdict {
  const inside = (start: number, end: number, most: number) => start >= 0 && start <= end && end <= most;
  // A text without a character has no place to point at.
  const empty = length === 0 && at.start === 0;
  if (!empty && !(at.start < at.end && inside(at.start, at.end, length))) {
    return `${code} points at ${at.start} to ${at.end} of ${length}`;
  }
  if (says.trim() === "") return `${code} says nothing`;
  const other = also.find((one) => !inside(one.at.start, one.at.end, whole));
  if (other !== undefined) return `${code} also points at ${other.at.start} to ${other.at.end} of ${whole}`;
  const edit = repairs.flatMap((one) => one.edits).find((one) => !inside(one.at.start, one.at.end, length));
  return edit && `${code} repairs ${edit.at.start} to ${edit.at.end} of ${length}`;
}

export interface Done {
  readonly job?: Job;
  readonly fault: Verdict;
}

export function checkedWork(book: Book, answers: Answers, before?: Job): Done {
  const { out, fault } = timed("a job", () => {
    const job = workJob(book, answers, before);
    return { job, view: showJob(job) };
  });
  if (out === undefined || fault !== undefined) return { fault };
  const wrong = out.view.values.find(({ value }) => typeof value === "number" && !Number.isFinite(value));
  if (wrong !== undefined) return { fault: `${wrong.name} is ${String(wrong.value)}` };
  const unclear = out.view.findings.find((one) => one.says.trim() === "" || !(one.ask in answers));
  return {
    job: out.job,
    fault: unclear && `the answer to ${unclear.ask} has the finding ${unclear.code}: ${unclear.says}`,
  };
}
