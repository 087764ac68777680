// Offsets of the book and positions of the editor, one into the other.
import type { Span } from "../../../core/span.ts";
import { monaco, type TextModel } from "./monaco.ts";

/** The range of a span; a span beyond the text's end is cut to it. */
export function rangeOf(model: TextModel, at: Span): monaco.Range {
  return monaco.Range.fromPositions(model.getPositionAt(at.start), model.getPositionAt(at.end));
}

/**
 * The same, but never empty, so that there is something to draw: an empty span takes the character beside it.
 */
export function drawableRange(model: TextModel, at: Span): monaco.Range {
  const range = rangeOf(model, at);
  if (!range.isEmpty()) return range;
  const { startLineNumber: line, startColumn: column } = range;
  const end = model.getLineMaxColumn(line);
  if (column < end) return new monaco.Range(line, column, line, column + 1);
  return new monaco.Range(line, Math.max(1, column - 1), line, Math.max(column, Math.min(end, 2)));
}
