// The mixing cup from the side: one layer for each part in the order in which it goes in, and beside each
// mark what the scale or the measure then reads. Heights go by volume where densities say it, else by mass,
// and the drawing says which.
import type { PictureShown, PictureValue } from "../../../core/view.ts";
import type { WordKey } from "../words/en.ts";
import { shownText } from "../words/engine-words.ts";
import type { Say } from "../words/words.ts";
import { type Drawn, type Fill, type Mark, area, dimensionLine, line, mm, text } from "./marks.ts";
import { scaleFor, scaleText, spread } from "./scales.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, lengthOf, openNotes, textOf, valueOf } from "./paper.ts";
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

/** The fill is drawn so high, mm on paper, where the cup's width is not given. */
const FILL = 36;

type Row = NonNullable<PictureValue["rows"]>[number];

/** How the cup is drawn, in mm on paper. */
interface Cup {
  readonly rows: readonly Row[];
  readonly byVolume: boolean;
  /** Heights of layers are in proportion. */
  readonly alike: boolean;
  /** Absent where it is not to scale. */
  readonly scale: number | undefined;
  readonly fill: number;
  readonly wide: number;
  readonly foot: number;
}
const LEFT = 8;
const TOP = 4;

export function drawCup(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const rows = valueOf(picture, "marks")?.rows ?? [];
  const notes = openNotes(picture, say, (argument) => nameOf(argument, say));
  const describes = describeCup(picture, say);
  if (rows.length === 0 || !(rows.reduce((sum, row) => sum + row["amount"]!.si, 0) > 0)) {
    const says = say(rows.length === 0 ? "draw.cup-unknown" : "draw.cup-empty");
    return { width, height: size * 2, marks: [text([1, size * 1.2], says, size)], notes, describes };
  }
  const cup = cupOf(rows, lengthOf(picture, "across"), width);
  const { scale, wide, foot } = cup;
  const { marks, tops } = layers(cup);
  // The cup around them: straight walls, a rolled rim.
  marks.push(
    line(
      [
        [LEFT - 1.6, TOP],
        [LEFT, TOP + 0.9],
        [LEFT, foot],
        [LEFT + wide, foot],
        [LEFT + wide, TOP + 0.9],
        [LEFT + wide + 1.6, TOP],
      ],
      "outline",
    ),
  );
  let bottom = readings(marks, cup, tops, sheet);
  if (scale !== undefined) {
    const below = foot + 4;
    for (const x of [LEFT, LEFT + wide])
      marks.push(
        line(
          [
            [x, foot + 0.8],
            [x, below + 1.4],
          ],
          "dimension",
        ),
      );
    const says = cropped(textOf(picture, "across", say), size, wide + 10);
    marks.push(
      ...dimensionLine(LEFT, LEFT + wide, below, "x", { dimension: "across", length: mm(wide) }),
      text([LEFT + wide / 2, below + size * 1.25], says, size, "middle"),
    );
    bottom = Math.max(bottom, below + size * 1.6);
  }
  return { width, height: mm(bottom + 1), marks, notes: [howDrawn(cup, say), ...notes], describes };
}

function howDrawn({ scale, byVolume, alike }: Cup, say: Say): string {
  if (scale !== undefined)
    return `${say("draw.scale", { scale: scaleText(scale) })}. ${say("draw.cup-straight")}`;
  return say(byVolume ? "draw.cup-by-volume" : alike ? "draw.cup-by-amount" : "draw.not-to-scale");
}

