// Lays a book's text out evenly: charts, kinds and lists in columns, indents in fours, one space where the
// language wants one. Only blanks and the brackets of a mixed `and`/`or` are touched, so meaning, comments
// and order stay.
import type { IToken } from "chevrotain";
import { parseStatement } from "./parse.ts";
import { partsOf } from "./names.ts";
import { splitBook } from "./split.ts";
import * as T from "./tokens.ts";
import type { Expr, Statement } from "./tree.ts";

/** The text in even layout. Doing it twice is doing it once. */
export function tidy(given: string): string {
  // Line ends of every make become one; a carriage return elsewhere is a blank, as it is to the language. So
  // is a byte order mark behind empty lines at the top, which would be a statement there and none in the
  // first place.
  const text = given
    .replace(/\r+\n/g, "\n")
    .replace(/\r/g, " ")
    .replace(/^\n+\ufeff[\n\ufeff]*/, "");
  const pieces = splitBook(text);
  let out = "";
  let done = 0;
  for (const piece of pieces) {
    out += lead(text.slice(done, piece.at.start), out === "") + tidyStatement(piece.text);
    done = piece.at.end;
  }
  const rest = lead(text.slice(done), out === "").replace(/\n+$/, "");
  return out + (rest.trim() === "" ? "" : rest) + (out === "" && rest.trim() === "" ? "" : "\n");
}

/**
 * Comments and blank lines between statements: no more than two blank lines together, no blanks at line ends.
 */
const lead = (text: string, first: boolean): string => {
  const clean = text.replace(/[ \t]+(?=\n|$)/g, "").replace(/\n{4,}/g, "\n\n\n");
  return first ? clean.replace(/^\n+/, "") : clean;
};

function tidyStatement(clean: string): string {
  const statement = parseStatement(clean);
  // What cannot be read is left alone but for blanks at line ends: tidying must not make a mistake harder to
  // see.
  if (
    statement.body.keyword === "unreadable" ||
    statement.faults.some((fault) => fault.code.startsWith("syntax/"))
  )
    return clean.replace(/[ \t]+(?=\n|$)/g, "");
  const bracketed = withBrackets(clean, statement);
  const lines = bracketed.split("\n").map(readLine);
  if (statement.body.keyword === "chart" || statement.body.keyword === "add") align(lines, "|");
  if (statement.body.keyword === "kind") alignKind(lines);
  if (statement.body.keyword === "list") align(lines, "=");
  return lines.map(writeLine).join("\n");
}

interface Line {
  indent: number;
  readonly first: boolean;
  /** Parts that are in columns; one where the line has no columns. */
  cells: string[];
  join: string;
  readonly comment: string;
  readonly tokens: readonly IToken[];
}

function readLine(source: string, index: number): Line {
  const expanded = source.replace(/\t/g, "    ");
  const body = expanded.trimStart();
  const { tokens } = T.lex(body);
  const end = tokens.length === 0 ? 0 : tokens.at(-1)!.startOffset + tokens.at(-1)!.image.length;
  const comment = body.slice(end).trim();
  const indent =
    index === 0 ? 0 : body === "" ? 0 : Math.max(4, Math.round((expanded.length - body.length) / 4) * 4);
  return {
    indent: index > 0 && expanded.length === body.length && body.startsWith("--") ? 0 : indent,
    first: index === 0,
    cells: [space(body, tokens)],
    join: "",
    comment,
    tokens,
  };
}

function writeLine(line: Line): string {
  const body = line.cells.join(line.join);
  const comment = line.comment ? `${body ? " " : ""}${line.comment}` : "";
  return `${" ".repeat(line.indent)}${body}${comment}`.trimEnd();
}

// ───────────── blanks inside a line ─────────────

const SPACED = new Set([
  T.Plus,
  T.Star,
  T.Slash,
  T.Caret,
  T.Equals,
  T.Less,
  T.More,
  T.AtMost,
  T.AtLeast,
  T.Bar,
  T.PlusMinus,
]);
const VALUE_ENDS = new Set([
  T.Name,
  T.NumberToken,
  T.Fraction,
  T.Mixed,
  T.Ratio,
  T.Close,
  T.SlashUnit,
  T.DegreeUnit,
  T.PowerUnit,
  T.Percent,
  T.TextToken,
  T.Yes,
  T.No,
  T.Known,
  T.Whole,
  T.Among,
  T.Edition,
  T.Amends,
  T.Apart,
  T.ByMass,
  T.ByVolume,
]);

function space(body: string, tokens: readonly IToken[]): string {
  let out = "";
  let unary = false;
  for (const [i, token] of tokens.entries()) {
    const previous = tokens[i - 1];
    const image = token.tokenType === T.TextToken ? token.image : token.image.replace(/\s+/g, " ");
    if (previous === undefined) {
      out = image;
      unary = token.tokenType === T.Minus;
      continue;
    }
    const gap = token.startOffset > previous.startOffset + previous.image.length;
    out += (between(previous, token, gap, unary) ? " " : "") + image;
    unary = token.tokenType === T.Minus && !VALUE_ENDS.has(previous.tokenType);
  }
  void body;
  return out;
}

