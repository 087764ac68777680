// The plies from above, to scale, each with its number, and a table of their sizes and amounts beside or
// below them.
import type { PictureShown } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import type { Drawn, Mark, TextMark } from "./marks.ts";
import { boxOf, dimensionLine, mm, oval, overlaps, segment, sentence, text } from "./marks.ts";
import { type Sheet, lengthOf, openNotes, pictureValue } from "./paper.ts";
import type { PlyTable, Row } from "./ply-table.ts";
import { MOST_LISTED, tableOf } from "./ply-table.ts";
import { scaleFor, scaleText } from "./scales.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Outlines nearer than this (mm on paper) would run into each other in print: some are then left out. */
const CLEAR = 0.55;

interface Ply {
  /** Its place in the list, from 1. */
  readonly n: number;
  readonly row: Row;
  /** In mm of the panel. */
  readonly long: number;
  readonly wide: number;
}

export function drawPlies(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  const rows = pictureValue(picture, "plies")?.rows ?? [];
  const plies = pliesOf(rows);
  const words = {
    notes: openNotes(picture, say, (argument) => say(argument === "plies" ? "draw.plies-name" : "draw.hole")),
    describes: describePlies(picture, rows, say),
  };
  if (plies.length === 0) {
    const known = pictureValue(picture, "plies")?.state === "known";
    return sentence(say(known ? "draw.no-plies" : "draw.plies-unknown"), sheet, words);
  }
  const table = tableOf(picture, rows, sheet);
  const plan = layOut(picture, plies, table, sheet);
  const shown = seen(plies, plan.scale);
  const marks: Mark[] = [
    ...outlineMarks(plan, shown),
    ...numberMarks(plan, shown),
    ...lengthMarks(plan),
    ...widthMarks(plan),
  ];
  const below = plan.below + sheet.size * 1.7;
  const [tableX, tableY] = plan.beside ? [width - table.width, 2] : [0, below + 4];
  marks.push(...table.at(tableX, tableY));
  const bottom = Math.max(below, tableY + table.height);
  const notes = [...notesOf(plan, shown, rows.length), ...words.notes];
  return { width, height: mm(bottom + 1), marks, notes, describes: words.describes };
}

/** Those whose size is known. */
function pliesOf(rows: readonly Row[]): readonly Ply[] {
  const [long = "", wide = long] = lengthColumns(rows);
  return rows
    .map((row, i) => ({
      n: i + 1,
      row,
      long: (row[long]?.si ?? 0) * 1000,
      wide: (row[wide]?.si ?? 0) * 1000,
    }))
    .filter((ply) => ply.long > 0 && ply.wide > 0);
}

/** Where the plies lie on the sheet, in mm on paper. */
interface Plan {
  readonly sheet: Sheet;
  readonly table: PlyTable;
  /** The table is beside the plies, not below them. */
  readonly beside: boolean;
  readonly scale: number;
  readonly room: number;
  /** The middle of all plies, and half the extent of the largest. */
  readonly cx: number;
  readonly cy: number;
  readonly rx: number;
  readonly ry: number;
  /** The damage, in mm of the panel. */
  readonly hole: { readonly long: number; readonly wide: number };
  readonly plies: readonly Ply[];
  readonly largest: Ply;
  /** Names of the columns of lengths and of widths. */
  readonly longName: string;
  readonly wideName: string | undefined;
  /** The line of the length below the plies. */
  readonly below: number;
}

function layOut(picture: PictureShown, plies: readonly Ply[], table: PlyTable, sheet: Sheet): Plan {
  const { size, width } = sheet;
  const wideSheet = width > 120;
  const largest = plies.at(-1)!;
  const [first] = plies;
  const rows = pictureValue(picture, "plies")?.rows ?? [];
  const [longName = "", wideName] = lengthColumns(rows);
  const holeLong = lengthOf(picture, "hole") ?? 0;
  const hole = {
    long: holeLong,
    wide: lengthOf(picture, "hole-short") ?? holeLong * (first!.wide / first!.long),
  };
  const beside = wideSheet && rows.length <= 16 && table.width <= width * 0.52;
  const sideText = textWidth(largest.row[wideName ?? ""]?.text ?? "", size);
  const room = Math.max(20, (beside ? width - table.width - 6 : width) - sideText - 12);
  const longest = Math.max(...plies.map((ply) => ply.long), hole.long);
  const widest = Math.max(...plies.map((ply) => ply.wide), hole.wide);
  const scale = Math.min(scaleFor(longest, room), scaleFor(widest, wideSheet ? 82 : 76));
  const [rx, ry] = [(longest * scale) / 2, (widest * scale) / 2];
  const [cx, cy] = [4 + room / 2, ry + 3];
  const below = cy + ry + 5.5;
  return {
    ...{ sheet, table, beside, scale, room, cx, cy, rx, ry },
    ...{ hole, plies, largest, longName, wideName, below },
  };
}

