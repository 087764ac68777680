// The plies from above, to scale, each with its number, and a table of their sizes and amounts beside or
// below them.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import type { Drawn, Mark, Point, TextMark } from "./marks.ts";
import { boxOf, dimensionLine, line, mm, oval, overlaps, text } from "./marks.ts";
import { scaleFor, scaleText } from "./scales.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, lengthOf, openNotes, textOf, valueOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** So many rows are listed; of a longer list the first ones and the last. */
const MOST_LISTED = 120;

type Row = NonNullable<PictureValue["rows"]>[number];

/** Outlines nearer than this (mm on paper) would run into each other in print: some are then left out. */
const CLEAR = 0.55;

/** The plies as they are drawn: their sizes in mm, and where their middle is on paper. */
interface Plan {
  /** Those that have a size, smallest first. */
  readonly sized: readonly Ply[];
  readonly holeLong: number;
  readonly holeWide: number;
  readonly scale: number;
  /** Half of the widest and the highest, mm on paper. */
  readonly rx: number;
  readonly ry: number;
  readonly cx: number;
  readonly cy: number;
  readonly room: number;
}

export function drawPlies(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const rows = valueOf(picture, "plies")?.rows ?? [];
  const [longName, wideName] = lengthColumns(rows);
  const sized = rows
    .map((row, i) => ({
      n: i + 1,
      row,
      long: (row[longName ?? ""]?.si ?? 0) * 1000,
      wide: (row[wideName ?? longName ?? ""]?.si ?? 0) * 1000,
    }))
    .filter((ply) => ply.long > 0 && ply.wide > 0);
  const notes = openNotes(picture, say, (argument) =>
    say(argument === "plies" ? "draw.plies-name" : "draw.hole"),
  );
  const describes = describePlies(picture, rows, say);
  if (sized.length === 0) {
    const known = valueOf(picture, "plies")?.state === "known";
    const says = say(known ? "draw.no-plies" : "draw.plies-unknown");
    return { width, height: size * 2, marks: [text([1, size * 1.2], says, size)], notes, describes };
  }
  const table = tableOf(picture, rows, sheet);
  const beside = width > 120 && rows.length <= 16 && table.width <= width * 0.52;
  const right = beside ? width - table.width : width;
  const sideText = textWidth(sized.at(-1)!.row[wideName ?? ""]?.text ?? "", size);
  const room = Math.max(20, right - (beside ? 6 : 0) - sideText - 12);
  const plan = planOf(picture, sized, room, width > 120 ? 82 : 76);
  const shown = seen(sized, plan.scale);
  const marks: Mark[] = [...ovals(plan, shown), ...numbersOn(plan, shown, sheet)];
  let bottom = sizesOf(marks, plan, { longName, wideName, right: beside ? right - 3 : width }, sheet);
  const [tx, ty] = beside ? [right, 2] : [0, bottom + 4];
  marks.push(...table.at(tx, ty));
  bottom = Math.max(bottom, ty + table.height);
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [
      `${say("draw.scale", { scale: scaleText(plan.scale) })}.`,
      // A list of plies says how large each is, not which goes down first: that is the book's, and is in its
      // steps.
      ...(sized.length > 1 && sized[0]!.long < sized.at(-1)!.long ? [say("draw.by-size")] : []),
      ...(shown.length < sized.length
        ? [say("draw.some-plies", { shown: shown.length, all: sized.length })]
        : []),
      ...(rows.length > MOST_LISTED
        ? [say("draw.some-listed", { shown: MOST_LISTED - 1, all: rows.length })]
        : []),
      ...notes,
    ],
    describes,
  };
}

function planOf(picture: PictureShown, sized: readonly Ply[], room: number, high: number): Plan {
  const holeLong = lengthOf(picture, "hole") ?? 0;
  const holeWide = lengthOf(picture, "hole-short") ?? holeLong * (sized[0]!.wide / sized[0]!.long);
  const longest = Math.max(...sized.map((ply) => ply.long), holeLong);
  const widest = Math.max(...sized.map((ply) => ply.wide), holeWide);
  const scale = Math.min(scaleFor(longest, room), scaleFor(widest, high));
  const [rx, ry] = [(longest * scale) / 2, (widest * scale) / 2];
  return { sized, holeLong, holeWide, scale, rx, ry, cx: 4 + room / 2, cy: ry + 3, room };
}

