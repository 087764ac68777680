// The bevel from the side, to scale along the panel and stretched across it: the panel with its cut, the
// plies that step out over the bevel, the patch behind, the core and inner skin of a sandwich. A hole too
// wide for the sheet is broken in the middle, as long parts are on a drawing.
//
//        |<-- bevel -->|<----- hole ----->|
//     ___               __________________               ___
//    /  /`--.__ ply n                          __.--'/  /      top face
//    \  \      `--.__ ply 1              __.--'      \  \
//     ‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾‾
//              |________ patch ___________|
import type { PictureShown } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import type { WordKey } from "../words/en.ts";
import type { Say } from "../words/words.ts";
import { keyOf } from "./key.ts";
import {
  type Drawn,
  type Fill,
  type Mark,
  type Point,
  area,
  breakLine,
  dimensionLine,
  line,
  mm,
  text,
} from "./marks.ts";
import { lengthColumns } from "./draw-plies.ts";
import { scaleText, spread, stretchFor } from "./scales.ts";
import { type Sizes, acrossOf, has, sizesOf } from "./section-sizes.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, lengthOf, openNotes, textOf, valueOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** The section is at most so high, mm on paper. */
const MOST_HIGH = 110;

/** The panel as it is on the sheet: where its parts are and how far they are stretched, in mm on paper. */
interface Section {
  readonly picture: PictureShown;
  readonly sheet: Sheet;
  readonly sizes: Sizes;
  /** The cut goes through the panel. */
  readonly through: boolean;
  /** Paper per length along the panel. */
  readonly scale: number;
  /** Paper per length across it, and how much more that is. */
  readonly down: number;
  readonly stretch: number;
  readonly left: number;
  readonly right: number;
  readonly middle: number;
  /** Half of the hole as it is drawn, and the gap in the middle where it is broken. */
  readonly half: number;
  readonly gap: number;
  /** The bevel along the panel. */
  readonly bevel: number;
  /** The top face, the foot of the cut, of the skin, of the whole panel and of the patch behind it. */
  readonly faceAt: number;
  readonly cut: number;
  readonly skin: number;
  readonly foot: number;
  readonly patchFoot: number;
}

export function drawSection(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  const { sizes, known } = sizesOf(picture);
  const section = sectionOf(picture, sheet, sizes);
  const { stretch } = section;
  const marks: Mark[] = [
    ...SIDES.flatMap((side) => panelSide(section, side)),
    ...pliesOn(section),
    ...patchBehind(section),
    ...lengthsAlong(section),
  ];
  let bottom = reachBelow(marks, section);
  bottom = thicknesses(marks, section, bottom);
  const legend: readonly (readonly [Fill, string])[] = [
    ["panel", say("draw.panel")],
    ...(sizes.plies.length > 0 ? [["ply", pliesText(picture, sizes.plies.length, say)] as const] : []),
    ...(sizes.core > 0 ? [["core", say("draw.core")] as const] : []),
    ...(sizes.backing > 0 ? [["patch", say("draw.backing")] as const] : []),
  ];
  bottom = keyOf(marks, legend, bottom + 4, sheet);
  const by = Number((stretch > 1 ? stretch : 1 / stretch).toPrecision(3));
  const stretched = stretch === 1 ? "" : say(stretch > 1 ? "draw.stretched" : "draw.squeezed", { by });
  const broken = section.gap > 0 ? say("draw.broken") : "";
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [
      known
        ? `${say("draw.scale", { scale: scaleText(section.scale) })}${stretched}${broken}.`
        : say("draw.not-to-scale"),
      // The reaches are those of a list by size; which ply goes down first is the book's, and is in its
      // steps.
      ...(sizes.plies.length > 1 && sizes.plies[0]! < sizes.plies.at(-1)! ? [say("draw.by-size")] : []),
      ...openNotes(picture, say, (argument) => nameOf(argument, say)),
    ],
    describes: describeSection(picture, sizes.plies.length, say),
  };
}

