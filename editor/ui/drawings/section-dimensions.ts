// The dimensions of a section: the lengths above the panel, the reach of the patch below it, and the column
// of thicknesses beside it.
import type { Mark } from "./marks.ts";
import { dimensionLine, mm, segment, text } from "./marks.ts";
import { lengthOf, textOf } from "./paper.ts";
import { spread } from "./scales.ts";
import type { Section } from "./section-layout.ts";
import type { Layer } from "./section-sizes.ts";
import { LAYERS, has, labelOf, nameOf } from "./section-sizes.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Marks, and where they end below. */
export interface Dimensions {
  readonly marks: readonly Mark[];
  readonly bottom: number;
}

interface Length {
  readonly from: number;
  readonly to: number;
  readonly argument: "run" | "hole";
  readonly label: string;
}

/** Bevel and hole, above the panel. */
export function lengthMarks(section: Section): readonly Mark[] {
  const { rowTop, middle, half, bevel, faceAt, cut, sheet } = section;
  const { size } = sheet;
  const dimAt = rowTop + size * 0.6;
  const [topLeft, holeLeft, holeRight] = [middle - half - bevel, middle - half, middle + half];
  const lengths = lengthsOf(section);
  const ends = [topLeft, holeLeft, ...(lengths.length > 1 ? [holeRight] : [])];
  const { labels, places } = lengthLabels(section, lengths);
  return [
    ...ends.map((at) =>
      segment([at, dimAt - 1.6], [at, at === topLeft ? faceAt - 0.8 : cut - 0.6], "dimension"),
    ),
    ...lengths.flatMap((one, i) => {
      const [label, place, centre] = [labels[i]!, places[i]!, (one.from + one.to) / 2];
      const moved = Math.abs(place - centre) > textWidth(label, size) / 2;
      return [
        ...lengthLine(section, one, dimAt),
        ...(moved ? [segment([place, size * 1.2], [centre, dimAt], "dimension")] : []),
        text(place, size, label, size, { anchor: "middle" }),
      ];
    }),
  ];
}

function lengthsOf({ picture, sheet, middle, half, bevel }: Section): readonly Length[] {
  const { say } = sheet;
  const label = (argument: "run" | "hole"): string =>
    `${nameOf(argument, say)} ${textOf(picture, argument, say)}`;
  const run: Length = {
    from: middle - half - bevel,
    to: middle - half,
    argument: "run",
    label: label("run"),
  };
  if (!has(picture, "hole")) return [run];
  return [run, { from: middle - half, to: middle + half, argument: "hole", label: label("hole") }];
}

/** Labels in one row, cropped where they do not fit, and the centre of each. */
function lengthLabels(
  { sheet: { size, width } }: Section,
  lengths: readonly Length[],
): { readonly labels: readonly string[]; readonly places: readonly number[] } {
  const natural = lengths.reduce((sum, one) => sum + textWidth(one.label, size) + 3, 0);
  const labels = lengths.map((one) =>
    natural <= width ? one.label : cropped(one.label, size, width / lengths.length - 4),
  );
  const wanted = lengths.map((one, i) => ({
    at: (one.from + one.to) / 2,
    size: textWidth(labels[i]!, size),
  }));
  return { labels, places: spread(wanted, 1, width - 1, 3) };
}

/** A length that is shortened on the sheet is struck through twice. */
function lengthLine({ across, middle }: Section, one: Length, dimAt: number): readonly Mark[] {
  const broken = one.argument === "hole" && across.gap > 0;
  const data = {
    dimension: one.argument,
    length: mm(one.to - one.from),
    ...(broken ? { broken: 1 } : {}),
  };
  const strokes = broken ? [-0.7, 0.7] : [];
  return [
    ...dimensionLine(one.from, one.to, dimAt, "x", data),
    ...strokes.map((by) =>
      segment([middle + by - 0.6, dimAt + 1.4], [middle + by + 0.6, dimAt - 1.4], "inner"),
    ),
  ];
}

