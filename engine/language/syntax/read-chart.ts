// A chart's tree: its head by one rule of the grammar, then each cell by itself, so that a broken cell spoils
// neither its neighbours nor the head.
import type { IToken } from "chevrotain";
import { type Reading, fillTexts, grammar, parseTokens } from "./parser.ts";
import { end } from "./token-places.ts";
import * as T from "./tokens.ts";
import type { Band, Cell, ChartRow, ConditionCell, Expr, Fault, ValueCell } from "./tree.ts";

export function readChart(text: string, tokens: IToken[]): Reading | { readonly fault: Fault } {
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
export function readAdded(text: string, tokens: IToken[]): Reading | { readonly fault: Fault } {
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
    const at = first && last ? { start: first.startOffset, end: end(last) } : { start: here, end: here };
    return { at, text: text.slice(at.start, at.end), tokens };
  });
}
