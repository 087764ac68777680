// From the text of one statement to its tree. The tree of a statement depends on its text alone, so
// trees are kept by text: an edit reads one statement anew and finds all the others here.
import { type ILexingError, type IRecognitionException, type IToken, createTokenInstance } from "chevrotain";
import type { Span } from "../../../core/span.ts";
import { type Clause, Grammar } from "./grammar.ts";
import { cutText } from "./text.ts";
import { namesIn } from "./names.ts";
import * as T from "./tokens.ts";
import type {
  Band,
  Body,
  Cell,
  ChartRow,
  Clauses,
  ConditionCell,
  Expr,
  Fault,
  Insert,
  Statement,
  UnitText,
  ValueCell,
  Word,
} from "./tree.ts";

export const STATEMENT_WORDS = [
  "book",
  "part",
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "promise",
  "picture",
  "worked",
  "use",
  "drop",
  "instead",
] as const;
/** Lines of the card: what a technician is told, asked to mind or kept from. */
export const isLine = (word: string): boolean => word === "step" || word === "caution" || word === "stop";
type StatementWord = Exclude<(typeof STATEMENT_WORDS)[number], "instead">;

/** What `instead` may stand before. */
const REPLACED = [
  "kind",
  "ask",
  "dial",
  "figure",
  "formula",
  "chart",
  "list",
  "step",
  "caution",
  "stop",
  "worked",
] as const;

/**
 * Brackets, `not` and `if` deeper than this, and rules of more operations in one chain, are refused: no hand
 * wrote them.
 */
const DEEPEST = 200;
const LONGEST_RULE = 1000;

const grammar = new Grammar();
// Two generations of trees by their texts: what the books of late read, and what those before them did. A
// tree that is met again moves to the young; the old go all at once, so that a day of typing does not pile
// up.
let young = new Map<string, Statement>();
let old = new Map<string, Statement>();

/**
 * To be called before a book of so many statements is read: makes sure that a whole book and its edits are
 * kept, and no more than that.
 */
export function makeRoom(statements: number): void {
  if (young.size <= 2 * statements + 2000) return;
  old = young;
  young = new Map();
}

/** Reads one statement; never throws. Mistakes are in its `faults`, and what could be read is in the rest. */
export function parseStatement(text: string): Statement {
  const known = young.get(text);
  if (known !== undefined) return known;
  const made = old.get(text) ?? parseAnew(text);
  young.set(text, made);
  return made;
}

function parseAnew(text: string): Statement {
  const faults: Fault[] = [];
  const head = /^\S+/.exec(text)?.[0] ?? "";
  const second = head === "instead" ? (/^\S+[ \t]+(\S+)/.exec(text)?.[1] ?? "") : "";
  const word =
    head === "instead"
      ? REPLACED.find((one) => one === second)
      : STATEMENT_WORDS.find((one): one is StatementWord => one === head && one !== "instead");
  if (word === undefined && head === "instead")
    return broken("instead", text, [
      {
        code: "layer/what",
        at: { start: 0, end: text.search(/\n|$/) },
        facts: { verb: "instead", words: REPLACED },
      },
    ]);
  if (word === undefined) {
    const fault: Fault = /^\s/.test(text)
      ? { code: "syntax/stray", at: { start: 0, end: text.search(/\n|$/) }, facts: {} }
      : {
          code: "syntax/statement",
          at: { start: 0, end: head.length },
          facts: { word: head, words: STATEMENT_WORDS },
        };
    return broken(head, text, [fault]);
  }

  const { tokens, errors } = T.lex(text);
  const instead = head === "instead" ? spanOf(tokens.shift()!) : undefined;
  tokens.shift();
  // A promise begins with its rule and has no name: `promise last of rungs.grain <= 1 mm`.
  if (word !== "promise" && tokens[0] !== undefined) tokens.splice(0, 1, ...nameBeforeOf(tokens[0]));
  const open = tokens.find((token) => token.tokenType === T.OpenText);
  if (open !== undefined) faults.push({ code: "syntax/quote", at: spanOf(open), facts: {} });
  for (const error of errors.slice(0, 3)) {
    faults.push({
      code: "syntax/character",
      at: { start: error.offset, end: error.offset + error.length },
      facts: { text: text.slice(error.offset, error.offset + error.length) },
    });
  }
  const tooDeep = deepSpot(tokens);
  if (tooDeep !== undefined) faults.push(tooDeep);
  if (faults.length > 0) return broken(word, text, faults, instead);

  const reading = readSafely(word, text, tokens);
  if ("fault" in reading) return broken(word, text, [reading.fault], instead);
  return finish(text, reading, instead);
}

