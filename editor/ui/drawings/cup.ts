// The mixing cup from the side: one layer for each part in the order in which it goes in, and beside each
// mark what the scale or the measure then reads. Heights go by volume where densities say it, else by mass,
// and the drawing says which.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import type { WordKey } from "../words/en.ts";
import { shownText } from "../words/engine-words.ts";
import type { Say } from "../words/words.ts";
import type { Drawn, Fill, Mark } from "./marks.ts";
import { area, dimensionLine, line, mm, segment, sentence, text } from "./marks.ts";
import { type Sheet, lengthOf, openNotes, pictureValue, textOf } from "./paper.ts";
import { scaleFor, scaleText, spread } from "./scales.ts";
import { cropped, textWidth } from "./text-size.ts";

const PART_WORDS: Readonly<Record<string, WordKey>> = {
  resin: "draw.resin",
  filler: "draw.filler",
  hardener: "draw.hardener",
  total: "draw.total",
};
const partName = (part: string, say: Say): string => {
  const key = PART_WORDS[part];
  return key === undefined ? part : say(key);
};

type Row = NonNullable<PictureValue["rows"]>[number];

/** The fill is drawn so high, mm on paper, where the cup's width is not given. */
const FILL = 36;

export function drawCup(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  const rows = pictureValue(picture, "marks")?.rows ?? [];
  const words = {
    notes: openNotes(picture, say, (argument) => nameOf(argument, say)),
    describes: describeCup(picture, say),
  };
  if (rows.length === 0) return sentence(say("draw.cup-unknown"), sheet, words);
  if (!(rows.reduce((sum, row) => sum + row["amount"]!.si, 0) > 0))
    return sentence(say("draw.cup-empty"), sheet, words);
  const cup = layOut(picture, rows, sheet);
  const readings = readingMarks(cup);
  const across = acrossMarks(cup);
  const bottom = Math.max(readings.bottom, across.bottom);
  return {
    width,
    height: mm(bottom + 1),
    marks: [...layerMarks(cup), wallMarks(cup), ...readings.marks, ...across.marks],
    notes: [heightsSay(cup), ...words.notes],
    describes: words.describes,
  };
}

/** Where the cup and its layers lie on the sheet, in mm on paper. */
interface Cup {
  readonly picture: PictureShown;
  readonly sheet: Sheet;
  readonly rows: readonly Row[];
  /** What the heights go by: `unlike` where the parts have no common measure and each is drawn as high. */
  readonly heights: "volume" | "amount" | "unlike";
  /** Paper per cup; undefined where it is not to scale. */
  readonly scale: number | undefined;
  readonly left: number;
  readonly top: number;
  readonly wide: number;
  readonly foot: number;
  /** The upper edge of each layer, the first one lowest. */
  readonly tops: readonly number[];
}

function layOut(picture: PictureShown, rows: readonly Row[], sheet: Sheet): Cup {
  const wideSheet = sheet.width > 120;
  const heights = heightsOf(rows);
  const across = lengthOf(picture, "across");
  const height = heights === "volume" ? rows.at(-1)!["height"] : undefined;
  const isScaled = across !== undefined && across > 0 && height !== undefined;
  const scale = isScaled
    ? Math.min(scaleFor(across, wideSheet ? 62 : 34), scaleFor(height.si * 1000, 70))
    : undefined;
  const fill = isScaled ? height.si * 1000 * scale! : FILL;
  const wide = isScaled ? across * scale! : wideSheet ? 34 : 26;
  const [left, top] = [8, 4];
  const foot = top + Math.max(7, fill * 0.22) + fill;
  return {
    picture,
    sheet,
    rows,
    heights,
    scale,
    left,
    top,
    wide,
    foot,
    tops: topsOf(rows, heights, fill, foot),
  };
}

function heightsOf(rows: readonly Row[]): Cup["heights"] {
  if (rows.every((row) => row["volume"] !== undefined)) return "volume";
  return rows.every((row) => row["together"] !== undefined) ? "amount" : "unlike";
}

function topsOf(
  rows: readonly Row[],
  heights: Cup["heights"],
  fill: number,
  foot: number,
): readonly number[] {
  const sizes = rows.map((row) => (heights === "volume" ? row["volume"]!.si : row["amount"]!.si));
  const total = sizes.reduce((sum, one) => sum + one, 0);
  let at = foot;
  return sizes.map((one) => {
    at -= heights === "unlike" ? fill / rows.length : (one / total) * fill;
    return at;
  });
}

function layerMarks({ rows, tops, left, wide, foot }: Cup): readonly Mark[] {
  return rows.flatMap((row, i) => {
    const [from, to] = [i === 0 ? foot : tops[i - 1]!, tops[i]!];
    const part = row["part"]!.text;
    return [
      area(
        [
          [left, from],
          [left + wide, from],
          [left + wide, to],
          [left, to],
        ],
        fillOf(part),
        "none",
        { part, height: mm(from - to), from: mm(foot - from) },
      ),
      segment([left, to], [left + wide, to], "inner"),
    ];
  });
}

/** Straight walls with a rolled rim. */
const wallMarks = ({ left, top, wide, foot }: Cup): Mark =>
  line(
    [
      [left - 1.6, top],
      [left, top + 0.9],
      [left, foot],
      [left + wide, foot],
      [left + wide, top + 0.9],
      [left + wide + 1.6, top],
    ],
    "outline",
  );

