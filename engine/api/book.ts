// Books and jobs, the engine's two things. They are handed out as plain data; what the engine needs to go on
// from them (the checked book, the plan, a job's frame) is kept beside them and is nobody else's business.
import { typeName } from "../../core/type.ts";
import { writeValue } from "../../core/format.ts";
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
import type { Span } from "../../core/span.ts";
import { type CheckedBook, type Entry, checkBook } from "../language/check/book.ts";
import { type Under, wholeText } from "../language/layers/compose.ts";
import { type Dependency, contentHash } from "../language/layers/content-hash.ts";
import { placed } from "../language/syntax/split.ts";
import { toFinding } from "../language/check/findings/index.ts";
import { compileBook } from "../program/plan/compile.ts";
import type { Plan } from "../program/plan/plan.ts";
import { checkWorkedExample } from "../program/eval/worked-example.ts";
import { picturesOf } from "../program/eval/pictures.ts";
import { oneLine, showEvaluation } from "../program/eval/show.ts";
import { type Evaluation, evaluateEach, evaluate } from "../program/eval/evaluate.ts";
import { attributeFindings } from "../language/check/attribute-findings.ts";
import type { Signature } from "../language/check/scope.ts";
import type { Fault } from "../language/syntax/tree.ts";

export interface Book {
  readonly text: string;
  /**
   * The texts that the book stands on. A place beyond the end of `text` lies in one of them: see `wholeText`.
   */
  readonly under: readonly Under[];
  /**
   * The same with a fingerprint for each, those that they stand on after them; "" for one that is not at
   * hand.
   */
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
  /**
   * The job in which nothing is answered; each worked example differs from it only in what follows from its
   * answers.
   */
  readonly blank: Evaluation | undefined;
  readonly faults: ReadonlyMap<Entry, readonly Finding[]>;
  /** Findings where they stand, those underneath too, for books that stand on this one. */
  readonly raw: readonly Finding[];
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
 * Reads and checks a book. `given` are the texts of the books at hand that it may stand on; left out, they
 * are those of the book before. Given the book as it stood before the edit, only what can have changed is
 * done again. Never throws.
 */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function readBook(text: string, before?: Book, given?: readonly string[]): Book {
  const old = before && books.get(before);
  const shelf = given ?? old?.shelf ?? [];
  const checked = checkBook(text, old?.checked, shelf);
  const plan = compileBook(checked, old?.plan);
  let blank: Evaluation | undefined;
  let turn: ReturnType<typeof evaluateEach> | undefined;
  const worked: WorkedView[] = [];
  const late = new Map<string, Fault[]>();
  for (const entry of checked.entries) {
    const block = plan.byId.get(entry.id);
    if (block?.ops.length === 0 && block.nothing.some((one) => one.reason.code === "formulas-too-large"))
      note(late, entry.id, {
        code: "budget/formulas",
        at: entry.statement.name?.at ?? { start: 0, end: 4 },
        facts: {},
      });
    if (entry.statement.body.keyword !== "worked" || entry.checked.worked === undefined) continue;
    blank ??= evaluate(plan, {}, old?.blank);
    turn ??= evaluateEach(plan, blank);
    const { view, faults } = checkWorkedExample(turn(entry.checked.worked.answers), entry);
    worked.push(view);
    for (const fault of faults) note(late, entry.id, fault);
  }
  const { findings, faults, raw } = collect(checked, late, shelf);
  const head = checked.entries.find(
    (entry) => entry.statement.body.keyword === "book" && entry.from?.own !== false,
  );
  const made: Book = {
    text,
    under: checked.composition?.under ?? [],
    dependencies: checked.composition?.dependencies ?? [],
    name: head?.statement.name?.text ?? "",
    edition: head?.statement.body.keyword === "book" ? head.statement.body.edition : undefined,
    title: head ? plainTitle(head) : "",
    rows: rowsOf(
      checked,
      findings,
      before !== undefined &&
        old !== undefined &&
        checked.composition === undefined &&
        old.checked.composition === undefined
        ? { rows: before.rows, checked: old.checked }
        : undefined,
    ),
    kinds: checked.entries.flatMap((entry) =>
      entry.statement.body.keyword === "kind" && entry.statement.name
        ? [
            {
              name: entry.statement.name.text,
              words: entry.statement.body.words.map((one) => ({
                word: one.word,
                means: plainText(one.means),
              })),
            },
          ]
        : [],
    ),
    asks: asksOf(checked),
    worked,
    pictures: checked.entries.flatMap((entry) =>
      entry.statement.body.keyword === "picture"
        ? [
            {
              id: entry.id,
              shape: entry.statement.body.shape.text,
              arguments: entry.statement.body.arguments.map((one) => ({
                name: one.name.text,
                rule: sourceOf(entry, one.rule.at),
              })),
            },
          ]
        : [],
    ),
    findings,
  };
  books.set(made, { checked, plan, blank, faults, raw, shelf });
  return made;
}

/** The book's text and, behind it, those that it stands on, as the places of rows and findings count. */
export const wholeTextOf = (book: Book): string => wholeText(book.text, book.under);

/**
 * SHA-256 in hex over the book's text, line ends made one, and over the fingerprints of all that it stands
 * on.
 */
export const contentHashOf = (book: Book): string => contentHash(book.text, book.dependencies);

/**
 * Works a job. Given the same job as worked before (an older book, or other answers), only what can have
 * changed is worked again. Never throws.
 */
export function workJob(book: Book, answers: Answers, before?: Job): Job {
  const job: Job = { book, answers };
  jobs.set(job, evaluate(internalsOf(book).plan, answers, before && jobs.get(before)));
  return job;
}

/** The job as a person reads it. */
export function showJob(job: Job, units: UnitSystem = "book"): JobView {
  const evaluation = evaluationOf(job);
  const view = showEvaluation(evaluation, units);
  return { ...view, pictures: picturesOf(evaluation, units, view) };
}

// ───────────── findings ─────────────

function note(faults: Map<string, Fault[]>, id: string, fault: Fault): void {
  faults.set(id, [...(faults.get(id) ?? []), fault]);
}

/**
 * Findings of all statements. In a book that stands on others, those that the others have by themselves are
 * left out.
 */
function collect(
  checked: CheckedBook,
  late: ReadonlyMap<string, readonly Fault[]>,
  shelf: readonly string[],
): {
  readonly findings: readonly Finding[];
  readonly faults: Map<Entry, readonly Finding[]>;
  readonly raw: readonly Finding[];
} {
  const faults = new Map<Entry, readonly Finding[]>();
  const findings: Finding[] = checked.whole.map((fault) => toFinding(fault, undefined));
  for (const entry of checked.entries) {
    const all = [
      ...entry.checked.faults,
      ...entry.texts.faults,
      ...entry.above,
      ...(late.get(entry.id) ?? []),
    ];
    if (all.length === 0) continue;
    // One statement can have the same fault from a rule read twice; it is told once.
    const seen = new Set<string>();
    const made = all
      .map((fault) => toFinding(fault, entry.piece))
      .filter((one) => {
        const key = `${one.code} ${one.at.start} ${one.at.end} ${one.says}`;
        if (seen.has(key)) return false;
        seen.add(key);
        return true;
      });
    faults.set(entry, made);
    findings.push(...made);
  }
  findings.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
  if (checked.composition === undefined) return { findings, faults, raw: findings };
  const known = checked.composition.direct.map(({ of, start }) => ({
    start,
    raw: internalsOf(underBook(of.text, shelf)).raw,
  }));
  return { ...attributeFindings(checked, faults, findings, known), raw: findings };
}

/** Books underneath, read by themselves: an edit of a layer leaves them as they were. */
let lately: { readonly text: string; readonly shelf: readonly string[]; readonly book: Book }[] = [];
const MOST_KEPT = 24;

function underBook(text: string, shelf: readonly string[]): Book {
  const known = lately.find(
    (one) =>
      one.text === text &&
      one.shelf.length === shelf.length &&
      one.shelf.every((other, i) => other === shelf[i]),
  );
  if (known !== undefined) return known.book;
  const book = readBook(text, undefined, shelf);
  lately = [{ text, shelf, book }, ...lately].slice(0, MOST_KEPT);
  return book;
}

// ───────────── rows ─────────────

const sourceOf = (entry: Entry, at: Span): string => oneLine(entry.statement.text.slice(at.start, at.end));

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function rowsOf(
  checked: CheckedBook,
  findings: readonly Finding[],
  before?: { readonly rows: readonly Row[]; readonly checked: CheckedBook },
): readonly Row[] {
  const counts = countIn(checked, findings);
  // Who uses whom stays as it was when every statement has its name and its uses: then a row that has not
  // moved stays too.
  const sameUses =
    before !== undefined &&
    before.checked.entries.length === checked.entries.length &&
    checked.entries.every((entry, i) => {
      const old = before.checked.entries[i]!;
      return (
        old.statement === entry.statement ||
        (old.id === entry.id &&
          old.statement.body.keyword === entry.statement.body.keyword &&
          old.statement.uses.join() === entry.statement.uses.join())
      );
    });
  const usedBy = sameUses ? undefined : usersOf(checked);
  let part = "";
  const own =
    checked.entries.find((entry) => entry.statement.body.keyword === "book" && entry.from?.own !== false)
      ?.statement.name?.text ?? "";
  const rows = checked.entries.map((entry, i): Row => {
    const { statement, piece } = entry;
    const { body, name } = statement;
    const keyword = body.keyword;
    if (keyword === "part") part = plainTitle(entry);
    const old = sameUses ? before.rows[i]! : undefined;
    const { errors, warnings } = counts[i]!;
    if (
      old !== undefined &&
      before!.checked.entries[i]!.checked === entry.checked &&
      before!.checked.entries[i]!.statement === statement &&
      old.at.start === piece.at.start &&
      old.lead.start === piece.lead.start &&
      old.part === part &&
      before!.checked.entries[i]!.from === entry.from &&
      old.layer === (entry.from?.layer ?? own) &&
      old.errors === errors &&
      old.warnings === warnings
    )
      return old;
    const signature = entry.checked.signature;
    const key =
      keyword === "kind" ? `kind ${name?.text}` : keyword === "step" ? `step ${name?.text}` : name?.text;
    return {
      id: entry.id,
      keyword: keyword === "add" ? "chart" : keyword,
      part,
      layer: entry.from?.layer ?? own,
      own: entry.from?.own ?? true,
      ...(entry.from?.was ? { was: entry.from.was } : {}),
      ...(name ? { name: entry.from?.beneath ?? name.text, nameAt: placed(piece, name.at) } : {}),
      at: piece.at,
      lead: piece.lead,
      ...(statement.ruleAt ? { ruleAt: placed(piece, statement.ruleAt) } : {}),
      ...wordsOf(statement),
      type: signature ? typeWords(signature) : "",
      unit: signature?.unit?.symbol ?? "",
      uses:
        old?.uses ??
        statement.uses.flatMap((one) => {
          const at = checked.byName.get(one);
          return at === undefined || at === i ? [] : [checked.entries[at]!.id];
        }),
      usedBy: old?.usedBy ?? ((key && usedBy?.get(key)) || []),
      errors,
      warnings,
    };
  });
  // A rule that is kept only as the value underneath is no row of its own.
  if (checked.composition === undefined) return rows;
  const seen = (ids: readonly string[], self: string) =>
    [...new Set(ids.map((id) => visible.get(id) ?? id))].filter((id) => id !== self);
  const visible = new Map(
    checked.entries.flatMap((entry) => {
      const hidden = entry.from?.hidden;
      const at = hidden === undefined ? undefined : checked.byName.get(hidden);
      return at === undefined ? [] : [[entry.id, checked.entries[at]!.id] as const];
    }),
  );
  return rows.flatMap((row, i) =>
    checked.entries[i]!.from?.hidden === undefined
      ? [{ ...row, uses: seen(row.uses, row.id), usedBy: seen(row.usedBy, row.id) }]
      : [],
  );
}

function usersOf(checked: CheckedBook): Map<string, string[]> {
  const usedBy = new Map<string, string[]>();
  for (const entry of checked.entries) {
    const own = entry.statement.name?.text;
    for (const name of entry.statement.uses) {
      if (name === own) continue;
      const known = usedBy.get(name);
      if (known === undefined) usedBy.set(name, [entry.id]);
      else known.push(entry.id);
    }
  }
  return usedBy;
}

type Words = Pick<Row, "rule" | "title" | "because" | "basis">;

// A statement's words follow from its text alone, its type's from its signature: an edit leaves nearly all as
// they were.
const words = new WeakMap<Entry["statement"], Words>();
const types = new WeakMap<Signature, string>();

function wordsOf(statement: Entry["statement"]): Words {
  const known = words.get(statement);
  if (known !== undefined) return known;
  const { text, ruleAt, clauses, body } = statement;
  const made: Words = {
    rule: ruleAt
      ? oneLine(text.slice(ruleAt.start, ruleAt.end))
      : body.keyword === "unreadable"
        ? oneLine(text.split("\n")[0]!)
        : "",
    title: plainText(clauses.title),
    ...(clauses.because ? { because: plainText(clauses.because) } : {}),
    ...(clauses.from
      ? {
          basis:
            clauses.from.detail === undefined
              ? clauses.from.kind
              : `${clauses.from.kind} "${clauses.from.detail}"`,
        }
      : {}),
  };
  words.set(statement, made);
  return made;
}

function typeWords(signature: Signature): string {
  const known = types.get(signature);
  if (known !== undefined) return known;
  const made = `${typeName(signature.type)}${signature.unit ? ` in ${signature.unit.symbol}` : ""}`;
  types.set(signature, made);
  return made;
}

function countIn(
  checked: CheckedBook,
  findings: readonly Finding[],
): readonly { errors: number; warnings: number }[] {
  const counts = checked.entries.map(() => ({ errors: 0, warnings: 0 }));
  // A book that stands on others has its statements in another order than its text.
  const order = checked.entries.map((_, at) => at);
  if (checked.composition !== undefined)
    order.sort((a, b) => checked.entries[a]!.piece.at.start - checked.entries[b]!.piece.at.start);
  let i = 0;
  for (const finding of findings) {
    while (i + 1 < order.length && checked.entries[order[i + 1]!]!.piece.at.start <= finding.at.start) i++;
    const count = counts[order[i]!];
    if (count === undefined) continue;
    if (finding.weight === "error") count.errors++;
    else if (finding.weight === "warning") count.warnings++;
  }
  return counts;
}

const plainTitle = (entry: Entry): string => wordsOf(entry.statement).title;

/** A text with its inserts as they are written. */
function plainText(text: Entry["statement"]["clauses"]["title"]): string {
  return (text?.pieces ?? [])
    .map((piece) =>
      typeof piece === "string" ? piece : `{${piece.rule.is === "name" ? piece.rule.name : "…"}}`,
    )
    .join("");
}

// ───────────── asks ─────────────

function asksOf(checked: CheckedBook): readonly AskView[] {
  let part = "";
  return checked.entries.flatMap((entry) => {
    if (entry.statement.body.keyword === "part") part = plainTitle(entry);
    return askOf(checked, entry, part) ?? [];
  });
}

function askOf(checked: CheckedBook, entry: Entry, part: string): AskView | undefined {
  const { statement } = entry;
  const { signature, ask } = entry.checked;
  if (
    statement.body.keyword !== "ask" ||
    signature === undefined ||
    ask === undefined ||
    statement.name === undefined
  )
    return undefined;
  if (checked.entries[checked.byName.get(statement.name.text)!] !== entry) return undefined;
  const { type, unit } = signature;
  const { ifUnknown } = statement.clauses;
  const answer: AskView["answer"] | undefined =
    type.is === "kind"
      ? { is: "kind", kind: type.kind, words: meaningsOf(checked, type.kind, type.words) }
      : type.is === "yes-no"
        ? { is: "yes-no" }
        : type.is === "anything"
          ? undefined
          : {
              is: "quantity",
              unit: unit?.symbol ?? "",
              low: writeValue(ask.low, type, unit),
              high: writeValue(ask.high, type, unit),
              ...(ask.resolution !== undefined
                ? {
                    resolution:
                      type.is === "temperature"
                        ? `${Math.round((ask.resolution / (unit?.factor ?? 1)) * 1e6) / 1e6} ${unit?.symbol ?? ""}`
                        : writeValue(ask.resolution, type, unit),
                  }
                : {}),
            };
  if (answer === undefined) return undefined;
  return {
    name: statement.name.text,
    question: plainTitle(entry) || statement.name.text,
    part,
    answer,
    ...(ask.drawn ? { drawn: ask.drawn } : {}),
    ...(ifUnknown
      ? {
          ifUnknown: {
            take: sourceOf(entry, ifUnknown.take.at),
            ...(ifUnknown.because ? { because: plainText(ifUnknown.because) } : {}),
          },
        }
      : {}),
  };
}

function meaningsOf(
  checked: CheckedBook,
  kind: string,
  words: readonly string[],
): readonly { readonly word: string; readonly means: string }[] {
  const at = checked.byName.get(`kind ${kind}`);
  const body = at === undefined ? undefined : checked.entries[at]!.statement.body;
  const means = new Map(
    body?.keyword === "kind" ? [...body.words].reverse().map((one) => [one.word, one.means] as const) : [],
  );
  return words.map((word) => ({ word, means: plainText(means.get(word)) }));
}
