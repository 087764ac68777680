// Books and jobs, the engine's two products. They are handed out as plain data; what the engine itself needs
// (the checked book, the plan, a job's frame) is held beside them.
import type {
  Answers,
  AskView,
  Finding,
  JobView,
  KindView,
  PictureView,
  Row,
  UnitSystem,
  WorkedView,
} from "../../core/view.ts";
import { type CheckedBook, checkBook } from "../language/check/book.ts";
import { type Under, wholeText } from "../language/layers/compose.ts";
import { type Dependency, contentHash } from "../language/layers/content-hash.ts";
import type { Fault } from "../language/syntax/tree.ts";
import { type Evaluation, evaluate, evaluateEach } from "../program/eval/evaluate.ts";
import { picturesOf } from "../program/eval/pictures.ts";
import { showEvaluation } from "../program/eval/show.ts";
import { checkWorkedExample } from "../program/eval/worked-example.ts";
import { toleranceEffects, turningOf } from "../analysis/sensitivity/tolerances.ts";
import { compileBook } from "../program/plan/compile.ts";
import type { Plan } from "../program/plan/plan.ts";
import { asksOf, kindsOf } from "./asks.ts";
import { type CollectedFindings, collectFindings, noteFault } from "./findings.ts";
import { headOf, rowsOf } from "./rows.ts";
import { plainTitle, sourceOf } from "./statement-words.ts";

export interface Book {
  readonly text: string;
  /**
   * The texts that the book depends on. A position beyond the end of `text` lies in one of them:
   * `wholeTextOf`.
   */
  readonly under: readonly Under[];
  /** The same with a content hash for each, their own dependencies after them; "" for one that is missing. */
  readonly dependencies: readonly Dependency[];
  readonly name: string;
  readonly edition: number | undefined;
  readonly title: string;
  /** Statements in the order of the text. */
  readonly rows: readonly Row[];
  readonly kinds: readonly KindView[];
  readonly asks: readonly AskView[];
  readonly worked: readonly WorkedView[];
  readonly pictures: readonly PictureView[];
  /** All findings of the book, by place. */
  readonly findings: readonly Finding[];
}

export interface Job {
  readonly book: Book;
  readonly answers: Answers;
}

interface Inside {
  readonly checked: CheckedBook;
  readonly plan: Plan;
  /** The job in which nothing is answered. Worked examples start from it. */
  readonly blank: Evaluation | undefined;
  readonly faults: CollectedFindings["faults"];
  readonly raw: CollectedFindings["raw"];
  readonly shelf: readonly string[];
}

const books = new WeakMap<Book, Inside>();
const jobs = new WeakMap<Job, Evaluation>();

/** The engine's own view of a book that it made. */
export function internalsOf(book: Book): Inside {
  const inside = books.get(book);
  if (inside === undefined) throw new Error("This book was not made by readBook.");
  return inside;
}

export function evaluationOf(job: Job): Evaluation {
  const evaluation = jobs.get(job);
  if (evaluation === undefined) throw new Error("This job was not made by workJob.");
  return evaluation;
}

/**
 * Reads and checks a book. `given` are the texts of the available books that it may depend on; left out, they
 * are those of the book before. Given the book before an edit, only what can have changed is done again.
 * Never throws.
 */
export function readBook(text: string, before?: Book, given?: readonly string[]): Book {
  const old = before && books.get(before);
  const shelf = given ?? old?.shelf ?? [];
  const checked = checkBook(text, old?.checked, shelf);
  const plan = compileBook(checked, old?.plan);
  const { worked, blank, late } = runWorkedExamples(checked, plan, old?.blank);
  const collected = collectFindings(checked, late, (under) => internalsOf(underBook(under, shelf)).raw);
  const { findings, faults, raw } = collected;
  const head = headOf(checked);
  const layered = checked.composition !== undefined || old?.checked.composition !== undefined;
  const rowsBefore =
    before === undefined || old === undefined || layered
      ? undefined
      : { rows: before.rows, checked: old.checked };
  const made: Book = {
    text,
    under: checked.composition?.under ?? [],
    dependencies: checked.composition?.dependencies ?? [],
    name: head?.statement.name?.text ?? "",
    edition: head?.statement.body.keyword === "book" ? head.statement.body.edition : undefined,
    title: head ? plainTitle(head) : "",
    rows: rowsOf(checked, findings, rowsBefore),
    kinds: kindsOf(checked),
    asks: asksOf(checked),
    worked,
    pictures: pictureViewsOf(checked),
    findings,
  };
  books.set(made, { checked, plan, blank, faults, raw, shelf });
  return made;
}