function cupOf(rows: readonly Row[], across: number | undefined, width: number): Cup {
  const byVolume = rows.every((row) => row["volume"] !== undefined);
  const high = (byVolume ? (rows.at(-1)!["height"]?.si ?? 0) : 0) * 1000;
  const toScale = across !== undefined && across > 0 && byVolume && rows.at(-1)!["height"] !== undefined;
  const scale = toScale ? Math.min(scaleFor(across, width > 120 ? 62 : 34), scaleFor(high, 70)) : undefined;
  const fill = scale === undefined ? FILL : high * scale;
  return {
    rows,
    byVolume,
    alike: byVolume || rows.every((row) => row["together"] !== undefined),
    scale,
    fill,
    wide: scale !== undefined && toScale ? across * scale : width > 120 ? 34 : 26,
    foot: TOP + Math.max(7, fill * 0.22) + fill,
  };
}

/** One layer for each part, from the foot up, and where each ends above. */
function layers({ rows, byVolume, alike, fill, wide, foot }: Cup): {
  readonly marks: Mark[];
  readonly tops: readonly number[];
} {
  const sizes = rows.map((row) => row[byVolume ? "volume" : "amount"]!.si);
  const total = sizes.reduce((sum, one) => sum + one, 0);
  const marks: Mark[] = [];
  let at = foot;
  const tops = rows.map((row, i) => {
    const high = alike ? (sizes[i]! / total) * fill : fill / rows.length;
    const part = row["part"]!.text;
    const [left, right, top] = [LEFT, LEFT + wide, at - high];
    marks.push(
      area(
        [
          [left, at],
          [right, at],
          [right, top],
          [left, top],
        ],
        fillOf(part),
        "none",
        { part, height: mm(high), from: mm(foot - at) },
      ),
      line(
        [
          [left, top],
          [right, top],
        ],
        "inner",
      ),
    );
    at = top;
    return top;
  });
  return { marks, tops };
}

/** At each mark a line across the wall, and what is read there; gives where it ends below. */
function readings(marks: Mark[], cup: Cup, tops: readonly number[], { say, size, width }: Sheet): number {
  const { rows, foot } = cup;
  const wall = LEFT + cup.wide;
  const start = wall + 9;
  const room = width - start - 1;
  const small = size * 0.95;
  const reads = rows.map((row, i) => lines(readAt(row, i > 0, say), small, room));
  const blocks = reads.map((one) => size * 1.2 + one.length * size * 1.2);
  const places = spread(
    tops.map((y, i) => ({ at: y, size: blocks[i]! })),
    TOP - 2,
    Math.max(foot + 6, TOP - 2 + blocks.reduce((sum, one) => sum + one + 0.8, 0)),
    0.8,
  );
  let bottom = foot;
  rows.forEach((row, i) => {
    const y = tops[i]!;
    marks.push(
      line(
        [
          [wall - 2.5, y],
          [wall + 2.5, y],
        ],
        "accent",
        { mark: i + 1, height: mm(foot - y) },
      ),
      line(
        [
          [wall + 2.5, y],
          [start - 3, places[i]!],
          [start - 1, places[i]!],
        ],
        "dimension",
      ),
    );
    const first = `${i + 1}  ${partName(row["part"]!.text, say)} ${row["amount"]!.text}`;
    const from = places[i]! - blocks[i]! / 2 + size * 0.95;
    marks.push(text([start, from], cropped(first, size, room, true), size, "start", { strong: true }));
    reads[i]!.forEach((says, n) =>
      marks.push(text([start, from + size * 1.2 * (n + 1)], cropped(says, small, room), small)),
    );
    bottom = Math.max(bottom, places[i]! + blocks[i]! / 2 + size * 0.3);
  });
  return bottom;
}

/** What the scale reads in all, what the measure is filled to, and how high it is. */
const readAt = (row: Row, isNotFirst: boolean, say: Say): readonly string[] => [
  ...(row["together"] && isNotFirst ? [say("draw.reads", { value: row["together"].text })] : []),
  ...(row["filled"] ? [say("draw.filled", { value: row["filled"].text })] : []),
  ...(row["height"] ? [say("draw.high", { value: row["height"].text })] : []),
];

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
  const marks = (valueOf(picture, "marks")?.rows ?? []).map((row, i) =>
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
