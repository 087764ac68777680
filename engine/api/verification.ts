// The proofs of a book and of a job, as the rest of the program asks for them. The long ones are done in
// portions: the caller goes on with them for as long as it likes, shows how far they are, and stops when it
// wants to.
import type { Answers, MutationTestView, RelevantQuestionsView, VerificationView } from "../../core/view.ts";
import { answerInWords } from "../../core/answer-words.ts";
import { type TextEdit, applyEdits } from "../../core/span.ts";
import { placed } from "../language/syntax/split.ts";
import { stateOf } from "../program/eval/frame.ts";
import { type Book, type Job, internalsOf, readBook, showJob, workJob, evaluationOf } from "./book.ts";
import { MutationTest, type Subject } from "../analysis/mutation/mutation-test.ts";
import { relevantQuestions } from "../analysis/sensitivity/relevant-questions.ts";
import { type Examples, Verification } from "../analysis/verify/verification.ts";
import { type Evaluation, evaluate, evaluateEach } from "../program/eval/evaluate.ts";
import { workedFrom } from "./worked-example-text.ts";

export interface Portioned<View> {
  /**
   * Goes on by about so much (boxes of jobs, or changes tried), and stops within it once it is late; true
   * when there is no more to do.
   */
  readonly advance: (amount: number, late?: () => boolean) => boolean;
  readonly view: () => View;
}

const examplesOf = (book: Book): readonly Evaluation[] =>
  book.worked.map((one) => evaluate(internalsOf(book).plan, one.answers));

/** The same one after the other, for what looks at each only once. */
function examplesInTurn(book: Book): Examples {
  const { plan, blank } = internalsOf(book);
  let next: ReturnType<typeof evaluateEach> | undefined;
  return {
    count: book.worked.length,
    evaluate: (i) => {
      next ??= evaluateEach(plan, blank ?? evaluate(plan, {}));
      return next(book.worked[i]!.answers);
    },
  };
}

/** Whether a job breaks a promise in the book with some dials turned: it is read and worked again. */
function breaksWith(book: Book, dials: Answers, answers: Answers, id: string): boolean {
  const turned = withDials(book, dials);
  if (turned === undefined) return false;
  const { plan } = internalsOf(turned);
  const promise = plan.promises.find((block) => block.id === id);
  if (promise === undefined) return false;
  const { frame } = evaluate(plan, answers);
  if (frame.num[promise.when] === 0) return true;
  const stopped = plan.registers.byName.get("stopped!")!;
  return (
    stateOf(frame, promise.when) === "impossible" &&
    frame.num[stopped] !== 1 &&
    stateOf(frame, stopped) !== "unknown"
  );
}

/** The same setting is asked about more than once in a row. */
const lastTurned = new WeakMap<Book, { readonly key: string; readonly turned: Book | undefined }>();

/** The book read again with dials turned; undefined where it cannot be read so. */
function withDials(book: Book, dials: Answers): Book | undefined {
  const key = JSON.stringify(dials);
  const last = lastTurned.get(book);
  if (last?.key === key) return last.turned;
  const turned = readTurned(book, dials);
  lastTurned.set(book, { key, turned });
  return turned;
}

function readTurned(book: Book, dials: Answers): Book | undefined {
  const { checked } = internalsOf(book);
  const edits: TextEdit[] = [];
  let added = "";
  for (const [name, value] of Object.entries(dials)) {
    const entry = checked.entries[checked.byName.get(name) ?? -1];
    if (entry?.statement.body.keyword !== "dial") return undefined;
    const at = placed(entry.piece, entry.statement.body.rule.at);
    const text = answerInWords(value);
    if (at.end <= book.text.length) edits.push({ at, text });
    else added += `\ninstead dial ${name} = ${text}\n`;
  }
  const turned = readBook(applyEdits(book.text, edits) + added, book);
  return turned.findings.some((one) => one.code.startsWith("unit/")) ? undefined : turned;
}

const verifications = new WeakMap<Portioned<VerificationView>, Verification>();

/**
 * What the book promises, and whether it holds. Given the verification before an edit, verdicts that the edit
 * cannot change are kept.
 */
export function verificationOf(
  book: Book,
  before?: Portioned<VerificationView>,
): Portioned<VerificationView> {
  const { plan } = internalsOf(book);
  const verification = new Verification(
    plan,
    examplesInTurn(book),
    {
      works: (p, answers) => evaluate(p, answers),
      breaksWith: (id, dials, job) => breaksWith(book, dials, job, id),
    },
    before && verifications.get(before),
  );
  const made: Portioned<VerificationView> = {
    advance: (boxes, late) => verification.advance(boxes, late),
    view: () => verification.view(),
  };
  verifications.set(made, verification);
  return made;
}

/** How well the worked examples guard the book. */
export function mutationTestOf(book: Book): Portioned<MutationTestView> {
  const subjectOf = (of: Book): Subject => {
    const { plan } = internalsOf(of);
    // Only the unchanged book is asked what its examples reach.
    return {
      text: of.text,
      plan,
      examples: of === book ? examplesOf(of) : [],
      passing: new Set(of.worked.filter((one) => one.passes).map((one) => one.name)),
      errors: of.findings.filter((finding) => finding.weight === "error").length,
    };
  };
  const test = new MutationTest(
    subjectOf(book),
    (text) => subjectOf(readBook(text, book)),
    (answers, name, id) => {
      const job = workJob(book, answers);
      const row = book.rows.find((one) => one.id === id);
      const gives = showJob(job).values.flatMap((value) =>
        row?.name !== undefined && (value.name === row.name || value.name.startsWith(`${row.name}.`))
          ? [value.name]
          : [],
      );
      return workedFrom(job, name, `Guards ${id}`, gives);
    },
  );
  return { advance: (changes) => test.advance(changes), view: () => test.view() };
}

/** Which unanswered asks can still change the card, the one that settles soonest first. */
export const relevantQuestionsOf = (job: Job): RelevantQuestionsView => relevantQuestions(evaluationOf(job));
