// The mixing cup from the side: one layer for each part in the order in which it goes in, and beside each
// mark what the scale or the measure then reads. Heights go by volume where densities say it, else by mass,
// and the drawing says which.
import type { PictureShown } from "../../../core/view.ts";
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawCup(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const rows = valueOf(picture, "marks")?.rows ?? [];
  const notes = openNotes(picture, say, (argument) => nameOf(argument, say));
  const describes = describeCup(picture, say);
  const amounts = rows.map((row) => row["amount"]!.si);
  if (rows.length === 0 || !(amounts.reduce((sum, one) => sum + one, 0) > 0))
    return {
      width,
      height: size * 2,
      marks: [text(1, size * 1.2, say(rows.length === 0 ? "draw.cup-unknown" : "draw.cup-empty"), size)],
      notes,
      describes,
    };

  const byVolume = rows.every((row) => row["volume"] !== undefined);
  const sizes = rows.map((row) => (byVolume ? row["volume"]!.si : row["amount"]!.si));
  const alike = byVolume || rows.every((row) => row["together"] !== undefined);
  const total = sizes.reduce((sum, one) => sum + one, 0);
  const across = lengthOf(picture, "across");
  const height = byVolume ? rows.at(-1)!["height"] : undefined;
  const toScale = across !== undefined && across > 0 && height !== undefined;
  const scale = toScale
    ? Math.min(scaleFor(across, width > 120 ? 62 : 34), scaleFor(height.si * 1000, 70))
    : 1;
  const fill = toScale ? height.si * 1000 * scale : FILL;
  const wide = toScale ? across * scale : width > 120 ? 34 : 26;
  const rim = Math.max(7, fill * 0.22);
  const left = 8,
    top = 4,
    foot = top + rim + fill;
  const marks: Mark[] = [];

  // ── layers ──
  let at = foot;
  const tops: number[] = [];
  for (const [i, row] of rows.entries()) {
    const high = alike ? (sizes[i]! / total) * fill : fill / rows.length;
    const part = row["part"]!.text;
    marks.push(
      area(
        [
          [left, at],
          [left + wide, at],
          [left + wide, at - high],
          [left, at - high],
        ],
        fillOf(part),
        "none",
        { part, height: mm(high), from: mm(foot - at) },
      ),
      line(
        [
          [left, at - high],
          [left + wide, at - high],
        ],
        "inner",
      ),
    );
    at -= high;
    tops.push(at);
  }

  // ── the cup around them: straight walls, a rolled rim ──
  marks.push(
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
    ),
  );

  // ── marks: a line across the wall, and what is read there ──
  const start = left + wide + 9;
  const small = size * 0.95;
  const reads = rows.map((row, i) =>
    lines(
      [
        row["together"] && i > 0 ? say("draw.reads", { value: row["together"].text }) : "",
        row["filled"] ? say("draw.filled", { value: row["filled"].text }) : "",
        row["height"] ? say("draw.high", { value: row["height"].text }) : "",
      ].filter((one) => one !== ""),
      small,
      width - start - 1,
    ),
  );
  const blocks = reads.map((one) => size * 1.2 + one.length * size * 1.2);
  const places = spread(
    tops.map((y, i) => ({ at: y, size: blocks[i]! })),
    top - 2,
    Math.max(foot + 6, top - 2 + blocks.reduce((sum, one) => sum + one + 0.8, 0)),
    0.8,
  );
  let bottom = foot;
  rows.forEach((row, i) => {
    const y = tops[i]!;
    marks.push(
      line(
        [
          [left + wide - 2.5, y],
          [left + wide + 2.5, y],
        ],
        "accent",
        { mark: i + 1, height: mm(foot - y) },
      ),
      line(
        [
          [left + wide + 2.5, y],
          [start - 3, places[i]!],
          [start - 1, places[i]!],
        ],
        "dimension",
      ),
    );
    const first = `${i + 1}  ${partName(row["part"]!.text, say)} ${row["amount"]!.text}`;
    const from = places[i]! - blocks[i]! / 2 + size * 0.95;
    marks.push(
      text(start, from, cropped(first, size, width - start - 1, true), size, "start", { strong: true }),
    );
    reads[i]!.forEach((says, n) =>
      marks.push(text(start, from + size * 1.2 * (n + 1), cropped(says, small, width - start - 1), small)),
    );
    bottom = Math.max(bottom, places[i]! + blocks[i]! / 2 + size * 0.3);
  });
  if (toScale) {
    const below = foot + 4;
    for (const x of [left, left + wide])
      marks.push(
        line(
          [
            [x, foot + 0.8],
            [x, below + 1.4],
          ],
          "dimension",
        ),
      );
    marks.push(
      ...dimensionLine(left, left + wide, below, "x", { dimension: "across", length: mm(wide) }),
      text(
        left + wide / 2,
        below + size * 1.25,
        cropped(textOf(picture, "across", say), size, wide + 10),
        size,
        "middle",
      ),
    );
    bottom = Math.max(bottom, below + size * 1.6);
  }
  const how = toScale
    ? `${say("draw.scale", { scale: scaleText(scale) })}. ${say("draw.cup-straight")}`
    : byVolume
      ? say("draw.cup-by-volume")
      : alike
        ? say("draw.cup-by-amount")
        : say("draw.not-to-scale");
  return { width, height: mm(bottom + 1), marks, notes: [how, ...notes], describes };
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