/**
 * A statement may be called `first` or `one`, although `ask first of side` has the words `first of` in it.
 */
function nameBeforeOf(token: IToken): readonly IToken[] {
  const phrase = /^(one|sum|largest|smallest|count|first|last)(\s+)of$/.exec(token.image);
  if (phrase === null) return [token];
  const name = createTokenInstance(T.Name, phrase[1]!, token.startOffset, NaN, NaN, NaN, NaN, NaN);
  return [
    name,
    createTokenInstance(T.Of, "of", token.startOffset + token.image.length - 2, NaN, NaN, NaN, NaN, NaN),
  ];
}

/** Where a host gives less stack than 200 brackets want, that is a finding of the rule and no throw. */
function readSafely(
  word: StatementWord,
  text: string,
  tokens: IToken[],
): Reading | { readonly fault: Fault } {
  try {
    return read(word, text, tokens);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return {
      fault: { code: "budget/nesting", at: { start: 0, end: word.length }, facts: { most: DEEPEST } },
    };
  }
}

interface Reading {
  readonly body: Body;
  readonly name?: Word;
  readonly clauses: readonly Clause[];
  readonly ruleAt?: Span;
  readonly faults: Fault[];
}

function read(word: StatementWord, text: string, tokens: IToken[]): Reading | { readonly fault: Fault } {
  switch (word) {
    case "book":
      return run(
        text,
        tokens,
        () => grammar.book(),
        ({ name, edition, amends, clauses }) => ({
          name,
          clauses,
          body: {
            keyword: "book",
            ...(edition !== undefined ? { edition } : {}),
            ...(amends ? { amends } : {}),
          },
        }),
      );
    case "part":
      return run(
        text,
        tokens,
        () => grammar.line(),
        ({ name, clauses }) => ({ ...(name ? { name } : {}), clauses, body: { keyword: "part" } }),
      );
    case "kind":
      return run(
        text,
        tokens,
        () => grammar.kind(),
        ({ name, words }) => ({ name, clauses: [], body: { keyword: "kind", words } }),
      );
    case "ask":
      return run(
        text,
        tokens,
        () => grammar.ask(),
        ({ name, declared, range, ruleEnd, clauses }) => ({
          name,
          clauses,
          ruleAt: { start: name.at.end, end: ruleEnd },
          body: { keyword: "ask", declared, ...(range ? { range } : {}) },
        }),
      );
    case "dial":
      return run(
        text,
        tokens,
        () => grammar.dial(),
        ({ name, declared, rule, range, ruleEnd, clauses }) => ({
          name,
          clauses,
          ruleAt: { start: rule.at.start, end: ruleEnd },
          body: { keyword: "dial", declared, rule, ...(range ? { range } : {}) },
        }),
      );
    case "figure":
      return run(
        text,
        tokens,
        () => grammar.figure(),
        ({ name, declared, rule, clauses }) => ({
          name,
          clauses,
          ruleAt: rule.at,
          body: { keyword: "figure", declared, rule },
        }),
      );
    case "formula":
      return run(
        text,
        tokens,
        () => grammar.formula(),
        ({ name, parameters, rule, clauses }) => ({
          name,
          clauses,
          ruleAt: rule.at,
          body: { keyword: "formula", parameters, rule },
        }),
      );
    case "chart":
      return tokens[1]?.image === "add" ? readAdded(text, tokens) : readChart(text, tokens);
    case "list":
      return run(
        text,
        tokens,
        () => grammar.list(),
        ({ name, counter, from, to, columns, ruleEnd, clauses }) => ({
          name,
          clauses,
          ruleAt: { start: from.at.start, end: ruleEnd },
          body: { keyword: "list", counter, from, to, columns },
        }),
      );
    case "step":
    case "caution":
    case "stop":
      return run(
        text,
        tokens,
        () => grammar.line(),
        ({ name, clauses }) => ({
          ...(name ? { name } : {}),
          clauses,
          ...titleAt(clauses),
          body: { keyword: word },
        }),
      );
    case "promise":
      return run(
        text,
        tokens,
        () => grammar.promise(),
        ({ rule, clauses }) => ({ clauses, ruleAt: rule.at, body: { keyword: "promise", rule } }),
      );
    case "picture":
      return run(
        text,
        tokens,
        () => grammar.picture(),
        ({ shape, title, given, clauses }) => ({
          clauses: [...(title ? [{ is: "title" as const, at: title.at, text: title }] : []), ...clauses],
          body: { keyword: "picture", shape, arguments: given },
          ruleAt: {
            start: shape.at.start,
            end: Math.max(shape.at.end, ...given.map((one) => one.rule.at.end)),
          },
        }),
      );
    case "use":
      return run(
        text,
        tokens,
        () => grammar.use(),
        ({ name, edition, clauses }) => ({
          name,
          clauses,
          body: { keyword: "use", ...(edition !== undefined ? { edition } : {}) },
        }),
      );
    case "drop":
      return run(
        text,
        tokens,
        () => grammar.drop(),
        ({ what, target, rule, clauses }) => ({
          clauses,
          body: { keyword: "drop", what, ...(target ? { target } : {}), ...(rule ? { rule } : {}) },
          ...(target ? { ruleAt: target.at } : rule ? { ruleAt: rule.at } : {}),
        }),
      );
    case "worked":
      return run(
        text,
        tokens,
        () => grammar.worked(),
        ({ name, title, given, gives, clauses }) => {
          const extra: Clause[] =
            title === undefined ? clauses : [{ is: "title", at: title.at, text: title }, ...clauses];
          const all = [...given, ...gives];
          return {
            name,
            clauses: extra,
            body: { keyword: "worked", given, gives },
            ...(all.length > 0
              ? {
                  ruleAt: {
                    start: Math.min(...all.map((one) => one.at.start)),
                    end: Math.max(...all.map((one) => one.at.end)),
                  },
                }
              : {}),
          };
        },
      );
  }
}