/** The plies, the largest first so that each smaller one lies on it, the hole and the two axes. */
function ovals(plan: Plan, shown: readonly Ply[]): readonly Mark[] {
  const { scale, rx, ry, cx, cy, holeLong, holeWide } = plan;
  const marks: Mark[] = [...shown]
    .reverse()
    .map((ply) =>
      oval(
        [cx, cy],
        [(ply.long * scale) / 2, (ply.wide * scale) / 2],
        ply.n % 2 === 1 ? "ply" : "ply-other",
        "inner",
        { ply: ply.n, long: mm(ply.long * scale), wide: mm(ply.wide * scale) },
      ),
    );
  if (holeLong > 0)
    marks.push(
      oval([cx, cy], [(holeLong * scale) / 2, (holeWide * scale) / 2], "void", "outline", {
        part: "hole",
        long: mm(holeLong * scale),
      }),
    );
  marks.push(
    line(
      [
        [cx - rx - 2.5, cy],
        [cx + rx + 2.5, cy],
      ],
      "centre",
    ),
    line(
      [
        [cx, cy - ry - 2.5],
        [cx, cy + ry + 2.5],
      ],
      "centre",
    ),
  );
  return marks;
}

/** The number of each ply where there is room for it, and the name of the hole. */
function numbersOn(plan: Plan, shown: readonly Ply[], { say, size }: Sheet): readonly Mark[] {
  const { scale, cx, cy, holeLong, holeWide } = plan;
  const numbers: TextMark[] = [];
  for (const [i, ply] of shown.entries()) {
    const inner = ((i === 0 ? holeLong : shown[i - 1]!.long) * scale) / 2;
    const outer = (ply.long * scale) / 2;
    const one = text([cx + (inner + outer) / 2, cy - size * 0.35], String(ply.n), size * 0.9, "middle", {
      halo: true,
      data: { "ply-number": ply.n },
    });
    const label = boxOf(one);
    if (
      label.right - label.left <= outer - inner - 0.9 &&
      !numbers.some((other) => overlaps(boxOf(other), label))
    )
      numbers.push(one);
  }
  const hole = say("draw.hole");
  if (holeLong * scale > textWidth(hole, size) + 4 && holeWide * scale > size * 4)
    numbers.push(text([cx, cy - size * 0.6], hole, size * 0.9, "middle", { halo: true, quiet: true }));
  return numbers;
}

/** The largest ply's length below, its width on the right; gives where they end below. */
function sizesOf(
  marks: Mark[],
  { sized, scale, rx, ry, cx, cy, room }: Plan,
  names: { readonly longName?: string; readonly wideName?: string; readonly right: number },
  { size }: Sheet,
): number {
  const largest = sized.at(-1)!;
  const [lx, ly] = [(largest.long * scale) / 2, (largest.wide * scale) / 2];
  const below = cy + ry + 5.5;
  const side = cx + rx + 4.5;
  for (const at of [cx - lx, cx + lx])
    marks.push(
      line(
        [
          [at, cy + 0.8],
          [at, below + 1.4],
        ],
        "dimension",
      ),
    );
  const longText = cropped(largest.row[names.longName!]!.text, size, room + 6);
  marks.push(
    ...dimensionLine(cx - lx, cx + lx, below, "x", { dimension: "length", length: mm(2 * lx) }),
    text([cx, below + size * 1.25], longText, size, "middle"),
  );
  if (names.wideName === undefined) return below + size * 1.7;
  for (const y of [cy - ly, cy + ly])
    marks.push(
      line(
        [
          [cx + 0.8, y],
          [side + 1.4, y],
        ],
        "dimension",
      ),
    );
  const wideText = cropped(largest.row[names.wideName]?.text ?? "", size, names.right - side - 1.4);
  marks.push(
    ...dimensionLine(cy - ly, cy + ly, side, "y", { dimension: "width", length: mm(2 * ly) }),
    text([side + 1.4, cy + ry * 0.62 + size], wideText, size, "start", { halo: true }),
  );
  return below + size * 1.7;
}

/** The first column in a unit of length, and the second; a column called thickness is neither. */
export function lengthColumns(rows: readonly Row[]): readonly string[] {
  return Object.entries(rows[0] ?? {})
    .filter(([name, cell]) => name !== "thickness" && / (mm|cm|m|km|inch|ft|yd|um|mil)$/.test(cell.text))
    .map(([name]) => name);
}

interface Ply {
  readonly n: number;
  readonly row: Row;
  readonly long: number;
  readonly wide: number;
}

/** The first, the last, and as many between as can be told apart in print. */
function seen(plies: readonly Ply[], scale: number): readonly Ply[] {
  const kept: Ply[] = [];
  for (const ply of plies)
    if (kept.length === 0 || (Math.abs(ply.long - kept.at(-1)!.long) * scale) / 2 >= CLEAR) kept.push(ply);
  const last = plies.at(-1)!;
  if (kept.at(-1) !== last) {
    if (kept.length > 1) kept.pop();
    kept.push(last);
  }
  return kept;
}

