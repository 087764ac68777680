// The plies from above, to scale, each with its number, and a table of their sizes and amounts beside or
// below them.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import { type Drawn, type Mark, boxOf, dimensionLine, line, mm, oval, overlaps, text } from "./marks.ts";
import type { TextMark } from "./marks.ts";
import { scaleFor, scaleText } from "./scales.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, lengthOf, openNotes, textOf, valueOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** So many rows are listed; of a longer list the first ones and the last. */
const MOST_LISTED = 120;

type Row = NonNullable<PictureValue["rows"]>[number];

/** Outlines nearer than this (mm on paper) would run into each other in print: some are then left out. */
const CLEAR = 0.55;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawPlies(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const rows = valueOf(picture, "plies")?.rows ?? [];
  const [longName, wideName] = lengthColumns(rows);
  const plies = rows.map((row, i) => ({
    n: i + 1,
    row,
    long: (row[longName ?? ""]?.si ?? 0) * 1000,
    wide: (row[wideName ?? longName ?? ""]?.si ?? 0) * 1000,
  }));
  const sized = plies.filter((ply) => ply.long > 0 && ply.wide > 0);
  const holeLong = lengthOf(picture, "hole") ?? 0;
  const holeWide =
    lengthOf(picture, "hole-short") ?? holeLong * (sized[0] ? sized[0].wide / sized[0].long : 1);
  const notes = openNotes(picture, say, (argument) =>
    argument === "plies" ? say("draw.plies-name") : say("draw.hole"),
  );
  const describes = describePlies(picture, rows, say);
  if (sized.length === 0)
    return {
      width,
      height: size * 2,
      marks: [
        text(
          1,
          size * 1.2,
          say(valueOf(picture, "plies")?.state === "known" ? "draw.no-plies" : "draw.plies-unknown"),
          size,
        ),
      ],
      notes,
      describes,
    };

  const wide = width > 120;
  const table = tableOf(picture, rows, sheet);
  const beside = wide && rows.length <= 16 && table.width <= width * 0.52;
  const sideText = textWidth(sized.at(-1)!.row[wideName ?? ""]?.text ?? "", size);
  const room = Math.max(20, (beside ? width - table.width - 6 : width) - sideText - 12);
  const longest = Math.max(...sized.map((ply) => ply.long), holeLong),
    widest = Math.max(...sized.map((ply) => ply.wide), holeWide);
  const scale = Math.min(scaleFor(longest, room), scaleFor(widest, wide ? 82 : 76));
  const [rx, ry] = [(longest * scale) / 2, (widest * scale) / 2];
  const [cx, cy] = [4 + room / 2, ry + 3];
  const marks: Mark[] = [];

  // Largest first, so that each smaller one lies on it.
  const shown = seen(sized, scale);
  for (const ply of [...shown].reverse())
    marks.push(
      oval(
        cx,
        cy,
        (ply.long * scale) / 2,
        (ply.wide * scale) / 2,
        ply.n % 2 === 1 ? "ply" : "ply-other",
        "inner",
        { ply: ply.n, long: mm(ply.long * scale), wide: mm(ply.wide * scale) },
      ),
    );
  if (holeLong > 0)
    marks.push(
      oval(cx, cy, (holeLong * scale) / 2, (holeWide * scale) / 2, "void", "outline", {
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

  const numbers: TextMark[] = [];
  for (const [i, ply] of shown.entries()) {
    const inner = i === 0 ? (holeLong * scale) / 2 : (shown[i - 1]!.long * scale) / 2;
    const outer = (ply.long * scale) / 2;
    const one = text(cx + (inner + outer) / 2, cy - size * 0.35, String(ply.n), size * 0.9, "middle", {
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
  if (holeLong * scale > textWidth(say("draw.hole"), size) + 4 && holeWide * scale > size * 4)
    numbers.push(
      text(cx, cy - size * 0.6, say("draw.hole"), size * 0.9, "middle", { halo: true, quiet: true }),
    );
  marks.push(...numbers);

  // The largest ply's length below, its width on the right.
  const largest = sized.at(-1)!;
  const [lx, ly] = [(largest.long * scale) / 2, (largest.wide * scale) / 2];
  const below = cy + ry + 5.5;
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
  marks.push(...dimensionLine(cx - lx, cx + lx, below, "x", { dimension: "length", length: mm(2 * lx) }));
  const longText = cropped(largest.row[longName!]!.text, size, room + 6);
  marks.push(text(cx, below + size * 1.25, longText, size, "middle"));
  let bottom = below + size * 1.7;
  if (wideName !== undefined) {
    const at = cx + rx + 4.5;
    for (const y of [cy - ly, cy + ly])
      marks.push(
        line(
          [
            [cx + 0.8, y],
            [at + 1.4, y],
          ],
          "dimension",
        ),
      );
    marks.push(...dimensionLine(cy - ly, cy + ly, at, "y", { dimension: "width", length: mm(2 * ly) }));
    const says = cropped(
      largest.row[wideName]?.text ?? "",
      size,
      (beside ? width - table.width - 3 : width) - at - 1.4,
    );
    marks.push(text(at + 1.4, cy + ry * 0.62 + size, says, size, "start", { halo: true }));
  }

  const [tx, ty] = beside ? [width - table.width, 2] : [0, bottom + 4];
  marks.push(...table.at(tx, ty));
  bottom = Math.max(bottom, ty + table.height);
  // A list of plies says how large each is, not which goes down first: that is the book's, and stands in its
  // steps.
  const order = sized.length > 1 && sized[0]!.long < largest.long ? [say("draw.by-size")] : [];
  const skipped = [
    ...(shown.length < sized.length
      ? [say("draw.some-plies", { shown: shown.length, all: sized.length })]
      : []),
    ...(rows.length > MOST_LISTED
      ? [say("draw.some-listed", { shown: MOST_LISTED - 1, all: rows.length })]
      : []),
  ];
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [`${say("draw.scale", { scale: scaleText(scale) })}.`, ...order, ...skipped, ...notes],
    describes,
  };
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
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
function tableOf(
  picture: PictureShown,
  rows: readonly Row[],
  { say, size, width: sheetWidth }: Sheet,
): { readonly width: number; readonly height: number; at(x: number, y: number): readonly Mark[] } {
  const small = size * 0.95;
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))].slice(0, 5);
  const head = ["", ...names];
  const listed = rows.flatMap((row, i) =>
    rows.length <= MOST_LISTED || i < MOST_LISTED - 1 || i === rows.length - 1 ? [{ row, i }] : [],
  );
  const cells = listed.map(({ row, i }) => [String(i + 1), ...names.map((name) => row[name]?.text ?? "–")]);
  const holeRow =
    valueOf(picture, "hole") === undefined
      ? []
      : [
          [
            say("draw.hole-short"),
            ...names.map((_, i) =>
              i === 0
                ? textOf(picture, "hole", say)
                : i === 1 && valueOf(picture, "hole-short")
                  ? textOf(picture, "hole-short", say)
                  : "",
            ),
          ],
        ];
  const all = [...holeRow, ...cells];
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
  return {
    width: own * most + 5 * (most - 1),
    height: step * (perBlock + 1) + 1,
    at: (x, y) =>
      Array.from({ length: most }, (_, block) => {
        const from = x + block * (own + 5);
        const lines = all.slice(block * perBlock, (block + 1) * perBlock);
        if (lines.length === 0) return [];
        const put = (row: readonly string[], line: number, strong: boolean): readonly Mark[] => {
          let at = from;
          return row
            .map((says, c) => {
              at += widths[c]! + gap;
              return text(
                c === 0 ? at - widths[c]! - gap : at - gap,
                y + step * (line + 0.9),
                cropped(says, small, widths[c]!, strong),
                small,
                c === 0 ? "start" : "end",
                { strong: strong || c === 0, ...(strong ? { quiet: true } : {}) },
              );
            })
            .filter((one) => one.text !== "");
        };
        return [
          ...put(head, 0, true),
          line(
            [
              [from, y + step * 1.25],
              [from + own - gap, y + step * 1.25],
            ],
            "inner",
          ),
          ...lines.flatMap((row, i) => put(row, i + 1.15, false)),
        ];
      }).flat(),
  };
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