const titleAt = (clauses: readonly Clause[]): { ruleAt?: Span } => {
  const title = clauses.find((clause) => clause.is === "title");
  return title === undefined ? {} : { ruleAt: title.at };
};

type Made = Omit<Reading, "faults" | "clauses"> & { readonly clauses: readonly Clause[] };

function run<R>(
  text: string,
  tokens: IToken[],
  rule: () => R,
  make: (read: R) => Made,
): Reading | { readonly fault: Fault } {
  const faults: Fault[] = [];
  const read = parseTokens(text, tokens, rule);
  if ("fault" in read) return read;
  fillTexts(text, faults);
  return { ...make(read.made), faults };
}

/** Feeds the parser; gives what the rule made or the first fault. Texts met wait in `grammar.texts`. */
function parseTokens<R>(
  source: string,
  tokens: IToken[],
  rule: () => R,
): { readonly made: R } | { readonly fault: Fault } {
  grammar.source = source;
  grammar.input = tokens;
  const made = rule();
  const [error] = grammar.errors;
  return error === undefined ? { made } : { fault: faultOf(error, source) };
}

function fillTexts(source: string, faults: Fault[]): void {
  const texts = grammar.texts;
  grammar.texts = [];
  for (const { image, offset, pieces } of texts) {
    for (const piece of cutText(image, offset)) {
      if (typeof piece === "string") {
        pieces.push(piece);
        continue;
      }
      const at = { start: piece.start, end: piece.end };
      if (!piece.closed) {
        faults.push({ code: "syntax/brace", at, facts: {} });
        continue;
      }
      const read = readInsert(source, piece.source, piece.offset);
      if ("fault" in read)
        faults.push({ code: "syntax/insert", at, facts: { text: piece.source, ...read.fault.facts } });
      else pieces.push({ at, ...read.made } satisfies Insert);
    }
  }
  grammar.texts = [];
}

function readInsert(
  source: string,
  inner: string,
  offset: number,
): { readonly made: { rule: Expr; unit?: UnitText } } | { readonly fault: Fault } {
  const { tokens, errors } = T.lex(inner);
  for (const token of tokens) token.startOffset += offset;
  const bad: Fault = { code: "syntax/insert", at: { start: offset, end: offset + inner.length }, facts: {} };
  if (errors.length > 0 || tokens.length === 0 || deepSpot(tokens) !== undefined) return { fault: bad };
  return parseTokens(source, tokens, () => grammar.insert());
}