const SIDES = [-1, 1] as const;
type Side = (typeof SIDES)[number];

function sectionOf(picture: PictureShown, sheet: Sheet, sizes: Sizes): Section {
  const { size, width } = sheet;
  const [left, right] = [3, width - labelRoom(picture, sheet)];
  const { scale, hole, gap } = acrossOf(sizes, right - left);
  const stack = sizes.thickness + sizes.core + sizes.inner;
  const wanted = stretchFor(
    sizes.thickness * scale,
    Math.min(32, Math.max(11, sizes.plies.length * size * 1.05)),
    60,
  );
  // However thick core and patch are, the whole keeps to the sheet.
  const whole = (stack + sizes.backing) * scale;
  const stretch = whole * wanted > MOST_HIGH ? stretchFor(whole, 0, MOST_HIGH) : wanted;
  const down = scale * stretch;
  // Two rows of writing are above the panel: the lengths along it.
  const faceAt = size * 1.5 + size * 0.6 + 6.5;
  const foot = faceAt + stack * down;
  return {
    picture,
    sheet,
    sizes,
    through: sizes.depth >= sizes.thickness * (1 - 1e-9),
    scale,
    down,
    stretch,
    left,
    right,
    middle: left + (right - left) / 2,
    half: hole / 2,
    gap,
    bevel: sizes.run * scale,
    faceAt,
    cut: faceAt + Math.min(sizes.depth, sizes.thickness) * down,
    skin: faceAt + sizes.thickness * down,
    foot,
    patchFoot: foot + sizes.backing * down,
  };
}

/** The width that the names of the layers need, on the right. */
function labelRoom(picture: PictureShown, { say, size, width }: Sheet): number {
  const texts = LAYERS.filter((layer) => has(picture, layer)).flatMap((layer) =>
    width > 120 ? [labelOf(picture, layer, say)] : [nameOf(layer, say), textOf(picture, layer, say)],
  );
  const widest = Math.max(12, ...texts.map((one) => textWidth(one, size)));
  return Math.min(width * 0.3, widest + (has(picture, "depth") ? 11.2 : 8));
}

/** Half of the panel with its cut, the core and the inner skin under it. */
function panelSide(section: Section, side: Side): readonly Mark[] {
  const { through, scale, middle, half, gap, bevel, faceAt, cut, skin, foot } = section;
  const end = side < 0 ? section.left : section.right;
  const [edge, top, from] = [middle + side * half, middle + side * (half + bevel), middle + (side * gap) / 2];
  const face: readonly Point[] = through
    ? [
        [top, faceAt],
        [edge, skin],
        [end, skin],
      ]
    : [
        [top, faceAt],
        [edge, cut],
        [from, cut],
      ];
  const below: readonly Point[] = through
    ? []
    : [
        [from, skin],
        [end, skin],
      ];
  return [
    area([...face, ...below, ...broken(end, faceAt, skin), [end, faceAt]], "panel", "none"),
    line(
      [[end, faceAt], ...face],
      "outline",
      side < 0 ? { part: "bevel", run: mm(bevel), scale } : { part: "bevel-right", run: mm(bevel), scale },
    ),
    ...(through ? [] : [line([...below].reverse(), "outline")]),
    line(breakLine(end, faceAt, foot), "hair"),
    ...layersUnder(section, side),
  ];
}

/** Core and inner skin of a sandwich on one side. */
function layersUnder(section: Section, side: Side): readonly Mark[] {
  const { sizes, through, down, middle, half, gap } = section;
  const end = side < 0 ? section.left : section.right;
  const [edge, from] = [middle + side * half, middle + (side * gap) / 2];
  const marks: Mark[] = [];
  let at = section.skin;
  for (const layer of ["core", "inner"] as const) {
    if (sizes[layer] <= 0) continue;
    const under = at + sizes[layer] * down;
    marks.push(
      area(
        [
          [from, at],
          [end, at],
          [end, under],
          [from, under],
        ],
        layer === "core" ? "core" : "panel",
        "none",
      ),
      line(
        [
          [from, under],
          [end, under],
        ],
        "outline",
      ),
      ...(through
        ? [
            line(
              [
                [edge, at],
                [from, at],
              ],
              "outline",
            ),
          ]
        : []),
    );
    at = under;
  }
  return marks;
}

