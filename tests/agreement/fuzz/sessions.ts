// One session of the fuzz: a random book, whole or mutated; jobs with good and bad answers; edits one after
// another; and a layer upon it. Each book, job, edit and layer is a case.
import type { Answers } from "../../../core/view.ts";
import { type Book, type Job, tidy, why } from "../../../engine/index.ts";
import { type Chance, chance } from "../../support/chance.ts";
import { mutate } from "../../support/mutate.ts";
import { type Verdict, checkedRead, timed, checkedWork } from "./invariants.ts";

export interface Fault {
  readonly seed: number;
  readonly says: string;
  /** The text, what it stands on, and the answers, as far as they matter. */
  readonly text: string;
  readonly shelf?: readonly string[];
  readonly answers?: Answers;
}

export interface Session {
  readonly cases: number;
  readonly faults: readonly Fault[];
}

const STRANGE_ANSWERS = [
  "",
  "unknown",
  "6",
  "6 mm",
  "1/0",
  "1e308 mm",
  "NaN",
  "6 mm ± 1 mm",
  "yes",
  "-1",
  "3 3/8 inch",
];

function answersTo(by: Chance, book: Book): Answers {
  const answers: Record<string, string> = {};
  for (const { name, answer } of book.asks) {
    if (by.odds(0.2)) continue;
    const good =
      answer.is === "kind"
        ? (by.pick([...answer.words, { word: "" }]).word ?? "")
        : answer.is === "yes-no"
          ? by.pick(["yes", "no"])
          : by.pick([answer.low, answer.high]);
    answers[name] = by.odds(0.25) ? by.pick(STRANGE_ANSWERS) : good;
  }
  return answers;
}

/** The cases of one session are counted, and a fault is kept with what led to it. */
class Run {
  cases = 0;
  readonly faults: Fault[] = [];
  constructor(readonly seed: number) {}
  note(says: Verdict, text: string, more: Omit<Fault, "seed" | "says" | "text"> = {}): void {
    this.cases++;
    if (says !== undefined) this.faults.push({ seed: this.seed, says, text, ...more });
  }
}

export function session(seed: number, sources: readonly string[]): Session {
  const by = chance(seed);
  const run = new Run(seed);
  const source = by.pick(sources);
  const text = by.odds(0.75) ? mutate(by, source) : source;
  const { book, fault } = checkedRead(text);
  run.note(fault, text);
  if (book === undefined) return run;
  jobs(by, run, book, 8);
  let edited = book;
  for (let i = 0; i < 4; i++) {
    const next = mutate(by, by.odds(0.7) ? edited.text : text);
    const read = checkedRead(next, edited);
    run.note(read.fault, next);
    if (read.book === undefined) break;
    edited = read.book;
    jobs(by, run, edited, 3);
  }
  if (by.odds(0.3)) layer(by, run, source);
  if (by.odds(0.1)) tidied(run, text);
  return run;
}

function jobs(by: Chance, run: Run, book: Book, count: number, shelf?: readonly string[]): void {
  let before: Job | undefined;
  for (let i = 0; i < count; i++) {
    const answers = answersTo(by, book);
    const { job, fault } = checkedWork(book, answers, before);
    run.note(fault, book.text, { answers, shelf });
    if (job === undefined) return;
    before = job;
  }
  const row = by.odds(0.2) && book.rows.length > 0 ? by.pick(book.rows) : undefined;
  if (row === undefined || before === undefined) return;
  const job = before;
  const told = timed("a trace", () => why(job, row.id, "full"));
  run.note(told.fault, book.text, { answers: job.answers, shelf });
}

/**
 * A layer made of statements of the book underneath: said instead, dropped, added to; then mutated or not.
 */
function layer(by: Chance, run: Run, under: string): void {
  const head = /^book ([^\s,]+), edition (\d+)/m.exec(under);
  const [name, edition] = head === null ? ["base", "1"] : [head[1]!, head[2]!];
  const base = head === null ? `book base, edition 1\n    "Base"\n${under}` : under;
  const statements = base.split(/\n(?=[a-z])/);
  const parts = [`book top, edition 1, amends ${name}, edition ${edition}\n    "Top"`];
  for (let i = 0; i < 3; i++) {
    const one = by.pick(statements);
    const [keyword, own] = one.split(/\s+/, 2);
    parts.push(
      by.pick([
        `instead ${one}`,
        `instead ${one} when ${own}`,
        `drop ${keyword} ${own} because "Not here"`,
        `${one.split("\n")[0]} add\n${one.split("\n").slice(-2).join("\n")}`,
        `instead figure ${own} = as-before`,
      ]),
    );
  }
  const text = by.odds(0.5) ? mutate(by, parts.join("\n")) : parts.join("\n");
  const shelf = [base];
  const { book, fault } = checkedRead(text, undefined, shelf);
  run.note(fault, text, { shelf });
  if (book !== undefined) jobs(by, run, book, 4, shelf);
}

function tidied(run: Run, text: string): void {
  const { out, fault } = timed("tidying", () => tidy(text));
  const again = out === undefined ? undefined : timed("tidying", () => tidy(out)).out;
  run.note(fault ?? (out === again ? undefined : "tidied twice is not tidied once"), text);
}
