// Where the parts of a section lie on the sheet. All lengths are mm on paper, x to the right and y down.
import type { PictureShown } from "../../../core/view.ts";
import type { Sheet } from "./paper.ts";
import { textOf } from "./paper.ts";
import { stretchFor } from "./scales.ts";
import type { Across, Layer, Sizes } from "./section-sizes.ts";
import { LAYERS, acrossOf, has, labelOf, nameOf, sizesOf } from "./section-sizes.ts";
import { textWidth } from "./text-size.ts";

/** The section is at most so high, mm on paper. */
const MOST_HIGH = 110;

export interface Section {
  readonly picture: PictureShown;
  readonly sheet: Sheet;
  readonly sizes: Sizes;
  /** All sizes are known: the drawing is to scale. */
  readonly known: boolean;
  readonly across: Across;
  /** How many times the thickness is drawn larger than the length; below 1 where it is drawn smaller. */
  readonly stretch: number;
  /** Paper per panel, across it. */
  readonly down: number;
  /** The cut goes through the panel. */
  readonly through: boolean;
  /** Ends of the panel, and the middle of the hole. */
  readonly left: number;
  readonly right: number;
  readonly middle: number;
  /** Half of the hole, and the bevel on one side of it. */
  readonly half: number;
  readonly bevel: number;
  /** The line of the lengths above the panel. */
  readonly rowTop: number;
  readonly faceAt: number;
  readonly cut: number;
  readonly skin: number;
  readonly foot: number;
  readonly patchFoot: number;
}

export const SIDES = [-1, 1] as const;
export type Side = (typeof SIDES)[number];

export function layOut(picture: PictureShown, sheet: Sheet): Section {
  const { size, width } = sheet;
  const { sizes, known } = sizesOf(picture);
  const [left, right] = [3, width - labelRoom(picture, sheet)];
  const across = acrossOf(sizes, right - left);
  const stack = sizes.thickness + sizes.core + sizes.inner;
  const stretch = stretchOf(sizes, across.scale, size);
  const down = across.scale * stretch;
  // Two rows of writing are above the panel: the lengths along it.
  const rowTop = size * 1.5;
  const faceAt = rowTop + size * 0.6 + 6.5;
  const foot = faceAt + stack * down;
  return {
    picture,
    sheet,
    sizes,
    known,
    across,
    stretch,
    down,
    through: sizes.depth >= sizes.thickness * (1 - 1e-9),
    left,
    right,
    middle: left + (right - left) / 2,
    half: across.hole / 2,
    bevel: sizes.run * across.scale,
    rowTop,
    faceAt,
    cut: faceAt + Math.min(sizes.depth, sizes.thickness) * down,
    skin: faceAt + sizes.thickness * down,
    foot,
    patchFoot: foot + sizes.backing * down,
  };
}

/** The inner end of what lies on one side: the middle, or the edge of the break. */
export const innerEnd = ({ middle, across }: Section, side: Side): number => middle + (side * across.gap) / 2;

/** Room for the column of thicknesses on the right. */
function labelRoom(picture: PictureShown, { say, size, width }: Sheet): number {
  const labels = (layer: Layer): readonly string[] =>
    width > 120 ? [labelOf(picture, layer, say)] : [nameOf(layer, say), textOf(picture, layer, say)];
  const widths = LAYERS.flatMap((layer) =>
    has(picture, layer) ? labels(layer).map((one) => textWidth(one, size)) : [],
  );
  return Math.min(width * 0.3, Math.max(12, ...widths) + (has(picture, "depth") ? 11.2 : 8));
}

/**
 * Thick enough for the plies to be told apart; however thick core and patch are, the whole keeps to the
 * sheet.
 */
function stretchOf(sizes: Sizes, scale: number, size: number): number {
  const least = Math.min(32, Math.max(11, sizes.plies.length * size * 1.05));
  const wanted = stretchFor(sizes.thickness * scale, least, 60);
  const whole = (sizes.thickness + sizes.core + sizes.inner + sizes.backing) * scale;
  return whole * wanted > MOST_HIGH ? stretchFor(whole, 0, MOST_HIGH) : wanted;
}
