// A statement begins at the left edge of a line and owns the indented lines below it. That is the
// whole rule, so a broken statement can never spoil the next one and an edit touches one statement only.
import type { Span } from "../../../core/span.ts";

export interface Piece {
  /** Comments and blank lines above the statement, which travel with it. */
  readonly lead: Span;
  /** From the first word to the end of the last line that is not blank. */
  readonly at: Span;
  readonly text: string;
  /**
   * Of a chart whose lines come from several texts: where each of its lines really begins, by the line's
   * first character here.
   */
  readonly lines?: readonly { readonly from: number; readonly at: number }[];
  /** True for indented lines above the first statement. */
  readonly stray: boolean;
}

/**
 * Where a stretch of a statement is in the whole: a stretch over lines of several texts ends with the
 * line it begins in.
 */
export function placed({ at, text, lines }: Pick<Piece, "at" | "text" | "lines">, span: Span): Span {
  if (lines === undefined) return { start: at.start + span.start, end: at.start + span.end };
  const line = lines.findLast((one) => one.from <= span.start) ?? lines[0]!;
  const last = lines.findLast((one) => one.from < Math.max(span.end, span.start + 1)) ?? line;
  const by = line.at - line.from;
  if (last.at - last.from === by) return { start: span.start + by, end: span.end + by };
  const stop = text.indexOf("\n", span.start);
  return { start: span.start + by, end: Math.min(span.end, stop < 0 ? text.length : stop) + by };
}

/** Cuts a text into statements. Their leads and texts, with what follows the last one, are the whole text. */
export function splitBook(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let leadStart = 0;
  let start = -1;
  let end = -1;
  const close = () => {
    if (start < 0) return;
    pieces.push({
      lead: { start: leadStart, end: start },
      at: { start, end },
      text: text.slice(start, end),
      stray: isIndent(text.charCodeAt(start)),
    });
    leadStart = end;
    start = -1;
  };
  // A byte order mark that an editor left behind belongs to no statement.
  for (let line = text.charCodeAt(0) === 0xfeff ? 1 : 0; line < text.length; ) {
    let stop = text.indexOf("\n", line);
    if (stop < 0) stop = text.length;
    const first = text.charCodeAt(line);
    const last = stop > line && text.charCodeAt(stop - 1) === 13 ? stop - 1 : stop;
    if (isIndent(first)) {
      const blank = text.slice(line, last).trim() === "";
      if (!blank && start < 0 && pieces.length === 0 && !onlyComment(text, line, last)) start = line;
      if (!blank && start >= 0) end = last;
    } else if (last > line && !(first === 45 && text.charCodeAt(line + 1) === 45)) {
      close();
      start = line;
      end = last;
    }
    line = stop + 1;
  }
  close();
  return pieces;
}

const isIndent = (code: number) => code === 32 || code === 9 || code === 13;
const onlyComment = (text: string, from: number, to: number) =>
  text.slice(from, to).trimStart().startsWith("--");