// ───────────── charts: the head by one rule, then each cell by itself ─────────────

function readChart(text: string, tokens: IToken[]): Reading | { readonly fault: Fault } {
  const faults: Fault[] = [];
  const lines = linesOf(text, tokens);
  const headTokens = lines.filter((line) => !line.some((token) => token.tokenType === T.Bar)).flat();
  const rowLines = lines.filter((line) => line.some((token) => token.tokenType === T.Bar));
  const head = parseTokens(text, headTokens, () => grammar.chart());
  if ("fault" in head) return head;
  fillTexts(text, faults);
  const { name, conditions, gives, ruleEnd, clauses } = head.made;

  const cutRows = rowLines.map((line) => cutCells(text, line));
  const header: Cell[] = (cutRows[0] ?? []).map(({ at, text }) => ({ at, text }));
  const width = conditions.length + gives.length;
  // A header that lacks a condition has its own finding; then cells are taken by their order, and none is
  // blamed for it.
  const sound = conditions.every((condition) => header.some((cell) => cell.text === condition.text));
  const isCondition = header.map((cell, i) =>
    sound ? conditions.some((condition) => condition.text === cell.text) : i < conditions.length,
  );
  const rows: ChartRow[] = cutRows.slice(1).map((cells) => {
    const first = cells[0]!;
    const last = cells.at(-1)!;
    const at = { start: first.at.start, end: last.at.end };
    if (cells.length !== width)
      faults.push({ code: "chart/width", at, facts: { has: cells.length, wants: width } });
    return {
      at,
      cells: cells.map((cell, i): ConditionCell | ValueCell => {
        const rule =
          (isCondition[i] ?? i < conditions.length)
            ? grammar.conditionCell.bind(grammar)
            : grammar.rule.bind(grammar);
        const plain = { at: cell.at, text: cell.text };
        const isCond = isCondition[i] ?? i < conditions.length;
        if (cell.tokens.length === 0) {
          if (cells.length === width)
            faults.push({ code: "chart/empty", at: cell.at.end > cell.at.start ? cell.at : at, facts: {} });
          return isCond ? { ...plain, fits: undefined } : { ...plain, rule: undefined };
        }
        const read = parseTokens<unknown>(text, cell.tokens, rule as () => unknown);
        if ("fault" in read) {
          grammar.texts = [];
          if (sound) faults.push(read.fault);
          return isCond ? { ...plain, fits: undefined } : { ...plain, rule: undefined };
        }
        fillTexts(text, faults);
        return isCond
          ? { ...plain, fits: read.made as "any" | Band[] }
          : { ...plain, rule: read.made as Expr };
      }),
    };
  });
  if (rowLines.length === 0) faults.push({ code: "chart/no-rows", at: name.at, facts: { name: name.text } });

  const options = clauses.flatMap((clause) =>
    clause.is === "option" ? [{ at: clause.at, option: clause.option }] : [],
  );
  return {
    name,
    faults,
    clauses: clauses.filter((clause) => clause.is !== "option"),
    ruleAt: { start: conditions[0]!.at.start, end: ruleEnd },
    body: { keyword: "chart", conditions, gives, options, header, rows },
  };
}

/**
 * `chart NAME add`: rows of a chart underneath, which are read within that chart; here only their cells are
 * found.
 */
function readAdded(text: string, tokens: IToken[]): Reading | { readonly fault: Fault } {
  const faults: Fault[] = [];
  const lines = linesOf(text, tokens);
  const isRow = (line: readonly IToken[]) => line.some((token) => token.tokenType === T.Bar);
  const head = parseTokens(text, lines.filter((line) => !isRow(line)).flat(), () => grammar.added());
  if ("fault" in head) return head;
  fillTexts(text, faults);
  const { name, clauses } = head.made;
  const rows = lines.filter(isRow).map((line) => {
    const cells = cutCells(text, line).map(({ at, text }) => ({ at, text }));
    return { at: { start: cells[0]!.at.start, end: cells.at(-1)!.at.end }, cells };
  });
  if (rows.length === 0) faults.push({ code: "layer/no-rows", at: name.at, facts: { name: name.text } });
  return { name, faults, clauses, body: { keyword: "add", rows } };
}

