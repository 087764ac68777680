// The sizes that a section is drawn from, the names of its parts, and the scale along the panel.
import type { PictureShown } from "../../../core/view.ts";
import type { Say } from "../words/words.ts";
import { lengthOf, pictureValue, textOf } from "./paper.ts";
import { lengthColumns } from "./plies.ts";
import { scaleFor } from "./scales.ts";

/** Sizes in mm that stand in where a value is not known: the drawing then says that it is not to scale. */
const STAND_IN = { thickness: 4, run: 40, hole: 50, backing: 4, reach: 50, core: 10, inner: 2 };

/** In mm of the panel. */
export interface Sizes {
  readonly thickness: number;
  readonly depth: number;
  readonly run: number;
  readonly hole: number;
  readonly backing: number;
  readonly reach: number;
  readonly core: number;
  readonly inner: number;
  /** How far each ply reaches past the hole on one side, smallest first. */
  readonly plies: readonly number[];
}

/** Parts whose thickness is given beside the panel, from the face down. */
export const LAYERS = ["thickness", "core", "inner", "backing", "depth"] as const;
export type Layer = (typeof LAYERS)[number];

export const has = (picture: PictureShown, argument: string): boolean =>
  pictureValue(picture, argument) !== undefined;

export const labelOf = (picture: PictureShown, layer: Layer, say: Say): string =>
  `${nameOf(layer, say)} ${textOf(picture, layer, say)}`;

export function nameOf(argument: string, say: Say): string {
  switch (argument) {
    case "thickness":
      return say("draw.thickness");
    case "depth":
      return say("draw.depth");
    case "run":
      return say("draw.run");
    case "hole":
      return say("draw.hole");
    case "backing":
      return say("draw.backing");
    case "reach":
      return say("draw.reach");
    case "core":
      return say("draw.core");
    case "inner":
      return say("draw.inner");
    case "ply":
      return say("draw.ply");
    case "plies":
      return say("draw.plies-name");
    default:
      return argument;
  }
}

/** Stand-ins where a size is not known: `known` is then false. */
export function sizesOf(picture: PictureShown): { readonly sizes: Sizes; readonly known: boolean } {
  const open = (["depth", "plies"] as const).some((argument) => isOpen(picture, argument));
  let known = !open;
  const size = (argument: keyof typeof STAND_IN): number => {
    if (!has(picture, argument))
      return argument === "hole" ? Math.max(10, (lengthOf(picture, "run") ?? 20) * 0.8) : 0;
    const length = lengthOf(picture, argument);
    if (length === undefined) known = false;
    return length ?? STAND_IN[argument];
  };
  const thickness = Math.max(size("thickness"), 1e-3);
  const [hole, run, backing] = [size("hole"), size("run"), size("backing")];
  const sizes: Sizes = {
    thickness,
    depth: Math.min(lengthOf(picture, "depth") ?? thickness, thickness),
    run,
    hole,
    backing,
    reach: backing > 0 ? (has(picture, "reach") ? size("reach") : run) : 0,
    core: size("core"),
    inner: size("inner"),
    plies: pliesPast(picture, hole, run),
  };
  return { known, sizes };
}

/** The book gives it, and it has no value yet that can be drawn. */
function isOpen(picture: PictureShown, argument: "depth" | "plies"): boolean {
  if (!has(picture, argument)) return false;
  return argument === "depth"
    ? lengthOf(picture, argument) === undefined
    : pictureValue(picture, argument)?.state !== "known";
}

/** No ply is drawn past the edge of the bevel. */
function pliesPast(picture: PictureShown, hole: number, run: number): readonly number[] {
  const rows = pictureValue(picture, "plies")?.rows ?? [];
  const [long = ""] = lengthColumns(rows);
  return rows.flatMap((row) =>
    row[long] === undefined ? [] : [Math.max(0, Math.min(run * 1.0001, (row[long].si * 1000 - hole) / 2))],
  );
}

/** How the panel is laid along the sheet, in mm on paper. */
export interface Across {
  /** Paper per panel. */
  readonly scale: number;
  readonly hole: number;
  /** The width of the break in the middle; 0 where the hole is drawn whole. */
  readonly gap: number;
}

/** A hole that would make the scale too small is shown broken, with a gap in the middle. */
export function acrossOf(sizes: Sizes, room: number): Across {
  const reach = Math.max(sizes.run, sizes.reach, 1e-3);
  const rest = 16;
  const whole = scaleFor(2 * reach + sizes.hole, room - rest);
  const part = room * 0.24;
  const broken = scaleFor(2 * reach, room - rest - part);
  if (broken > whole * 1.4 && broken * sizes.hole > part) return { scale: broken, hole: part, gap: 3.4 };
  return { scale: whole, hole: sizes.hole * whole, gap: 0 };
}
