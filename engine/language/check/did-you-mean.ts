// "Did you mean": the one known name that a few slips of the finger away from the unknown one. A third of the
// name's length, at least one slip; a tie is no answer.

/** Nobody mistypes a name of more letters than this and hopes to be understood. */
const LONGEST = 60;

/** The nearest of `names` to `word`, or undefined where none is near or two are equally near. */
export function nearest(word: string, names: Iterable<string>): string | undefined {
  if (word.length > LONGEST) return undefined;
  const most = Math.max(1, Math.floor(word.length / 3));
  let best: string | undefined;
  let bestSlips = most + 1;
  let tie = false;
  for (const name of names) {
    if (name === word || Math.abs(name.length - word.length) > most) continue;
    const slips = distance(word.toLowerCase(), name.toLowerCase(), most);
    if (slips < bestSlips) {
      best = name;
      bestSlips = slips;
      tie = false;
    } else if (slips === bestSlips && name !== best) tie = true;
  }
  return bestSlips <= most && !tie ? best : undefined;
}

/**
 * Slips between two words: a letter put in, left out, changed, or two neighbours swapped. Above `most` it may
 * stop counting.
 */
function distance(a: string, b: string, most: number): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let smallest = i;
    for (let j = 1; j <= b.length; j++) {
      let slips = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        slips = Math.min(slips, before[j - 2]! + 1);
      row.push(slips);
      smallest = Math.min(smallest, slips);
    }
    if (smallest > most) return smallest;
    before = last;
    last = row;
  }
  return last[b.length]!;
}