/** Each ply lies on the one before, its ends on the bevel. */
function pliesOn({ sheet, sizes, scale, middle, half, gap, faceAt, cut }: Section): readonly Mark[] {
  const { plies } = sizes;
  const each = plies.length === 0 ? 0 : (cut - faceAt) / plies.length;
  const marks: Mark[] = plies.flatMap((reach, i) => {
    const [bottom, top] = [cut - each * i, cut - each * (i + 1)];
    const [inner, outer] = [(plies[i - 1] ?? 0) * scale, reach * scale];
    return SIDES.flatMap((side) => {
      const from = middle + (side * gap) / 2;
      const low: Point = [middle + side * (half + inner), bottom];
      const high: Point = [middle + side * (half + outer), top];
      const data = { ply: i + 1, half: mm(half + outer), reach: mm(outer), side };
      return [
        area([[from, bottom], low, high, [from, top]], i % 2 === 0 ? "ply" : "ply-other", "none", data),
        line([[from, top], high], "inner"),
        line([low, high], "inner"),
      ];
    });
  });
  const { size } = sheet;
  if (each >= size * 1.02)
    plies.forEach((_, i) =>
      marks.push(
        text(
          [middle - size * 1.6, cut - each * (i + 0.5) + size * 0.33],
          String(i + 1),
          size * 0.9,
          "middle",
          { halo: true, data: { "ply-number": i + 1 } },
        ),
      ),
    );
  return marks;
}

/** The patch, and what marks the middle: a break where the hole is broken, else a line. */
function patchBehind(section: Section): readonly Mark[] {
  const { sizes, through, scale, middle, half, gap, faceAt, cut, foot, patchFoot } = section;
  const marks: Mark[] = [];
  if (sizes.backing > 0)
    for (const side of SIDES) {
      const from = middle + (side * gap) / 2;
      const end = middle + side * (half + sizes.reach * scale);
      const to = Math.max(section.left, Math.min(section.right, end));
      const shape: readonly Point[] = [
        [from, foot],
        [to, foot],
        [to, patchFoot],
        [from, patchFoot],
      ];
      marks.push(
        area(shape, "patch", "none", { part: "patch", reach: mm(sizes.reach * scale), side }),
        line(shape, "outline"),
      );
    }
  const filled = sizes.plies.length > 0 || !through || sizes.backing > 0;
  const from = sizes.plies.length > 0 ? faceAt : through ? foot : cut;
  if (gap > 0 && filled)
    for (const side of SIDES)
      marks.push(line(breakLine(middle + (side * gap) / 2, from, Math.max(patchFoot, foot), 1), "hair"));
  if (gap === 0)
    marks.push(
      line(
        [
          [middle, faceAt - 2],
          [middle, patchFoot + 3],
        ],
        "centre",
      ),
    );
  return marks;
}