function linesOf(text: string, tokens: readonly IToken[]): IToken[][] {
  const lines: IToken[][] = [];
  let lineEnd = -1;
  for (const token of tokens) {
    if (token.startOffset > lineEnd) {
      lineEnd = text.indexOf("\n", token.startOffset);
      if (lineEnd < 0) lineEnd = text.length;
      lines.push([]);
    }
    lines.at(-1)!.push(token);
  }
  return lines;
}

function cutCells(text: string, line: readonly IToken[]): (Cell & { tokens: IToken[] })[] {
  const cells: IToken[][] = [[]];
  const bars: number[] = [];
  for (const token of line) {
    if (token.tokenType === T.Bar) {
      cells.push([]);
      bars.push(token.startOffset);
    } else cells.at(-1)!.push(token);
  }
  return cells.map((tokens, i) => {
    const first = tokens[0];
    const last = tokens.at(-1);
    const here = i === 0 ? (line[0]?.startOffset ?? 0) : bars[i - 1]! + 1;
    const at = first && last ? { start: first.startOffset, end: endOf(last) } : { start: here, end: here };
    return { at, text: text.slice(at.start, at.end), tokens };
  });
}

// ───────────── clauses, names and faults ─────────────

const ALLOWED: Record<StatementWord | "add", ReadonlySet<Clause["is"]>> = {
  use: new Set(["because"]),
  drop: new Set(["title", "because", "from"]),
  add: new Set(["because", "from"]),
  book: new Set(["title"]),
  part: new Set(["title"]),
  kind: new Set(),
  ask: new Set(["title", "measured", "drawn", "ifUnknown", "because", "from"]),
  dial: new Set(["title", "because", "from"]),
  figure: new Set(["title", "because", "from"]),
  formula: new Set(["title", "because", "from"]),
  chart: new Set(["title", "because", "from", "option"]),
  list: new Set(["title", "because", "from"]),
  step: new Set(["title", "when", "after", "takes", "waits", "because", "from"]),
  caution: new Set(["title", "when", "withSteps", "because", "from"]),
  stop: new Set(["title", "when", "because", "from"]),
  promise: new Set(["title", "when", "because", "from"]),
  picture: new Set(["title", "when", "because", "from"]),
  worked: new Set(["title", "because", "from"]),
};

const CLAUSE_WORDS: Record<Clause["is"], string> = {
  title: "a text",
  because: "because",
  from: "from",
  when: "when",
  takes: "takes",
  waits: "waits",
  measured: "measured to",
  drawn: "drawn as",
  after: "after",
  withSteps: "with",
  ifUnknown: "if unknown take",
  option: "a way of reading rows",
};

