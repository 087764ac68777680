// The scale that a drawing is drawn to, and how labels are moved apart. Scales are the ones that a drawing
// office uses.

/**
 * Paper per length: 0.5 for 1:2. The largest usual scale at which `length` (mm in the world) fits in `room`
 * (mm on paper).
 */
export function scaleFor(length: number, room: number): number {
  if (!(length > 0) || !Number.isFinite(length)) return 1;
  const most = room / length;
  let best = 0;
  for (let power = -15; power <= 12; power++)
    for (const part of [1, 2, 5]) {
      const up = part * 10 ** power;
      if (up <= most * (1 + 1e-9) && up > best) best = up;
    }
  // Between the decades a reduction may also be 1:3, 1:4 or 1:2.5 of a power of ten: a small screen wants it.
  for (let power = 0; power <= 9; power++)
    for (const part of [2.5, 3, 4, 8]) {
      const down = 1 / (part * 10 ** power);
      if (down <= most * (1 + 1e-9) && down > best) best = down;
    }
  return best > 0 ? best : most;
}

/** "1:2", "5:1". */
export function scaleText(scale: number): string {
  const plain = (x: number): string => String(Number(x.toPrecision(6)));
  return scale >= 1 ? `${plain(scale)}:1` : `1:${plain(1 / scale)}`;
}

/**
 * The least round factor that makes `drawn` (mm on paper) at least `least`; below one where it is above
 * `most`.
 */
export function stretchFor(drawn: number, least: number, most: number): number {
  if (!(drawn > 0) || !Number.isFinite(drawn)) return 1;
  if (drawn >= least && drawn <= most) return 1;
  const steps = [1, 1.5, 2, 3, 4, 5, 6, 8];
  if (drawn < least) {
    for (let power = 0; power <= 12; power++)
      for (const part of steps)
        if (drawn * part * 10 ** power >= least * (1 - 1e-9)) return part * 10 ** power;
  }
  for (let power = 0; power <= 12; power++)
    for (const part of [2, 5, 10]) if (drawn / (part * 10 ** power) <= most) return 1 / (part * 10 ** power);
  return 1;
}

/**
 * Centres of labels along one line, moved as little as need be so that none touches the next, all within
 * `low` to `high` where they fit.
 */
export function spread(
  wanted: readonly { readonly at: number; readonly size: number }[],
  low: number,
  high: number,
  gap: number,
): readonly number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]!.at - wanted[b]!.at || a - b);
  const at = wanted.map((one) => one.at);
  let edge = low;
  for (const i of order) {
    at[i] = Math.max(at[i]!, edge + wanted[i]!.size / 2);
    edge = at[i]! + wanted[i]!.size / 2 + gap;
  }
  edge = high;
  for (const i of [...order].reverse()) {
    at[i] = Math.min(at[i]!, edge - wanted[i]!.size / 2);
    edge = at[i]! - wanted[i]!.size / 2 - gap;
  }
  // Where all together are longer than the line, nothing overlaps and the last ones hang over the far end.
  edge = low;
  for (const i of order) {
    at[i] = Math.max(at[i]!, edge + wanted[i]!.size / 2);
    edge = at[i]! + wanted[i]!.size / 2 + gap;
  }
  return at;
}
