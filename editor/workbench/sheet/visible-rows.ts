// Which rows of the sheet are drawn, and how far it scrolls to bring one into view. Rows have known heights,
// so a book of thousands of lines scrolls without drawing more than what is seen.

/** Rows drawn above and below what is seen. */
const margin = 4;

/** The top of every row, and the height of all of them at the end, in px. */
export function topsOf(heights: readonly number[]): Float64Array {
  const tops = new Float64Array(heights.length + 1);
  for (let n = 0; n < heights.length; n += 1) tops[n + 1] = (tops[n] ?? 0) + (heights[n] ?? 0);
  return tops;
}

/** The last row whose top is at or above `y`; 0 for an empty sheet. */
export function rowAt(tops: Float64Array, y: number): number {
  let low = 0;
  let high = Math.max(0, tops.length - 2);
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((tops[middle] ?? 0) <= y) low = middle;
    else high = middle - 1;
  }
  return low;
}

/**
 * Rows to draw, by index: those between `from` and `to` px, a few around them, and the one at `focused`,
 * which keeps the focus even when it is scrolled away (-1 for none).
 */
export function visibleRows(tops: Float64Array, from: number, to: number, focused: number): number[] {
  const count = tops.length - 1;
  const first = Math.max(0, rowAt(tops, from) - margin);
  const last = Math.min(count - 1, rowAt(tops, to) + margin);
  const drawn: number[] = focused >= 0 && focused < first ? [focused] : [];
  for (let n = first; n <= last; n += 1) drawn.push(n);
  if (focused > last) drawn.push(focused);
  return drawn;
}

/** Where a scroller of this length starts after the least scrolling that shows `from` to `to`. */
export function scrolledTo(from: number, to: number, start: number, length: number): number {
  if (from < start) return from;
  return to > start + length ? to - length : start;
}
