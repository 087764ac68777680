// From what the grammar read to a statement: which clauses it may have, what it lacks, and which names it
// uses.
// Also the statement that cannot be read.
import type { Span } from "../../../core/span.ts";
import type { Clause } from "./grammar-clauses.ts";
import { namesIn } from "./names.ts";
import type { Reading } from "./parser.ts";
import { BASES, STATEMENT_WORDS, type StatementWord, isLine } from "./statement-words.ts";
import type { Body, Clauses, Fault, Statement, Word } from "./tree.ts";

const ALLOWED: Record<StatementWord | "add", ReadonlySet<Clause["is"]>> = {
  use: new Set(["because"]),
  drop: new Set(["title", "because", "from"]),
  add: new Set(["because", "from"]),
  book: new Set(["title"]),
  part: new Set(["title"]),
  kind: new Set(),
  ask: new Set(["title", "measured", "drawn", "ifUnknown", "ifBlank", "ifEither", "because", "from"]),
  dial: new Set(["title", "because", "from"]),
  figure: new Set(["title", "because", "from"]),
  formula: new Set(["title", "because", "from"]),
  chart: new Set(["title", "because", "from", "option"]),
  list: new Set(["title", "because", "from"]),
  step: new Set(["title", "when", "after", "takes", "waits", "because", "from"]),
  caution: new Set(["title", "when", "withSteps", "because", "from"]),
  stop: new Set(["title", "when", "then", "because", "from"]),
  refer: new Set(["title", "when", "then", "because", "from"]),
  promise: new Set(["title", "when", "because", "from"]),
  picture: new Set(["title", "when", "because", "from"]),
  worked: new Set(["title", "because", "from"]),
};

const CLAUSE_WORDS: Record<Clause["is"], string> = {
  title: "a text",
  because: "because",
  then: "then",
  from: "from",
  when: "when",
  takes: "takes",
  waits: "waits",
  measured: "measured to",
  drawn: "drawn as",
  after: "after",
  withSteps: "with",
  ifUnknown: "if unknown take",
  ifBlank: "if blank take",
  ifEither: "if blank or unknown take",
  option: "a way of reading rows",
};

/** The statement that a reading makes: clauses sorted, what is missing or too much among its faults. */
export function finish(text: string, reading: Reading, instead: Span | undefined): Statement {
  const { body, name, faults } = reading;
  const clauses = sortClauses(reading, instead !== undefined);
  faults.push(...missing(reading, clauses));
  const statement = {
    text,
    ...(name ? { name } : {}),
    body,
    clauses,
    ...(instead ? { instead } : {}),
    ...(reading.ruleAt ? { ruleAt: reading.ruleAt } : {}),
    faults,
  };
  const { uses, needs } = namesIn(statement);
  return { ...statement, uses, needs };
}

/** In a layer, a figure or formula that replaces another may do so under a condition. */
const allows = (body: Body, clause: Clause["is"], instead: boolean): boolean =>
  body.keyword === "unreadable" ||
  ALLOWED[body.keyword].has(clause) ||
  (instead && clause === "when" && (body.keyword === "figure" || body.keyword === "formula"));

function sortClauses({ body, clauses, faults }: Reading, instead: boolean): Clauses {
  const found: Record<string, unknown> = {};
  for (const clause of clauses) {
    const facts = { clause: CLAUSE_WORDS[clause.is] };
    if (!allows(body, clause.is, instead))
      faults.push({ code: "syntax/clause", at: clause.at, facts: { ...facts, keyword: body.keyword } });
    else if (partsOf(clause).some((part) => part in found))
      faults.push({ code: "syntax/clause-twice", at: clause.at, facts });
    else if (clause.is !== "option") for (const part of partsOf(clause)) found[part] = contentOf(clause);
  }
  return found as Clauses;
}

/** What one clause says: what is taken for a blank and for "cannot tell" may be said at once. */
const partsOf = ({ is }: Clause): readonly string[] => (is === "ifEither" ? ["ifUnknown", "ifBlank"] : [is]);

function contentOf(clause: Exclude<Clause, { is: "option" }>): Clauses[keyof Clauses] {
  switch (clause.is) {
    case "title":
    case "because":
    case "then":
      return clause.text;
    case "from":
      return clause.basis;
    case "when":
    case "takes":
    case "waits":
    case "measured":
      return clause.rule;
    case "drawn":
      return clause.word;
    case "after":
      return clause.step;
    case "withSteps":
      return clause.steps;
    case "ifUnknown":
    case "ifBlank":
    case "ifEither":
      return {
        at: clause.at,
        take: clause.take,
        ...(clause.because ? { because: clause.because } : {}),
      };
  }
}

function missing({ body, name }: Reading, clauses: Clauses): readonly Fault[] {
  const faults: Fault[] = [];
  if ((isLine(body.keyword) || body.keyword === "part") && clauses.title === undefined)
    faults.push({
      code: "syntax/no-text",
      at: name?.at ?? { start: 0, end: body.keyword.length },
      facts: { keyword: body.keyword },
    });
  if (body.keyword === "step" && name === undefined)
    faults.push({ code: "syntax/no-name", at: { start: 0, end: 4 }, facts: { keyword: "step" } });
  if (clauses.from !== undefined && !BASES.has(clauses.from.kind))
    faults.push({
      code: "basis/unknown",
      at: clauses.from.at,
      facts: { word: clauses.from.kind, words: [...BASES] },
    });
  return faults;
}

/** A statement that cannot be read. It keeps its name, so that what uses the name is not reported. */
export function broken(meant: string, text: string, faults: readonly Fault[], instead?: Span): Statement {
  const named = /^(?:instead[ \t]+)?\S+[ \t]+([\p{L}][\p{L}\p{M}\p{N}]*(?:-[\p{L}\p{M}\p{N}]+)*)/u.exec(text);
  const wantsName =
    STATEMENT_WORDS.some((word) => word === meant) &&
    !["part", "promise", "picture", "drop", "instead"].includes(meant);
  const name: Word | undefined =
    named && wantsName
      ? { at: { start: named[0].length - named[1]!.length, end: named[0].length }, text: named[1]! }
      : undefined;
  return {
    text,
    ...(name ? { name } : {}),
    body: { keyword: "unreadable", meant },
    clauses: {},
    ...(instead ? { instead } : {}),
    uses: [],
    needs: [],
    faults,
  };
}