/** Marks, and where they end below. */
interface Part {
  readonly marks: readonly Mark[];
  readonly bottom: number;
}

/** A line across the wall at each level, and what is read there. */
function readingMarks(cup: Cup): Part {
  const { rows, tops, left, wide, top, foot, sheet } = cup;
  const { say, size, width } = sheet;
  const start = left + wide + 9;
  const small = size * 0.95;
  const room = width - start - 1;
  const reads = rows.map((row, i) => lines(readingsOf(row, i, say), small, room));
  const blocks = reads.map((one) => size * 1.2 + one.length * size * 1.2);
  const places = spread(
    tops.map((y, i) => ({ at: y, size: blocks[i]! })),
    top - 2,
    Math.max(foot + 6, top - 2 + blocks.reduce((sum, one) => sum + one + 0.8, 0)),
    0.8,
  );
  const marks = rows.flatMap((row, i) => {
    const [y, place] = [tops[i]!, places[i]!];
    const first = `${i + 1}  ${partName(row["part"]!.text, say)} ${row["amount"]!.text}`;
    const from = place - blocks[i]! / 2 + size * 0.95;
    const wall = left + wide;
    return [
      segment([wall - 2.5, y], [wall + 2.5, y], "accent", { mark: i + 1, height: mm(foot - y) }),
      line(
        [
          [wall + 2.5, y],
          [start - 3, place],
          [start - 1, place],
        ],
        "dimension",
      ),
      text(start, from, cropped(first, size, room, true), size, { strong: true }),
      ...reads[i]!.map((says, n) =>
        text(start, from + size * 1.2 * (n + 1), cropped(says, small, room), small),
      ),
    ];
  });
  const ends = places.map((place, i) => place + blocks[i]! / 2 + size * 0.3);
  return { marks, bottom: Math.max(foot, ...ends) };
}

/** What the scale, the measure or the rule reads once this part is in. */
const readingsOf = (row: Row, i: number, say: Say): readonly string[] =>
  [
    row["together"] && i > 0 ? say("draw.reads", { value: row["together"].text }) : "",
    row["filled"] ? say("draw.filled", { value: row["filled"].text }) : "",
    row["height"] ? say("draw.high", { value: row["height"].text }) : "",
  ].filter((one) => one !== "");

/** The width of the cup below it, where it is to scale. */
function acrossMarks({ picture, sheet, scale, left, wide, foot }: Cup): Part {
  const { say, size } = sheet;
  if (scale === undefined) return { marks: [], bottom: foot };
  const below = foot + 4;
  const says = cropped(textOf(picture, "across", say), size, wide + 10);
  return {
    marks: [
      ...[left, left + wide].map((x) => segment([x, foot + 0.8], [x, below + 1.4], "dimension")),
      ...dimensionLine(left, left + wide, below, "x", { dimension: "across", length: mm(wide) }),
      text(left + wide / 2, below + size * 1.25, says, size, { anchor: "middle" }),
    ],
    bottom: below + size * 1.6,
  };
}

function heightsSay({ scale, heights, sheet: { say } }: Cup): string {
  if (scale !== undefined)
    return `${say("draw.scale", { scale: scaleText(scale) })}. ${say("draw.cup-straight")}`;
  switch (heights) {
    case "volume":
      return say("draw.cup-by-volume");
    case "amount":
      return say("draw.cup-by-amount");
    case "unlike":
      return say("draw.not-to-scale");
  }
}

/** Pieces side by side as far as they fit, then on the next line. */
function lines(pieces: readonly string[], size: number, room: number): readonly string[] {
  const made: string[] = [];
  for (const piece of pieces) {
    const joined = made.length === 0 ? piece : `${made.at(-1)} · ${piece}`;
    if (made.length > 0 && textWidth(joined, size) <= room) made[made.length - 1] = joined;
    else made.push(piece);
  }
  return made;
}

function fillOf(part: string): Fill {
  return part === "hardener"
    ? "hardener"
    : part === "filler"
      ? "filler"
      : part === "total"
        ? "total"
        : "resin";
}

function nameOf(argument: string, say: Say): string {
  if (argument === "across") return say("draw.cup-across");
  const of = /^(\w+)-density$/.exec(argument)?.[1];
  return of === undefined ? partName(argument, say) : say("draw.density-of", { what: partName(of, say) });
}

function describeCup(picture: PictureShown, say: Say): readonly string[] {
  const given = picture.values
    .filter((value) => value.argument !== "marks")
    .map((value) => say("draw.says", { what: nameOf(value.argument, say), value: shownText(value, say) }));
  const marks = (pictureValue(picture, "marks")?.rows ?? []).map((row, i) =>
    say("draw.mark-says", {
      n: i + 1,
      what: partName(row["part"]!.text, say),
      values: [
        row["amount"]!.text,
        row["together"] ? say("draw.reads", { value: row["together"].text }) : "",
        row["volume"] ? row["volume"].text : "",
        row["filled"] ? say("draw.filled", { value: row["filled"].text }) : "",
        row["height"] ? say("draw.high", { value: row["height"].text }) : "",
      ]
        .filter((one) => one !== "")
        .join(", "),
    }),
  );
  return [...given, ...marks];
}