/** Rows of the list under their names, in as many columns side by side as make a calm block. */
function tableOf(
  picture: PictureShown,
  rows: readonly Row[],
  sheet: Sheet,
): { readonly width: number; readonly height: number; at(x: number, y: number): readonly Mark[] } {
  const { size, width: sheetWidth } = sheet;
  const small = size * 0.95;
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))].slice(0, 5);
  const head = ["", ...names];
  const all = linesOf(picture, rows, names, sheet);
  const natural = head.map(
    (name, c) =>
      Math.max(textWidth(name, small, true), ...all.map((row) => textWidth(row[c]!, small, c === 0))) + 0.2,
  );
  // Columns move together first; then the widest of them give way.
  const gap = natural.reduce((sum, one) => sum + one + 3.2, 0) <= sheetWidth ? 3.2 : 1.7;
  const cap = capFor(natural, sheetWidth - gap * head.length);
  const widths = natural.map((one) => Math.min(one, cap));
  const own = widths.reduce((sum, one) => sum + one + gap, 0);
  const most = rows.length > 16 ? Math.max(1, Math.floor((sheetWidth + 5) / (own + 5))) : 1;
  const perBlock = Math.ceil(all.length / most);
  const step = small * 1.5;
  const put = (row: readonly string[], [from, y]: Point, strong: boolean): readonly Mark[] => {
    let at = from;
    return row
      .map((says, c) => {
        at += widths[c]! + gap;
        return text(
          [c === 0 ? at - widths[c]! - gap : at - gap, y],
          cropped(says, small, widths[c]!, strong),
          small,
          c === 0 ? "start" : "end",
          { strong: strong || c === 0, ...(strong ? { quiet: true } : {}) },
        );
      })
      .filter((one) => one.text !== "");
  };
  return {
    width: own * most + 5 * (most - 1),
    height: step * (perBlock + 1) + 1,
    at: (x, y) =>
      Array.from({ length: most }, (_, block) => {
        const from = x + block * (own + 5);
        const lines = all.slice(block * perBlock, (block + 1) * perBlock);
        if (lines.length === 0) return [];
        return [
          ...put(head, [from, y + step * 0.9], true),
          line(
            [
              [from, y + step * 1.25],
              [from + own - gap, y + step * 1.25],
            ],
            "inner",
          ),
          ...lines.flatMap((row, i) => put(row, [from, y + step * (i + 1.15 + 0.9)], false)),
        ];
      }).flat(),
  };
}

/** The hole's own line where it is known, then the plies; of a long list the first ones and the last. */
function linesOf(
  picture: PictureShown,
  rows: readonly Row[],
  names: readonly string[],
  { say }: Sheet,
): readonly (readonly string[])[] {
  const sizes = ["hole", ...(valueOf(picture, "hole-short") ? ["hole-short"] : [])];
  const hole = valueOf(picture, "hole") && [
    say("draw.hole-short"),
    ...names.map((_, i) => (sizes[i] === undefined ? "" : textOf(picture, sizes[i], say))),
  ];
  const plies = rows.flatMap((row, i) =>
    rows.length <= MOST_LISTED || i < MOST_LISTED - 1 || i === rows.length - 1
      ? [[String(i + 1), ...names.map((name) => row[name]?.text ?? "–")]]
      : [],
  );
  return hole ? [hole, ...plies] : plies;
}

/** The width at which columns must be cut for all of them to fit. */
function capFor(widths: readonly number[], room: number): number {
  const order = [...widths].sort((a, b) => a - b);
  let left = room;
  for (const [i, one] of order.entries()) {
    if (one * (order.length - i) > left) return Math.max(4, left / (order.length - i));
    left -= one;
  }
  return Infinity;
}

function describePlies(picture: PictureShown, rows: readonly Row[], say: Sheet["say"]): readonly string[] {
  const hole = valueOf(picture, "hole"),
    short = valueOf(picture, "hole-short"),
    plies = valueOf(picture, "plies");
  return [
    ...(hole
      ? [
          say("draw.says", {
            what: say("draw.hole"),
            value: [hole, ...(short ? [short] : [])].map((one) => shownText(one, say)).join(" × "),
          }),
        ]
      : []),
    ...(plies?.state === "known"
      ? rows.map((row, i) =>
          say("draw.ply-says", {
            n: i + 1,
            values: Object.entries(row)
              .map(([name, cell]) => `${name} ${cell.text}`)
              .join(", "),
          }),
        )
      : [say("draw.says", { what: say("draw.plies-name"), value: plies ? shownText(plies, say) : "" })]),
  ];
}
