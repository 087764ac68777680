// Two people changed one book's text from the same base: both changes together, statement by statement, so
// that neither loses a line.
//
//      base     A  B  C          mine A' B  C        theirs  A  B  C' D        merged  A' B  C' D
//
// Statements begin at the left edge; comments and blank lines above one travel with it. A statement that both
// changed, or that one changed and the other took out, is kept as both have it, theirs first, and reported as
// a clash.

interface Clash {
  readonly base: string;
  readonly mine: string;
  readonly theirs: string;
}
/** How a clash is settled: `both` keeps one after the other, theirs first. */
export type Choice = "mine" | "theirs" | "both";
export interface Merged {
  readonly text: string;
  readonly clashes: readonly Clash[];
}

/**
 * Merges by statement, each clash as `choose` says of its number from 0 and else both; gives `mine` where
 * theirs is the base, and the other way round. Each side's lines are in the outcome or were changed or taken
 * out by the other side alone.
 */
export function mergeTexts(
  base: string,
  mine: string,
  theirs: string,
  choose: (clash: number) => Choice = () => "both",
): Merged {
  if (mine === theirs || theirs === base) return { text: mine, clashes: [] };
  if (mine === base) return { text: theirs, clashes: [] };
  const [b, m, t] = [cut(base), cut(mine), cut(theirs)];
  const toMine = align(b, m);
  const toTheirs = align(b, t);
  const merge: Merge = { out: [], clashes: [], choose };
  let [atBase, atMine, atTheirs] = [0, 0, 0];
  for (let i = 0; i <= b.length; i += 1) {
    const [mineAt, theirsAt] = i === b.length ? [m.length, t.length] : [toMine[i]!, toTheirs[i]!];
    if (mineAt < 0 || theirsAt < 0) continue;
    settle(merge, b.slice(atBase, i), m.slice(atMine, mineAt), t.slice(atTheirs, theirsAt));
    if (i < b.length) settle(merge, [b[i]!], [m[mineAt]!], [t[theirsAt]!]);
    [atBase, atMine, atTheirs] = [i + 1, mineAt + 1, theirsAt + 1];
  }
  return { text: joined(merge.out), clashes: merge.clashes };
}

/** What is merged so far. */
interface Merge {
  readonly out: string[];
  readonly clashes: Clash[];
  readonly choose: (clash: number) => Choice;
}

/** Between two places where all three agree on what is what. */
function settle(
  { out, clashes, choose }: Merge,
  base: readonly string[],
  mine: readonly string[],
  theirs: readonly string[],
): void {
  const [b, m, t] = [base.join(""), mine.join(""), theirs.join("")];
  if (m === b || m === t) {
    out.push(...theirs);
    return;
  }
  if (t === b) {
    out.push(...mine);
    return;
  }
  const known = new Set(theirs);
  const names = new Set(theirs.map(nameOf));
  const extra = mine.filter((piece) => !known.has(piece));
  const sameName = extra.some((piece) => nameOf(piece) !== undefined && names.has(nameOf(piece)));
  // Two new statements in one place are no clash, unless they make the same thing.
  const clash = base.length > 0 || sameName;
  const choice = clash ? choose(clashes.length) : "both";
  if (clash) clashes.push({ base: b, mine: m, theirs: t });
  switch (choice) {
    case "both":
      out.push(...theirs, ...extra);
      return;
    case "theirs":
      out.push(...theirs);
      return;
    case "mine":
      out.push(...mine);
      return;
  }
}

/**
 * The whole text in pieces: each statement with the comments above it; what follows the last one belongs to
 * it.
 */
function cut(text: string): string[] {
  const lines = text.match(/[^\n]*\n|[^\n]+$/g) ?? [];
  const pieces: string[] = [];
  let lead = "";
  let open = "";
  for (const line of lines) {
    const begins = !/^(\s|--)/.test(line);
    if (begins) {
      if (open !== "") pieces.push(open);
      open = lead + line;
      lead = "";
    } else if (open !== "" && /^[ \t]+\S/.test(line)) {
      open += lead + line;
      lead = "";
    } else lead += line;
  }
  if (open !== "") pieces.push(open);
  if (lead === "") return pieces;
  // Blank lines at the end say nothing; comments at the end are a piece of their own.
  if (lead.trim() === "" && pieces.length > 0) pieces[pieces.length - 1] += lead;
  else pieces.push(lead);
  return pieces;
}

/** A last line without its end would run into what follows it. */
function joined(pieces: readonly string[]): string {
  return pieces
    .map((piece, i) => (i < pieces.length - 1 && !piece.endsWith("\n") ? `${piece}\n` : piece))
    .join("");
}

const headOf = (piece: string): string =>
  piece.split("\n").find((line) => line.trim() !== "" && !line.startsWith("--")) ?? piece;
const keywordOf = (piece: string): string => /^[a-z]*/.exec(headOf(piece))![0];
/** `figure bevel-width`; undefined for what has no name. */
const nameOf = (piece: string): string | undefined =>
  /^[a-z]+ +[a-z][a-z0-9-]*/.exec(headOf(piece))?.[0].replace(/ +/, " ");

