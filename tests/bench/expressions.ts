// A representative part of the shipped book's figures as expressions for a general-purpose mathematics
// library: all that is arithmetic or a choice, without the charts and the list of plies, whose outcomes both
// rivals are handed. Numbers in mm, g, mL, g/m2 as in the hand-written code; the library is spared its units,
// which would slow it further.
import { dials } from "./hand-written.ts";

/** What both rivals are given: answers and outcomes of charts, by name. */
export const GIVEN_ASKS = [
  "longest-side",
  "shortest-side",
  "thickness",
  "depth",
  "to-edge",
  "flexes",
  "back-open",
  "air",
  "panel",
  "humidity",
  "damage",
  "use",
  "edge",
  "back",
  "strands",
] as const;
export const GIVEN_CHARTS = [
  "skin",
  "method",
  "peroxide",
  "cream",
  "resin-pace.working",
  "backing.light",
  "backing.heavy",
] as const;

/** The library compares numbers faster than texts: words go in by their places here. */
export const WORDS: Readonly<Record<string, readonly string[]>> = {
  skin: ["smc", "closed-mould", "hand-laid", "carbon", "metal", "other"],
  method: ["milled-filler", "short-filler", "long-filler", "layup", "refer"],
  damage: ["surface", "through"],
};
export const RESINS: readonly string[] = ["epoxy", "polyester"];

/** Figure of the book, and the same rule for the library. */
export const EXPRESSIONS: readonly (readonly [figure: string, expression: string])[] = [
  ["resin-type", "skin == 0 ? 0 : 1"],
  ["air-number", "air"],
  ["damp", "log(humidity) + 17.62 * air_number / (243.12 + air_number)"],
  ["dew-point", "243.12 * damp / (17.62 - damp)"],
  ["bevel-taper", "flexes ? flexTaper : houseTaper"],
  ["cut-depth", "damage == 1 ? thickness : min(depth, thickness)"],
  ["run-out", "cut_depth * bevel_taper"],
  ["bevel-width", "ceil(run_out / 5 - 1e-9) * 5"],
  ["hole-short", "min(shortest_side, longest_side)"],
  ["bevel-long", "longest_side + 2 * bevel_width"],
  ["bevel-short", "hole_short + 2 * bevel_width"],
  [
    "refill",
    "(pi / 4 * longest_side * hole_short * cut_depth + pi / 4 * (longest_side + hole_short) * " +
      "bevel_width * cut_depth + pi / 3 * bevel_width ^ 2 * cut_depth) / 1000",
  ],
  ["fills", "method == 0 or method == 1 or method == 2"],
  ["lays", "method == 3"],
  ["patched", "damage == 1"],
  ["room-needed", "patched ? max(bevel_width, patchOverlap) : bevel_width"],
  ["glass-weight", "resin_type == 1 ? matWeight : clothWeight"],
  ["glass-share", "resin_type == 1 ? matGlass : clothGlass"],
  ["glass-part", "glass_share"],
  ["glass-density", "2.56"],
  ["resin-density", "resin_type == 1 ? 1.20 : 1.15"],
  ["resin-per-area", "glass_weight * (1 / glass_part - 1)"],
  [
    "ply-thickness",
    "(glass_weight / glass_density + glass_weight * (1 / glass_part - 1) / resin_density) / 1000",
  ],
  ["light-mat", "1.5 * 28.349523125 / 0.09290304"],
  ["heavy-mat", "2 * 28.349523125 / 0.09290304"],
  [
    "heavy-mat-thickness",
    "(heavy_mat / glass_density + heavy_mat * (1 / glass_part - 1) / resin_density) / 1000",
  ],
  ["cloth-layers", "resin_type == 0 ? ceil(thickness * patchFactor / ply_thickness - 1e-9) : 0"],
  [
    "patch-weight",
    "resin_type == 1 ? backing_light * light_mat + backing_heavy * heavy_mat : cloth_layers * clothWeight",
  ],
  [
    "patch-thickness",
    "(patch_weight / glass_density + patch_weight * (1 / glass_part - 1) / resin_density) / 1000",
  ],
  ["patch-long", "longest_side + 2 * patchOverlap"],
  ["patch-short", "hole_short + 2 * patchOverlap"],
  ["patch-glass", "patched ? patch_long * patch_short * patch_weight / 1e6 : 0"],
  ["patch-resin", "patch_glass * (1 / glass_part - 1)"],
  ["patch-batch", "ceil(patch_resin * (1 + waste) / 10 - 1e-9) * 10"],
  ["patch-lots", "ceil(patch_thickness / lotThickness - 1e-9)"],
  ["usable-cup", "min(largestCup, floor(laidPace * resin_pace_working / 5 + 1e-9) * 5)"],
  ["patch-cups", "max(ceil(patch_batch / usable_cup - 1e-9), patch_lots)"],
  ["patch-cup", "patched ? max(smallestCup, ceil(patch_batch / patch_cups / 5 - 1e-9) * 5) : 0"],
  ["ply-count", "lays ? ceil(cut_depth / ply_thickness - 1e-9) : 0"],
  ["ply-step", "bevel_width / max(1, ply_count)"],
  ["step-out", "floor(ply_step + 0.5 + 1e-9)"],
  ["lots", "ceil(ply_count * ply_thickness / lotThickness - 1e-9)"],
  ["dose-for", "100"],
  ["dose", "peroxide * dose_for"],
  ["dose-volume", "floor(dose / peroxideDensity / 0.01 + 0.5 + 1e-9) * 0.01"],
  ["patch-peroxide", "floor(peroxide * patch_cup / 0.1 + 0.5 + 1e-9) * 0.1"],
  ["patch-peroxide-volume", "floor(patch_peroxide / peroxideDensity / 0.1 + 0.5 + 1e-9) * 0.1"],
  ["epoxy-mix", "1 / 4"],
  ["patch-base", "patch_cup / (1 + epoxy_mix)"],
  ["patch-hardener", "patch_base * epoxy_mix"],
  ["filler-volume", "fills ? ceil(refill * (1 + waste) / 5 - 1e-9) * 5 : 0"],
  ["filler-needed", "ceil(filler_volume * fillerDensity / 10 - 1e-9) * 10"],
  ["cream-needed", "floor(cream * filler_needed / 0.1 + 0.5 + 1e-9) * 0.1"],
  ["puddle", "pi / 4 * puddleAcross ^ 2 * puddleThick * fillerDensity / 1000"],
  ["puddles", "ceil(filler_needed / puddle - 1e-9)"],
  ["puddle-cream", "cream * puddle"],
  ["bead", "floor(puddle_cream / creamDensity / (pi / 4 * beadAcross ^ 2) * 1000 / 5 + 0.5 + 1e-9) * 5"],
  ["filler-mix", "1"],
  ["filler-base", "filler_volume / (1 + filler_mix)"],
  ["filler-hardener", "filler_base * filler_mix"],
  ["first-grit", "cut_depth >= 1.5 ? roughGrit : bevelGrit"],
];

/** Hyphens mean subtraction in the library. */
export const libraryName = (name: string): string => name.replace(/[-.]/g, "_");

export const libraryDials = (): Map<string, unknown> => new Map(Object.entries(dials));