function between(previous: IToken, token: IToken, gap: boolean, unary: boolean): boolean {
  const [a, b] = [previous.tokenType, token.tokenType];
  if (b === T.Comma || b === T.Close || b === T.Dot || a === T.Dot || a === T.Open) return false;
  if (a === T.Comma || SPACED.has(a) || SPACED.has(b)) return true;
  // Two minuses that touch would begin a comment.
  if (a === T.Minus && unary) return b === T.Minus;
  if (a === T.Minus || b === T.Minus) return true;
  if (b === T.Open) return a === T.Name ? gap : true;
  return true;
}

// ───────────── columns ─────────────

function align(lines: Line[], sign: "|" | "="): void {
  const rows = lines.filter(
    (line) =>
      !line.first &&
      line.cells[0]!.split("").some((c) => c === sign) &&
      (sign === "|" ? line.tokens.some((token) => token.tokenType === T.Bar) : headOfColumn(line)),
  );
  for (const row of rows) {
    row.cells = cutAt(row, sign);
    row.join = sign === "|" ? " | " : " = ";
  }
  // Where the first cell is empty, the blanks before the bar are the cell and no indent.
  for (const row of rows) if (row.cells[0] === "") row.indent = 4;
  const count = Math.max(0, ...rows.map((row) => row.cells.length));
  for (let column = 0; column < count - 1; column++) {
    const width = Math.max(...rows.map((row) => [...(row.cells[column] ?? "")].length));
    for (const row of rows)
      if (column < row.cells.length - 1) row.cells[column] = pad(row.cells[column]!, width);
  }
}

const headOfColumn = (line: Line): boolean =>
  line.tokens[0]?.tokenType === T.Name &&
  line.tokens.slice(0, 5).some((token) => token.tokenType === T.Equals);

/** Cuts a line's text at its bars, or at its first equals sign; signs inside texts do not count. */
function cutAt(line: Line, sign: "|" | "="): string[] {
  const body = line.cells[0]!;
  const { tokens } = T.lex(body);
  const cuts = tokens
    .filter((token) => token.tokenType === (sign === "|" ? T.Bar : T.Equals))
    .map((token) => token.startOffset);
  const used = sign === "|" ? cuts : cuts.slice(0, 1);
  const cells: string[] = [];
  let from = 0;
  for (const cut of used) {
    cells.push(body.slice(from, cut).trim());
    from = cut + 1;
  }
  cells.push(body.slice(from).trim());
  return cells;
}

function alignKind(lines: Line[]): void {
  const rows = lines.filter((line) => !line.first && line.tokens[1]?.tokenType === T.TextToken);
  const width = Math.max(0, ...rows.map((row) => [...row.tokens[0]!.image].length));
  for (const row of rows) {
    const word = row.tokens[0]!.image;
    row.cells = [pad(word, width), row.cells[0]!.slice(word.length).trim()];
    row.join = " ";
  }
}

const pad = (text: string, width: number): string => text + " ".repeat(Math.max(0, width - [...text].length));

// ───────────── brackets where a reader could doubt ─────────────

/** `a and b or c` reads either way to most people: the brackets that the language means are written out. */
function withBrackets(source: string, statement: Statement): string {
  const found: Expr[] = [];
  const walk = (expr: Expr) => {
    for (const part of partsOf(expr)) {
      if (
        expr.is === "binary" &&
        expr.op === "or" &&
        part.is === "binary" &&
        part.op === "and" &&
        !isBracketed(source, part)
      )
        found.push(part);
      walk(part);
    }
  };
  for (const rule of rulesOf(statement)) walk(rule);
  const marks = found
    .flatMap(
      (expr) =>
        [
          [expr.at.start, "("],
          [expr.at.end, ")"],
        ] as const,
    )
    .sort((a, b) => b[0] - a[0] || (a[1] === "(" ? 1 : -1));
  let out = source;
  for (const [at, mark] of marks) out = out.slice(0, at) + mark + out.slice(at);
  return out;
}

function isBracketed(source: string, expr: Expr): boolean {
  if (source[expr.at.start] !== "(" || source[expr.at.end - 1] !== ")") return false;
  let depth = 0;
  for (let i = expr.at.start; i < expr.at.end - 1; i++) {
    if (source[i] === "(") depth++;
    else if (source[i] === ")") depth--;
    if (depth === 0) return false;
  }
  return true;
}

function rulesOf({ body, clauses }: Statement): readonly Expr[] {
  const own = [clauses.when, clauses.takes, clauses.waits, clauses.ifUnknown?.take].filter(
    (rule) => rule !== undefined,
  );
  switch (body.keyword) {
    case "figure":
    case "formula":
    case "promise":
      return [body.rule, ...own];
    case "list":
      return [body.from, body.to, ...body.columns.map((column) => column.rule)];
    case "picture":
      return [...body.arguments.map((one) => one.rule), ...own];
    case "book":
    case "part":
    case "use":
    case "drop":
    case "add":
    case "kind":
    case "ask":
    case "dial":
    case "chart":
    case "step":
    case "caution":
    case "stop":
    case "worked":
    case "unreadable":
      return own;
  }
}