/** For each statement of the base its place in the other text, in rising order; -1 where it is not there. */
function align(base: readonly string[], other: readonly string[]): number[] {
  const places = base.map(() => -1);
  let start = 0;
  while (start < base.length && start < other.length && base[start] === other[start]) {
    places[start] = start;
    start += 1;
  }
  let [baseEnd, otherEnd] = [base.length, other.length];
  while (baseEnd > start && otherEnd > start && base[baseEnd - 1] === other[otherEnd - 1]) {
    baseEnd -= 1;
    otherEnd -= 1;
    places[baseEnd] = otherEnd;
  }
  const [left, right] = [base.slice(start, baseEnd), other.slice(start, otherEnd)];
  for (const [i, j] of longestCommon(
    left.map((piece) => nameOf(piece) ?? piece),
    right.map((piece) => nameOf(piece) ?? piece),
  ))
    places[start + i] = start + j;
  pairTheRest(base, other, places);
  return places;
}

/** Most cells of a table of all pairs; a larger stretch is cut at what stands once on both sides. */
const mostCells = 40_000;

type Pair = readonly [number, number];
/** A part of both lists that is still to be aligned, each from and to. */
type Stretch = readonly [aFrom: number, aTo: number, bFrom: number, bTo: number];

/**
 * Pairs of equal places, rising on both sides. The most of them in a small stretch; in a large one those
 * around what stands once on both sides, so that the work grows with the length and not with its square. What
 * has no such place in it is taken as one statement, which loses nothing and clashes as a whole.
 */
function longestCommon(a: readonly string[], b: readonly string[]): Pair[] {
  const pairs: Pair[] = [];
  const stretches: Stretch[] = [[0, a.length, 0, b.length]];
  for (let part = stretches.pop(); part !== undefined; part = stretches.pop()) {
    const [aFrom, aTo, bFrom, bTo] = part;
    if (aFrom === aTo || bFrom === bTo) continue;
    if ((aTo - aFrom + 1) * (bTo - bFrom + 1) <= mostCells) {
      const table = allPairs(a.slice(aFrom, aTo), b.slice(bFrom, bTo));
      for (const [i, j] of table) pairs.push([aFrom + i, bFrom + j]);
      continue;
    }
    let [i, j] = [aFrom, bFrom];
    const anchors = rising(onceOnBoth(a, b, part));
    for (const [x, y] of anchors) {
      stretches.push([i, x, j, y]);
      pairs.push([x, y]);
      [i, j] = [x + 1, y + 1];
    }
    if (anchors.length > 0) stretches.push([i, aTo, j, bTo]);
  }
  return pairs;
}

/** Places of what stands exactly once in each part, by their place in the first. */
function onceOnBoth(a: readonly string[], b: readonly string[], [aFrom, aTo, bFrom, bTo]: Stretch): Pair[] {
  const inB = once(b, bFrom, bTo);
  const inA = once(a, aFrom, aTo);
  const found: Pair[] = [];
  for (const [key, i] of inA) {
    const j = inB.get(key);
    if (i >= 0 && j !== undefined && j >= 0) found.push([i, j]);
  }
  return found.sort((one, two) => one[0] - two[0]);
}

/** Where each stands; -1 for what stands more than once. */
function once(list: readonly string[], from: number, to: number): Map<string, number> {
  const places = new Map<string, number>();
  for (let i = from; i < to; i += 1) places.set(list[i]!, places.has(list[i]!) ? -1 : i);
  return places;
}

/** The longest part of the pairs that rises on the second side as well. */
function rising(pairs: readonly Pair[]): Pair[] {
  /** For each length the pair with the lowest end, and for each pair the one before it. */
  const ends: number[] = [];
  const before: number[] = [];
  pairs.forEach(([, j], n) => {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[ends[middle]!]![1] < j) low = middle + 1;
      else high = middle;
    }
    before[n] = low === 0 ? -1 : ends[low - 1]!;
    ends[low] = n;
  });
  const out: Pair[] = [];
  for (let n = ends.at(-1) ?? -1; n >= 0; n = before[n]!) out.push(pairs[n]!);
  return out.reverse();
}

/** The longest list of pairs in a table of all. */
function allPairs(a: readonly string[], b: readonly string[]): Pair[] {
  const width = b.length + 1;
  const length = new Uint32Array((a.length + 1) * width);
  for (let i = a.length - 1; i >= 0; i -= 1) {
    for (let j = b.length - 1; j >= 0; j -= 1)
      length[i * width + j] =
        a[i] === b[j]
          ? length[(i + 1) * width + j + 1]! + 1
          : Math.max(length[(i + 1) * width + j]!, length[i * width + j + 1]!);
  }
  const pairs: Pair[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    if (a[i] === b[j]) pairs.push([i++, j++]);
    else if (length[(i + 1) * width + j]! >= length[i * width + j + 1]!) i += 1;
    else j += 1;
  }
  return pairs;
}

/** Statements without a name that changed: in a gap of as many on both sides they are each other's. */
function pairTheRest(base: readonly string[], other: readonly string[], places: number[]): void {
  for (let i = 0, from = 0; i < base.length; ) {
    if (places[i]! >= 0) {
      from = places[i]! + 1;
      i += 1;
      continue;
    }
    let end = i;
    while (end < base.length && places[end]! < 0) end += 1;
    const to = end < base.length ? places[end]! : other.length;
    if (to - from === end - i)
      for (let k = 0; k < end - i; k += 1)
        if (
          keywordOf(base[i + k]!) === keywordOf(other[from + k]!) &&
          (nameOf(base[i + k]!) === undefined || nameOf(base[i + k]!) === nameOf(other[from + k]!))
        )
          places[i + k] = from + k;
    i = end;
  }
}