/** How far the patch reaches past the hole, below it. */
export function reachMarks(section: Section): Dimensions {
  const { picture, sheet, sizes, across, left, middle, half, foot, patchFoot } = section;
  const { say, size, width } = sheet;
  const bottom = Math.max(patchFoot, foot) + 2;
  if (sizes.backing <= 0 || !has(picture, "reach")) return { marks: [], bottom };
  const [from, to] = [Math.max(left, middle - half - sizes.reach * across.scale), middle - half];
  const at = bottom + 3;
  const label = cropped(`${say("draw.reach")} ${textOf(picture, "reach", say)}`, size, width - 4);
  const [place] = spread([{ at: (from + to) / 2, size: textWidth(label, size) }], 1, width - 1, 0);
  return {
    marks: [
      segment([from, patchFoot + 0.6], [from, at + 1], "dimension"),
      segment([to, foot + 0.6], [to, at + 1], "dimension"),
      ...dimensionLine(from, to, at, "x", { dimension: "reach", length: mm(to - from) }),
      text(place!, at + size * 1.4, label, size, { anchor: "middle" }),
    ],
    bottom: at + size * 1.7,
  };
}

interface Thickness {
  readonly layer: Layer;
  readonly from: number;
  readonly to: number;
  /** Where its extension lines begin. */
  readonly edge: number;
}

/**
 * Thicknesses in a column beside the panel, their labels moved apart; `bottom` is where the drawing ends so
 * far.
 */
export function thicknessMarks(section: Section, bottom: number): Dimensions {
  const { picture, sheet, right, faceAt, foot } = section;
  const { say, size, width } = sheet;
  const layers = thicknessesOf(section);
  const column = right + 4;
  const start = column + (layers.some((one) => one.layer === "depth") ? 6.4 : 3.2);
  const room = width - start - 0.5;
  // The value goes under its name where both do not fit beside each other.
  const says = layers.map(({ layer }) => {
    const label = labelOf(picture, layer, say);
    return textWidth(label, size) <= room ? [label] : [nameOf(layer, say), textOf(picture, layer, say)];
  });
  const middles = spread(
    layers.map((one, i) => ({ at: (one.from + one.to) / 2, size: size * 1.25 * says[i]!.length })),
    faceAt - size * 2,
    Math.max(bottom, foot) + 2 * size * layers.length,
    0.6,
  );
  let end = bottom;
  const marks = layers.flatMap((one, i) => {
    const x = column + (one.layer === "depth" ? 3.4 : 0);
    const label = says[i]!.map((words, n) => {
      const y = middles[i]! + size * (0.35 + 1.2 * (n - (says[i]!.length - 1) / 2));
      end = Math.max(end, y + size * 0.4);
      return text(start, y, cropped(words, size, room), size);
    });
    return [...thicknessLine(one, x, [start - 0.6, middles[i]!]), ...label];
  });
  return { marks, bottom: end };
}

/** The dimension line of one layer, and a leader to its label where that was moved. */
function thicknessLine(one: Thickness, x: number, label: readonly [number, number]): readonly Mark[] {
  const centre = (one.from + one.to) / 2;
  return [
    ...[one.from, one.to].map((y) => segment([one.edge + 0.8, y], [x + 1.2, y], "dimension")),
    ...dimensionLine(one.from, one.to, x, "y", { dimension: one.layer, length: mm(one.to - one.from) }),
    ...(Math.abs(label[1] - centre) > 0.8 ? [segment([x, centre], label, "dimension")] : []),
  ];
}

/** The layers that have a thickness, from the face down; the depth of a cut that does not go through. */
function thicknessesOf(section: Section): readonly Thickness[] {
  const { picture, sizes, across, down, through, right, middle, half, faceAt, cut } = section;
  let from = faceAt;
  return LAYERS.flatMap((layer): readonly Thickness[] => {
    if (!has(picture, layer)) return [];
    if (layer === "depth")
      return through || lengthOf(picture, "depth") === undefined
        ? []
        : [{ layer, from: faceAt, to: cut, edge: middle + half }];
    const thick = sizes[layer] * down;
    if (thick <= 0) return [];
    const one: Thickness = {
      layer,
      from,
      to: from + thick,
      edge: layer === "backing" ? Math.min(right, middle + half + sizes.reach * across.scale) : right,
    };
    from += thick;
    return [one];
  });
}