/** All worked examples, and the faults that only evaluation finds, by statement. */
function runWorkedExamples(
  checked: CheckedBook,
  plan: Plan,
  blankBefore: Evaluation | undefined,
): {
  readonly worked: readonly WorkedView[];
  readonly blank: Evaluation | undefined;
  readonly late: ReadonlyMap<string, readonly Fault[]>;
} {
  let blank: Evaluation | undefined;
  let evaluateNext: ReturnType<typeof evaluateEach> | undefined;
  const worked: WorkedView[] = [];
  const late = new Map<string, Fault[]>();
  for (const entry of checked.entries) {
    const { statement } = entry;
    const block = plan.byId.get(entry.id);
    if (block?.ops.length === 0 && block.nothing.some((one) => one.reason.code === "formulas-too-large"))
      noteFault(late, entry.id, {
        code: "budget/formulas",
        at: statement.name?.at ?? { start: 0, end: 4 },
        facts: {},
      });
    if (statement.body.keyword !== "worked" || entry.checked.worked === undefined) continue;
    blank ??= evaluate(plan, {}, blankBefore);
    evaluateNext ??= evaluateEach(plan, blank);
    const { view, faults } = workedExample(evaluateNext(entry.checked.worked.answers), entry);
    worked.push(view);
    for (const fault of faults) noteFault(late, entry.id, fault);
  }
  return { worked, blank, late };
}

const workedExample = (
  job: Evaluation,
  entry: CheckedBook["entries"][number],
): ReturnType<typeof checkWorkedExample> => checkWorkedExample(job, entry, turningOf(job));

function pictureViewsOf(checked: CheckedBook): readonly PictureView[] {
  return checked.entries.flatMap((entry) => {
    const { body } = entry.statement;
    if (body.keyword !== "picture") return [];
    const drawn = body.arguments.map((one) => ({ name: one.name.text, rule: sourceOf(entry, one.rule.at) }));
    return [{ id: entry.id, shape: body.shape.text, arguments: drawn }];
  });
}

/** The book's text followed by those that it depends on: positions of rows and findings refer to this. */
export const wholeTextOf = (book: Book): string => wholeText(book.text, book.under);

/**
 * SHA-256 in hex over the book's text with line ends as \n, and over the content hashes of its dependencies.
 */
export const contentHashOf = (book: Book): string => contentHash(book.text, book.dependencies);

/**
 * Evaluates a job. Given the same job before (an older version of the book, or other answers), only what can
 * have changed is evaluated again. Never throws.
 */
export function workJob(book: Book, answers: Answers, before?: Job): Job {
  const job: Job = { book, answers };
  jobs.set(job, evaluate(internalsOf(book).plan, answers, before && jobs.get(before)));
  return job;
}

/** The job as a person reads it. */
export function showJob(job: Job, units: UnitSystem = "book"): JobView {
  const evaluation = evaluationOf(job);
  const doubts = toleranceEffects(evaluation, units);
  const view = showEvaluation(evaluation, units, doubts && turningOf(evaluation, doubts));
  return { ...view, pictures: picturesOf(evaluation, units, view), ...(doubts ? { doubts } : {}) };
}

/** Books underneath, read by themselves: an edit of a layer does not change them. */
let recent: { readonly text: string; readonly shelf: readonly string[]; readonly book: Book }[] = [];
const MAX_RECENT = 24;

function underBook(text: string, shelf: readonly string[]): Book {
  const known = recent.find(
    (one) =>
      one.text === text &&
      one.shelf.length === shelf.length &&
      one.shelf.every((other, i) => other === shelf[i]),
  );
  if (known !== undefined) return known.book;
  const book = readBook(text, undefined, shelf);
  recent = [{ text, shelf, book }, ...recent].slice(0, MAX_RECENT);
  return book;
}