function finish(text: string, reading: Reading, instead: Span | undefined): Statement {
  const { body, name, faults } = reading;
  const found: Record<string, unknown> = {};
  for (const clause of reading.clauses) {
    if (
      body.keyword !== "unreadable" &&
      !ALLOWED[body.keyword].has(clause.is) &&
      !(
        instead !== undefined &&
        clause.is === "when" &&
        (body.keyword === "figure" || body.keyword === "formula")
      )
    ) {
      faults.push({
        code: "syntax/clause",
        at: clause.at,
        facts: { clause: CLAUSE_WORDS[clause.is], keyword: body.keyword },
      });
    } else if (clause.is in found) {
      faults.push({ code: "syntax/clause-twice", at: clause.at, facts: { clause: CLAUSE_WORDS[clause.is] } });
    } else {
      switch (clause.is) {
        case "title":
        case "because":
          found[clause.is] = clause.text;
          break;
        case "from":
          found.from = clause.basis;
          break;
        case "when":
        case "takes":
        case "waits":
        case "measured":
          found[clause.is] = clause.rule;
          break;
        case "drawn":
          found.drawn = clause.word;
          break;
        case "after":
          found.after = clause.step;
          break;
        case "withSteps":
          found.withSteps = clause.steps;
          break;
        case "ifUnknown":
          found.ifUnknown = {
            at: clause.at,
            take: clause.take,
            ...(clause.because ? { because: clause.because } : {}),
          };
          break;
        case "option":
          break;
      }
    }
  }
  const clauses = found as Clauses;
  const needsText =
    body.keyword === "step" ||
    body.keyword === "caution" ||
    body.keyword === "stop" ||
    body.keyword === "part";
  if (needsText && clauses.title === undefined)
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

export const BASES: ReadonlySet<string> = new Set([
  "practice",
  "standard",
  "house",
  "label",
  "test",
  "memory",
]);

function broken(meant: string, text: string, faults: readonly Fault[], instead?: Span): Statement {
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

/**
 * The first place where a rule is nested or chained beyond reason. Read from tokens, so that no recursion
 * ever gets that deep.
 */
function deepSpot(tokens: readonly IToken[]): Fault | undefined {
  let depth = 0;
  let nots = 0;
  for (const token of tokens) {
    if (token.tokenType === T.Open) depth++;
    else if (token.tokenType === T.Close) depth--;
    nots =
      token.tokenType === T.Not || token.tokenType === T.Minus || token.tokenType === T.Caret
        ? nots + 1
        : token.tokenType === T.NumberToken || token.tokenType === T.Name
          ? token.tokenType === T.NumberToken
            ? nots
            : 0
          : 0;
    if (depth > DEEPEST || nots > DEEPEST)
      return { code: "budget/nesting", at: spanOf(token), facts: { most: DEEPEST } };
  }
  let operations = 0;
  for (const token of tokens) {
    if (CHAIN_ENDS.has(token.tokenType)) operations = 0;
    else if (CHAINS.has(token.tokenType) && ++operations > LONGEST_RULE)
      return { code: "budget/nesting", at: spanOf(token), facts: { most: LONGEST_RULE, chain: true } };
  }
  return undefined;
}

const CHAINS = new Set([
  T.Plus,
  T.Minus,
  T.Star,
  T.Slash,
  T.Caret,
  T.Of,
  T.And,
  T.Or,
  T.RunOutAt,
  T.PairedAt,
  T.RoundedUp,
  T.RoundedDown,
  T.RoundedNear,
  T.If,
]);
const CHAIN_ENDS = new Set([T.Bar, T.Equals]);

function faultOf(error: IRecognitionException | ILexingError, source: string): Fault {
  const { token, context } = error as IRecognitionException;
  const previous = (error as { previousToken?: IToken }).previousToken;
  const atEnd = token.startOffset === undefined || Number.isNaN(token.startOffset);
  const rules = context?.ruleStack ?? [];
  const facts = {
    found: atEnd ? undefined : token.image,
    after: previous?.image,
    rules: rules.map((rule) => rule.replace(/_.*$/, "")),
    expected: expectedOf(error as IRecognitionException),
  };
  if (atEnd) {
    const from = previous && !Number.isNaN(previous.startOffset) ? endOf(previous) : source.trimEnd().length;
    return {
      code: "syntax/unfinished",
      at: { start: Math.max(0, from - (previous?.image.length || 1)), end: from },
      facts,
    };
  }
  if (token.tokenType === T.SlashUnit)
    return { code: "syntax/tight-slash", at: spanOf(token), facts: { text: token.image } };
  if (RESERVED.has(token.image) && /name/i.test(String(facts.expected)))
    return { code: "syntax/reserved", at: spanOf(token), facts: { word: token.image } };
  return { code: "syntax/unexpected", at: spanOf(token), facts };
}

/**
 * What the parser was about to read where it knows exactly one thing; else nothing, rather than a list of
 * everything.
 */
function expectedOf(error: IRecognitionException): string | undefined {
  return /^Expecting(?: token of type)? --> (.+?) <-- but found/.exec(error.message)?.[1];
}

const RESERVED = new Set(T.RESERVED);
const endOf = (token: IToken): number => token.startOffset + token.image.length;
const spanOf = (token: IToken): Span => ({ start: token.startOffset, end: endOf(token) });

/** Reads what a technician typed as an answer. Undefined where it cannot be read. */
export function parseAnswer(text: string): { readonly value: Expr; readonly tolerance?: Expr } | undefined {
  const { tokens, errors } = T.lex(text);
  if (errors.length > 0 || tokens.length === 0 || tokens.length > 24) return undefined;
  const read = parseTokens(text, tokens, () => grammar.answer());
  grammar.texts = [];
  return "fault" in read ? undefined : read.made;
}