/** The lengths of the bevel and the hole, above the panel. */
function lengthsAlong({ picture, sheet, middle, half, gap, bevel, faceAt, cut }: Section): readonly Mark[] {
  const { say, size, width } = sheet;
  const dimAt = size * 1.5 + size * 0.6;
  const [topLeft, holeLeft, holeRight] = [middle - half - bevel, middle - half, middle + half];
  const lengths = [
    { from: topLeft, to: holeLeft, argument: "run" as const },
    ...(has(picture, "hole") ? [{ from: holeLeft, to: holeRight, argument: "hole" as const }] : []),
  ].map((one) => ({
    ...one,
    at: (one.from + one.to) / 2,
    label: `${nameOf(one.argument, say)} ${textOf(picture, one.argument, say)}`,
  }));
  const marks: Mark[] = [topLeft, holeLeft, ...(lengths.length > 1 ? [holeRight] : [])].map((at) =>
    line(
      [
        [at, dimAt - 1.6],
        [at, at === topLeft ? faceAt - 0.8 : cut - 0.6],
      ],
      "dimension",
    ),
  );
  const natural = lengths.reduce((sum, one) => sum + textWidth(one.label, size) + 3, 0);
  const labels = lengths.map((one) =>
    natural <= width ? one.label : cropped(one.label, size, width / lengths.length - 4),
  );
  const wides = labels.map((label) => textWidth(label, size));
  const places = spread(
    lengths.map((one, i) => ({ at: one.at, size: wides[i]! })),
    1,
    width - 1,
    3,
  );
  lengths.forEach(({ from, to, at, argument }, i) => {
    const isBroken = argument === "hole" && gap > 0;
    const place = places[i]!;
    marks.push(
      ...dimensionLine(from, to, dimAt, "x", {
        dimension: argument,
        length: mm(to - from),
        ...(isBroken ? { broken: 1 } : {}),
      }),
      // A length that is shortened on the sheet is struck through twice.
      ...(isBroken ? [-0.7, 0.7] : []).map((by) =>
        line(
          [
            [middle + by - 0.6, dimAt + 1.4],
            [middle + by + 0.6, dimAt - 1.4],
          ],
          "inner",
        ),
      ),
    );
    if (Math.abs(place - at) > wides[i]! / 2)
      marks.push(
        line(
          [
            [place, size * 1.2],
            [at, dimAt],
          ],
          "dimension",
        ),
      );
    marks.push(text([place, size], labels[i]!, size, "middle"));
  });
  return marks;
}

/** The reach of the patch, below it; gives where the drawing ends so far. */
function reachBelow(marks: Mark[], section: Section): number {
  const { picture, sizes, scale, left, middle, half, foot, patchFoot } = section;
  const { say, size, width } = section.sheet;
  const bottom = Math.max(patchFoot, foot) + 2;
  if (sizes.backing <= 0 || !has(picture, "reach")) return bottom;
  const [from, to] = [Math.max(left, middle - half - sizes.reach * scale), middle - half];
  const at = bottom + 3;
  const label = cropped(`${say("draw.reach")} ${textOf(picture, "reach", say)}`, size, width - 4);
  const [place] = spread([{ at: (from + to) / 2, size: textWidth(label, size) }], 1, width - 1, 0);
  marks.push(
    line(
      [
        [from, patchFoot + 0.6],
        [from, at + 1],
      ],
      "dimension",
    ),
    line(
      [
        [to, foot + 0.6],
        [to, at + 1],
      ],
      "dimension",
    ),
    ...dimensionLine(from, to, at, "x", { dimension: "reach", length: mm(to - from) }),
    text([place!, at + size * 1.4], label, size, "middle"),
  );
  return at + size * 1.7;
}

interface LayerLine {
  readonly layer: Layer;
  readonly from: number;
  readonly to: number;
  /** Where its dimension begins. */
  readonly edge: number;
}

function layersOf(section: Section): readonly LayerLine[] {
  const { picture, sizes, through, scale, down, middle, half, right, faceAt, cut } = section;
  let from = faceAt;
  return LAYERS.filter((layer) => has(picture, layer)).flatMap((layer): readonly LayerLine[] => {
    if (layer === "depth")
      return through || lengthOf(picture, "depth") === undefined
        ? []
        : [{ layer, from: faceAt, to: cut, edge: middle + half }];
    const thick = sizes[layer] * down;
    if (thick <= 0) return [];
    const edge = layer === "backing" ? Math.min(right, middle + half + sizes.reach * scale) : right;
    const top = from;
    from += thick;
    return [{ layer, from: top, to: from, edge }];
  });
}

