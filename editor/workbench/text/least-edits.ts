// The smallest set of edits that turns one text into another, line by line and then
// within each line, so that a cursor standing in an untouched place stays there.
import type { TextEdit } from "../../../core/span.ts";

/** Changes further apart than this many lines added and removed are given as one edit. */
const MOST_CHANGED_LINES = 400;

/** Edits in offsets of `before`, in order, without overlap; none if the texts are the same. */
export function leastEdits(before: string, after: string): TextEdit[] {
  if (before === after) return [];
  const [start, beforeEnd, afterEnd] = wholeLines(before, differing(before, after));
  const oldLines = linesOf(before.slice(start, beforeEnd));
  const newLines = linesOf(after.slice(start, afterEnd));
  // With too much changed for a search, as many lines as before still pair up one to one: a rename all over a
  // long book.
  const runs = commonRuns(oldLines, newLines) ?? (oldLines.length === newLines.length ? [] : undefined);
  if (runs === undefined) return [{ at: { start, end: beforeEnd }, text: after.slice(start, afterEnd) }];

  const edits: TextEdit[] = [];
  let oldLine = 0,
    newLine = 0,
    offset = start;
  const change = (oldTo: number, newTo: number) => {
    const oldText = oldLines.slice(oldLine, oldTo).join("");
    const newText = newLines.slice(newLine, newTo).join("");
    // Lines that pair up one to one are compared each with its own, as after a rename.
    if (oldTo - oldLine === newTo - newLine) {
      let at = offset;
      for (let i = oldLine; i < oldTo; i += 1) {
        pushWithin(edits, at, oldLines[i]!, newLines[newLine + i - oldLine]!);
        at += oldLines[i]!.length;
      }
    } else pushWithin(edits, offset, oldText, newText);
    offset += oldText.length;
  };
  for (const run of runs) {
    change(run.old, run.new);
    for (let i = 0; i < run.length; i += 1) offset += oldLines[run.old + i]!.length;
    oldLine = run.old + run.length;
    newLine = run.new + run.length;
  }
  change(oldLines.length, newLines.length);
  return edits;
}

function pushWithin(edits: TextEdit[], at: number, before: string, after: string): void {
  if (before === after) return;
  const [start, beforeEnd, afterEnd] = differing(before, after);
  edits.push({ at: { start: at + start, end: at + beforeEnd }, text: after.slice(start, afterEnd) });
}

/** Where two texts begin to differ, and where the rest is the same again in each. */
function differing(a: string, b: string): [start: number, aEnd: number, bEnd: number] {
  const shorter = Math.min(a.length, b.length);
  let start = 0;
  while (start < shorter && a.charCodeAt(start) === b.charCodeAt(start)) start += 1;
  let tail = 0;
  while (tail < shorter - start && a.charCodeAt(a.length - 1 - tail) === b.charCodeAt(b.length - 1 - tail))
    tail += 1;
  // A character of two units is never cut in half.
  if (start > 0 && isHigh(a.charCodeAt(start - 1))) start -= 1;
  if (tail > 0 && isLow(a.charCodeAt(a.length - tail))) tail -= 1;
  return [start, a.length - tail, b.length - tail];
}

/** The same stretches, grown to whole lines. */
function wholeLines(
  before: string,
  [start, beforeEnd, afterEnd]: [number, number, number],
): [number, number, number] {
  const lineEnd = before.indexOf("\n", beforeEnd);
  const further = (lineEnd < 0 ? before.length : lineEnd + 1) - beforeEnd;
  return [start === 0 ? 0 : before.lastIndexOf("\n", start - 1) + 1, beforeEnd + further, afterEnd + further];
}

const isHigh = (unit: number) => unit >= 0xd800 && unit <= 0xdbff;
const isLow = (unit: number) => unit >= 0xdc00 && unit <= 0xdfff;

/** The lines of a text, each with its own line end. */
const linesOf = (text: string): string[] => text.match(/[^\n]*\n|[^\n]+$/g) ?? [];

interface Run {
  readonly old: number;
  readonly new: number;
  readonly length: number;
}

/**
 * Lines that both texts share, in order, by the greedy shortest-edit walk (E. W. Myers,
 * "An O(ND) difference algorithm and its variations", 1986); undefined when too much differs.
 */
function commonRuns(a: readonly string[], b: readonly string[]): Run[] | undefined {
  const most = Math.min(a.length + b.length, MOST_CHANGED_LINES);
  const furthest = new Map<number, number>([[1, 0]]);
  const history: Map<number, number>[] = [];
  for (let changes = 0; changes <= most; changes += 1) {
    history.push(new Map(furthest));
    for (let k = -changes; k <= changes; k += 2) {
      const down = k === -changes || (k !== changes && furthest.get(k - 1)! < furthest.get(k + 1)!);
      let x = down ? furthest.get(k + 1)! : furthest.get(k - 1)! + 1;
      while (x < a.length && x - k < b.length && a[x] === b[x - k]) x += 1;
      furthest.set(k, x);
      if (x >= a.length && x - k >= b.length) return walkBack(history, a.length, b.length);
    }
  }
  return undefined;
}

function walkBack(history: readonly Map<number, number>[], aLength: number, bLength: number): Run[] {
  const runs: Run[] = [];
  let x = aLength,
    y = bLength;
  for (let changes = history.length - 1; changes >= 0; changes -= 1) {
    const furthest = history[changes]!;
    const k = x - y;
    const down = k === -changes || (k !== changes && furthest.get(k - 1)! < furthest.get(k + 1)!);
    const fromK = down ? k + 1 : k - 1;
    const fromX = changes === 0 ? 0 : furthest.get(fromK)!;
    const fromY = changes === 0 ? 0 : fromX - fromK;
    const midX = changes === 0 ? 0 : down ? fromX : fromX + 1;
    if (x > midX) runs.push({ old: midX, new: midX - k, length: x - midX });
    x = fromX;
    y = fromY;
  }
  return runs.reverse();
}
