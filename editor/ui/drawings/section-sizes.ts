// The sizes that a section is drawn from, in mm, and the scale along the panel.
import type { PictureShown } from "../../../core/view.ts";
import { lengthColumns } from "./draw-plies.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { lengthOf, valueOf } from "./paper.ts";
import { scaleFor } from "./scales.ts";

/** Sizes in mm that stand in where a value is not known: the drawing then says that it is not to scale. */
const STAND_IN = { thickness: 4, run: 40, hole: 50, backing: 4, reach: 50, core: 10, inner: 2 };

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

export const has = (picture: PictureShown, argument: string): boolean =>
  valueOf(picture, argument) !== undefined;

/** Sizes in mm, stand-ins where they are not known. */
export function sizesOf(picture: PictureShown): { readonly sizes: Sizes; readonly known: boolean } {
  let known = true;
  const size = (argument: keyof typeof STAND_IN): number => {
    if (!has(picture, argument))
      return argument === "hole" ? Math.max(10, (lengthOf(picture, "run") ?? 20) * 0.8) : 0;
    const length = lengthOf(picture, argument);
    if (length === undefined) known = false;
    return length ?? STAND_IN[argument];
  };
  const thickness = Math.max(size("thickness"), 1e-3);
  const depth = lengthOf(picture, "depth");
  if (has(picture, "depth") && depth === undefined) known = false;
  const hole = size("hole");
  const rows = valueOf(picture, "plies")?.rows ?? [];
  if (has(picture, "plies") && valueOf(picture, "plies")!.state !== "known") known = false;
  const run = size("run");
  const [longName] = lengthColumns(rows);
  const plies = rows.flatMap((row) =>
    row[longName ?? ""] === undefined
      ? []
      : [Math.max(0, Math.min(run * 1.0001, (row[longName!]!.si * 1000 - hole) / 2))],
  );
  const backing = size("backing");
  const sizes: Sizes = {
    thickness,
    depth: Math.min(depth ?? thickness, thickness),
    run,
    hole,
    backing,
    reach: backing > 0 ? (has(picture, "reach") ? size("reach") : run) : 0,
    core: size("core"),
    inner: size("inner"),
    plies,
  };
  // Read last: looking up a size may find that it is not known.
  return { known, sizes };
}

/**
 * The scale along the panel; a hole that would make it too small is shown broken, with a gap in the middle.
 */
export function acrossOf(
  sizes: Sizes,
  room: number,
): { readonly scale: number; readonly hole: number; readonly gap: number } {
  const reach = Math.max(sizes.run, sizes.reach, 1e-3);
  const rest = 16;
  const whole = scaleFor(2 * reach + sizes.hole, room - rest);
  const part = room * 0.24;
  const broken = scaleFor(2 * reach, room - rest - part);
  if (broken > whole * 1.4 && broken * sizes.hole > part) return { scale: broken, hole: part, gap: 3.4 };
  return { scale: whole, hole: sizes.hole * whole, gap: 0 };
}