/** Largest first, so that each smaller one lies on it; the damage on top; then the centre lines. */
function outlineMarks({ cx, cy, rx, ry, scale, hole }: Plan, shown: readonly Ply[]): readonly Mark[] {
  const plies = [...shown].reverse().map((ply) =>
    oval(cx, cy, (ply.long * scale) / 2, (ply.wide * scale) / 2, {
      fill: ply.n % 2 === 1 ? "ply" : "ply-other",
      ink: "inner",
      data: { ply: ply.n, long: mm(ply.long * scale), wide: mm(ply.wide * scale) },
    }),
  );
  const damage = oval(cx, cy, (hole.long * scale) / 2, (hole.wide * scale) / 2, {
    fill: "void",
    data: { part: "hole", long: mm(hole.long * scale) },
  });
  return [
    ...plies,
    ...(hole.long > 0 ? [damage] : []),
    segment([cx - rx - 2.5, cy], [cx + rx + 2.5, cy], "centre"),
    segment([cx, cy - ry - 2.5], [cx, cy + ry + 2.5], "centre"),
  ];
}

/** A number on each ply that is wide enough for it, and the word on the damage. */
function numberMarks(plan: Plan, shown: readonly Ply[]): readonly Mark[] {
  const { cx, cy, scale, hole, sheet } = plan;
  const { say, size } = sheet;
  const numbers: TextMark[] = [];
  for (const [i, ply] of shown.entries()) {
    const inner = ((i === 0 ? hole.long : shown[i - 1]!.long) * scale) / 2;
    const outer = (ply.long * scale) / 2;
    const one = text(cx + (inner + outer) / 2, cy - size * 0.35, String(ply.n), size * 0.9, {
      anchor: "middle",
      halo: true,
      data: { "ply-number": ply.n },
    });
    const label = boxOf(one);
    const fits = label.right - label.left <= outer - inner - 0.9;
    if (fits && !numbers.some((other) => overlaps(boxOf(other), label))) numbers.push(one);
  }
  const word = say("draw.hole");
  if (hole.long * scale > textWidth(word, size) + 4 && hole.wide * scale > size * 4)
    numbers.push(text(cx, cy - size * 0.6, word, size * 0.9, { anchor: "middle", halo: true, quiet: true }));
  return numbers;
}

/** The largest ply's length, below. */
function lengthMarks(plan: Plan): readonly Mark[] {
  const { cx, cy, scale, room, below, largest, longName, sheet } = plan;
  const { size } = sheet;
  const half = (largest.long * scale) / 2;
  const says = cropped(largest.row[longName]!.text, size, room + 6);
  return [
    ...[cx - half, cx + half].map((at) => segment([at, cy + 0.8], [at, below + 1.4], "dimension")),
    ...dimensionLine(cx - half, cx + half, below, "x", { dimension: "length", length: mm(2 * half) }),
    text(cx, below + size * 1.25, says, size, { anchor: "middle" }),
  ];
}

/** Its width, on the right. */
function widthMarks(plan: Plan): readonly Mark[] {
  const { cx, cy, rx, ry, scale, largest, wideName, beside, table, sheet } = plan;
  const { size, width } = sheet;
  if (wideName === undefined) return [];
  const half = (largest.wide * scale) / 2;
  const at = cx + rx + 4.5;
  const room = (beside ? width - table.width - 3 : width) - at - 1.4;
  const says = cropped(largest.row[wideName]?.text ?? "", size, room);
  return [
    ...[cy - half, cy + half].map((y) => segment([cx + 0.8, y], [at + 1.4, y], "dimension")),
    ...dimensionLine(cy - half, cy + half, at, "y", { dimension: "width", length: mm(2 * half) }),
    text(at + 1.4, cy + ry * 0.62 + size, says, size, { halo: true }),
  ];
}

function notesOf(plan: Plan, shown: readonly Ply[], listed: number): readonly string[] {
  const { plies, largest, scale, sheet } = plan;
  const { say } = sheet;
  const skipped = shown.length < plies.length;
  return [
    `${say("draw.scale", { scale: scaleText(scale) })}.`,
    // A list of plies says how large each is, not which goes down first: that is the book's, and is in its
    // steps.
    ...(plies.length > 1 && plies[0]!.long < largest.long ? [say("draw.by-size")] : []),
    ...(skipped ? [say("draw.some-plies", { shown: shown.length, all: plies.length })] : []),
    ...(listed > MOST_LISTED ? [say("draw.some-listed", { shown: MOST_LISTED - 1, all: listed })] : []),
  ];
}

/** The first column in a unit of length, and the second; a column called thickness is neither. */
export function lengthColumns(rows: readonly Row[]): readonly string[] {
  return Object.entries(rows[0] ?? {})
    .filter(([name, cell]) => name !== "thickness" && / (mm|cm|m|km|inch|ft|yd|um|mil)$/.test(cell.text))
    .map(([name]) => name);
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

function describePlies(picture: PictureShown, rows: readonly Row[], say: Sheet["say"]): readonly string[] {
  const hole = pictureValue(picture, "hole"),
    short = pictureValue(picture, "hole-short"),
    plies = pictureValue(picture, "plies");
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