/** The thicknesses in a column beside the panel; gives where they end below. */
function thicknesses(marks: Mark[], section: Section, top: number): number {
  const { picture, faceAt, foot } = section;
  const { say, size, width } = section.sheet;
  const layers = layersOf(section);
  const column = section.right + 4;
  const start = column + (layers.some((one) => one.layer === "depth") ? 6.4 : 3.2);
  const room = width - start - 0.5;
  // The value goes under its name where both do not fit beside each other.
  const says = layers.map(({ layer }) =>
    textWidth(labelOf(picture, layer, say), size) <= room
      ? [labelOf(picture, layer, say)]
      : [nameOf(layer, say), textOf(picture, layer, say)],
  );
  const middles = spread(
    layers.map((one, i) => ({ at: (one.from + one.to) / 2, size: size * 1.25 * says[i]!.length })),
    faceAt - size * 2,
    Math.max(top, foot) + 2 * size * layers.length,
    0.6,
  );
  let bottom = top;
  layers.forEach(({ layer, from, to, edge }, i) => {
    const x = column + (layer === "depth" ? 3.4 : 0);
    const at = middles[i]!;
    marks.push(
      ...[from, to].map((y) =>
        line(
          [
            [edge + 0.8, y],
            [x + 1.2, y],
          ],
          "dimension",
        ),
      ),
      ...dimensionLine(from, to, x, "y", { dimension: layer, length: mm(to - from) }),
    );
    if (Math.abs(at - (from + to) / 2) > 0.8)
      marks.push(
        line(
          [
            [x, (from + to) / 2],
            [start - 0.6, at],
          ],
          "dimension",
        ),
      );
    says[i]!.forEach((words, n) => {
      const y = at + size * (0.35 + 1.2 * (n - (says[i]!.length - 1) / 2));
      marks.push(text([start, y], cropped(words, size, room), size));
      bottom = Math.max(bottom, y + size * 0.4);
    });
  });
  return bottom;
}

const LAYERS = ["thickness", "core", "inner", "backing", "depth"] as const;
type Layer = (typeof LAYERS)[number];

const labelOf = (picture: PictureShown, layer: Layer, say: Say): string =>
  `${nameOf(layer, say)} ${textOf(picture, layer, say)}`;

const NAMES: Readonly<Record<string, WordKey>> = {
  thickness: "draw.thickness",
  depth: "draw.depth",
  run: "draw.run",
  hole: "draw.hole",
  backing: "draw.backing",
  reach: "draw.reach",
  core: "draw.core",
  inner: "draw.inner",
  ply: "draw.ply",
  plies: "draw.plies-name",
};
const nameOf = (argument: string, say: Say): string => {
  const key = NAMES[argument];
  return key === undefined ? argument : say(key);
};

/** The outer end of the panel follows its break line. */
const broken = (end: number, top: number, bottom: number): readonly Point[] =>
  [...breakLine(end, top, bottom, 0)].reverse().slice(1, -1);

const pliesText = (picture: PictureShown, count: number, say: Say): string => {
  const ply = valueOf(picture, "ply");
  const each = ply?.state === "known" ? ply.text : "";
  return each === ""
    ? say(count === 1 ? "draw.one-ply" : "draw.plies", { count })
    : say(count === 1 ? "draw.one-ply-of" : "draw.plies-of", { count, each });
};

function describeSection(picture: PictureShown, count: number, say: Say): readonly string[] {
  const says = ["thickness", "depth", "run", "hole", "core", "inner", "backing", "reach", "ply"].flatMap(
    (argument) => {
      const value = valueOf(picture, argument);
      return value === undefined
        ? []
        : [say("draw.says", { what: nameOf(argument, say), value: shownText(value, say) })];
    },
  );
  const plies = valueOf(picture, "plies");
  const [longName] = lengthColumns(plies?.rows ?? []);
  const each = (plies?.rows ?? []).map((row, i) =>
    say("draw.ply-says", { n: i + 1, values: row[longName ?? ""]?.text ?? "" }),
  );
  return [
    ...says,
    ...each,
    ...(plies === undefined
      ? []
      : plies.state === "known"
        ? [pliesText(picture, count, say) + "."]
        : [say("draw.says", { what: say("draw.plies-name"), value: shownText(plies, say) })]),
  ];
}
