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
import { lengthColumns } from "./plies.ts";
import { scaleFor, scaleText, spread, stretchFor } from "./scales.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, lengthOf, openNotes, textOf, valueOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Sizes in mm that stand in where a value is not known: the drawing then says that it is not to scale. */
const STAND_IN = { thickness: 4, run: 40, hole: 50, backing: 4, reach: 50, core: 10, inner: 2 };

/** The section is at most so high, mm on paper. */
const MOST_HIGH = 110;

interface Sizes {
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawSection(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const { sizes, known } = sizesOf(picture);
  const besideEachOther = (layer: Layer) =>
    width > 120 ? [labelOf(picture, layer, say)] : [nameOf(layer, say), textOf(picture, layer, say)];
  const labelRoom = Math.min(
    width * 0.3,
    Math.max(
      12,
      ...LAYERS.flatMap((layer) =>
        has(picture, layer) ? besideEachOther(layer).map((one) => textWidth(one, size)) : [],
      ),
    ) + (has(picture, "depth") ? 11.2 : 8),
  );
  const left = 3,
    right = width - labelRoom;
  const across = acrossOf(sizes, right - left);
  const { scale } = across;
  const stack = sizes.thickness + sizes.core + sizes.inner;
  const through = sizes.depth >= sizes.thickness * (1 - 1e-9);
  const wanted = stretchFor(
    sizes.thickness * scale,
    Math.min(32, Math.max(11, sizes.plies.length * sheet.size * 1.05)),
    60,
  );
  // However thick core and patch are, the whole keeps to the sheet.
  const whole = (stack + sizes.backing) * scale;
  const stretch = whole * wanted > MOST_HIGH ? stretchFor(whole, 0, MOST_HIGH) : wanted;
  const down = scale * stretch;
  const middle = left + (right - left) / 2;
  const half = across.hole / 2;

  // Two rows of writing stand above the panel: the lengths along it.
  const rowTop = size * 1.5;
  const faceAt = rowTop + size * 0.6 + 6.5;
  const foot = faceAt + stack * down;
  const marks: Mark[] = [];

  // ── the panel, its cut and what lies under it ──
  const skin = faceAt + sizes.thickness * down;
  const cut = faceAt + Math.min(sizes.depth, sizes.thickness) * down;
  const bevel = sizes.run * scale;
  for (const side of [-1, 1]) {
    const [edge, top, end] = [middle + side * half, middle + side * (half + bevel), side < 0 ? left : right];
    const outer = broken(end, faceAt, skin, side);
    const shape: Point[] = through
      ? [[top, faceAt], [edge, skin], [end, skin], ...outer, [end, faceAt]]
      : [
          [top, faceAt],
          [edge, cut],
          [middle + (side * across.gap) / 2, cut],
          [middle + (side * across.gap) / 2, skin],
          [end, skin],
          ...outer,
          [end, faceAt],
        ];
    marks.push(area(shape, "panel", "none"));
    marks.push(
      line(
        through
          ? [
              [end, faceAt],
              [top, faceAt],
              [edge, skin],
              [end, skin],
            ]
          : [
              [end, faceAt],
              [top, faceAt],
              [edge, cut],
              [middle + (side * across.gap) / 2, cut],
            ],
        "outline",
        side < 0 ? { part: "bevel", run: mm(bevel), scale } : { part: "bevel-right", run: mm(bevel), scale },
      ),
    );
    if (!through)
      marks.push(
        line(
          [
            [end, skin],
            [middle + (side * across.gap) / 2, skin],
          ],
          "outline",
        ),
      );
    marks.push(line(breakLine(end, faceAt, foot), "hair"));
    let at = skin;
    for (const [layer, thick] of [
      ["core", sizes.core],
      ["inner", sizes.inner],
    ] as const) {
      if (thick <= 0) continue;
      const from = middle + (side * across.gap) / 2;
      marks.push(
        area(
          [
            [from, at],
            [end, at],
            [end, at + thick * down],
            [from, at + thick * down],
          ],
          layer === "core" ? "core" : "panel",
          "none",
        ),
        line(
          [
            [from, at + thick * down],
            [end, at + thick * down],
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
      at += thick * down;
    }
  }

  // ── plies: each lies on the one before, its ends on the bevel ──
  const each = sizes.plies.length === 0 ? 0 : (cut - faceAt) / sizes.plies.length;
  sizes.plies.forEach((reach, i) => {
    const [bottom, top] = [cut - each * i, cut - each * (i + 1)];
    const [inner, outer] = [(sizes.plies[i - 1] ?? 0) * scale, reach * scale];
    for (const side of [-1, 1]) {
      const from = middle + (side * across.gap) / 2;
      marks.push(
        area(
          [
            [from, bottom],
            [middle + side * (half + inner), bottom],
            [middle + side * (half + outer), top],
            [from, top],
          ],
          i % 2 === 0 ? "ply" : "ply-other",
          across.gap > 0 ? "none" : "none",
          { ply: i + 1, half: mm(half + outer), reach: mm(outer), side },
        ),
      );
      marks.push(
        line(
          [
            [from, top],
            [middle + side * (half + outer), top],
          ],
          "inner",
        ),
        line(
          [
            [middle + side * (half + inner), bottom],
            [middle + side * (half + outer), top],
          ],
          "inner",
        ),
      );
    }
  });
  const numbered = each >= size * 1.02 ? sizes.plies.map((_, i) => i) : [];
  for (const i of numbered)
    marks.push(
      text(middle - size * 1.6, cut - each * (i + 0.5) + size * 0.33, String(i + 1), size * 0.9, "middle", {
        halo: true,
        data: { "ply-number": i + 1 },
      }),
    );

  // ── the patch behind ──
  const patchFoot = foot + sizes.backing * down;
  if (sizes.backing > 0) {
    for (const side of [-1, 1]) {
      const from = middle + (side * across.gap) / 2,
        to = Math.max(left, Math.min(right, middle + side * (half + sizes.reach * scale)));
      marks.push(
        area(
          [
            [from, foot],
            [to, foot],
            [to, patchFoot],
            [from, patchFoot],
          ],
          "patch",
          "none",
          { part: "patch", reach: mm(sizes.reach * scale), side },
        ),
        line(
          [
            [from, foot],
            [to, foot],
            [to, patchFoot],
            [from, patchFoot],
          ],
          "outline",
        ),
      );
    }
  }
  const filled = sizes.plies.length > 0 || !through || sizes.backing > 0;
  if (across.gap > 0 && filled)
    for (const side of [-1, 1])
      marks.push(
        line(
          breakLine(
            middle + (side * across.gap) / 2,
            sizes.plies.length > 0 ? faceAt : through ? foot : cut,
            Math.max(patchFoot, foot),
            1,
          ),
          "hair",
        ),
      );
  if (across.gap === 0)
    marks.push(
      line(
        [
          [middle, faceAt - 2],
          [middle, patchFoot + 3],
        ],
        "centre",
      ),
    );

  // ── lengths along the panel ──
  const dimAt = rowTop + size * 0.6;
  const [topLeft, holeLeft, holeRight] = [middle - half - bevel, middle - half, middle + half];
  const lengths = [
    {
      from: topLeft,
      to: holeLeft,
      argument: "run",
      label: `${say("draw.run")} ${textOf(picture, "run", say)}`,
    },
    ...(has(picture, "hole")
      ? [
          {
            from: holeLeft,
            to: holeRight,
            argument: "hole",
            label: `${say("draw.hole")} ${textOf(picture, "hole", say)}`,
          },
        ]
      : []),
  ];
  for (const at of [topLeft, holeLeft, ...(lengths.length > 1 ? [holeRight] : [])])
    marks.push(
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
  const places = spread(
    lengths.map((one, i) => ({ at: (one.from + one.to) / 2, size: textWidth(labels[i]!, size) })),
    1,
    width - 1,
    3,
  );
  lengths.forEach((one, i) => {
    marks.push(
      ...dimensionLine(one.from, one.to, dimAt, "x", {
        dimension: one.argument,
        length: mm(one.to - one.from),
        ...(one.argument === "hole" && across.gap > 0 ? { broken: 1 } : {}),
      }),
    );
    // A length that is shortened on the sheet is struck through twice.
    if (one.argument === "hole" && across.gap > 0)
      for (const by of [-0.7, 0.7])
        marks.push(
          line(
            [
              [middle + by - 0.6, dimAt + 1.4],
              [middle + by + 0.6, dimAt - 1.4],
            ],
            "inner",
          ),
        );
    const away = Math.abs(places[i]! - (one.from + one.to) / 2);
    if (away > textWidth(labels[i]!, size) / 2)
      marks.push(
        line(
          [
            [places[i]!, size * 1.2],
            [(one.from + one.to) / 2, dimAt],
          ],
          "dimension",
        ),
      );
    marks.push(text(places[i]!, size, labels[i]!, size, "middle"));
  });

  // ── reach of the patch, below ──
  let bottom = Math.max(patchFoot, foot) + 2;
  if (sizes.backing > 0 && has(picture, "reach")) {
    const [from, to] = [Math.max(left, middle - half - sizes.reach * scale), middle - half];
    const at = bottom + 3;
    const label = cropped(`${say("draw.reach")} ${textOf(picture, "reach", say)}`, size, width - 4);
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
    );
    const [place] = spread([{ at: (from + to) / 2, size: textWidth(label, size) }], 1, width - 1, 0);
    marks.push(text(place!, at + size * 1.4, label, size, "middle"));
    bottom = at + size * 1.7;
  }

  // ── thicknesses, in a column beside the panel ──
  let from = faceAt;
  const layers = LAYERS.flatMap(
    (
      layer,
    ): { readonly layer: Layer; readonly from: number; readonly to: number; readonly edge: number }[] => {
      if (!has(picture, layer)) return [];
      if (layer === "depth")
        return through || lengthOf(picture, "depth") === undefined
          ? []
          : [{ layer, from: faceAt, to: cut, edge: middle + half }];
      const thick = sizes[layer] * down;
      if (thick <= 0) return [];
      const one = {
        layer,
        from,
        to: from + thick,
        edge: layer === "backing" ? Math.min(right, middle + half + sizes.reach * scale) : right,
      };
      from += thick;
      return [one];
    },
  );
  const column = right + 4;
  const start = column + (layers.some((one) => one.layer === "depth") ? 6.4 : 3.2);
  // The value goes under its name where both do not fit beside each other.
  const says = layers.map(({ layer }) =>
    textWidth(labelOf(picture, layer, say), size) <= width - start - 0.5
      ? [labelOf(picture, layer, say)]
      : [nameOf(layer, say), textOf(picture, layer, say)],
  );
  const middles = spread(
    layers.map((one, i) => ({ at: (one.from + one.to) / 2, size: size * 1.25 * says[i]!.length })),
    faceAt - size * 2,
    Math.max(bottom, foot) + 2 * size * layers.length,
    0.6,
  );
  layers.forEach((one, i) => {
    const x = column + (one.layer === "depth" ? 3.4 : 0);
    for (const y of [one.from, one.to])
      marks.push(
        line(
          [
            [one.edge + 0.8, y],
            [x + 1.2, y],
          ],
          "dimension",
        ),
      );
    marks.push(
      ...dimensionLine(one.from, one.to, x, "y", { dimension: one.layer, length: mm(one.to - one.from) }),
    );
    if (Math.abs(middles[i]! - (one.from + one.to) / 2) > 0.8)
      marks.push(
        line(
          [
            [x, (one.from + one.to) / 2],
            [start - 0.6, middles[i]!],
          ],
          "dimension",
        ),
      );
    says[i]!.forEach((words, n) => {
      const at = middles[i]! + size * (0.35 + 1.2 * (n - (says[i]!.length - 1) / 2));
      marks.push(text(start, at, cropped(words, size, width - start - 0.5), size));
      bottom = Math.max(bottom, at + size * 0.4);
    });
  });

  // ── what the hatchings mean ──
  const legend: readonly (readonly [Fill, string])[] = [
    ["panel", say("draw.panel")],
    ...(sizes.plies.length > 0 ? [["ply", pliesText(picture, sizes.plies.length, say)] as const] : []),
    ...(sizes.core > 0 ? [["core", say("draw.core")] as const] : []),
    ...(sizes.backing > 0 ? [["patch", say("draw.backing")] as const] : []),
  ];
  bottom = keyOf(marks, legend, bottom + 4, sheet);

  const notToScale = known ? [] : [say("draw.not-to-scale")];
  const stretched =
    stretch === 1
      ? ""
      : say(stretch > 1 ? "draw.stretched" : "draw.squeezed", {
          by: stretch > 1 ? Number(stretch.toPrecision(3)) : Number((1 / stretch).toPrecision(3)),
        });
  // The reaches are those of a list by size; which ply goes down first is the book's, and stands in its
  // steps.
  const bySize = sizes.plies.length > 1 && sizes.plies[0]! < sizes.plies.at(-1)! ? [say("draw.by-size")] : [];
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [
      ...(known
        ? [
            `${say("draw.scale", { scale: scaleText(scale) })}${stretched}${across.gap > 0 ? say("draw.broken") : ""}.`,
          ]
        : notToScale),
      ...bySize,
      ...openNotes(picture, say, (argument) => nameOf(argument, say)),
    ],
    describes: describeSection(picture, sizes.plies.length, say),
  };
}

const LAYERS = ["thickness", "core", "inner", "backing", "depth"] as const;
type Layer = (typeof LAYERS)[number];

const has = (picture: PictureShown, argument: string): boolean => valueOf(picture, argument) !== undefined;
const labelOf = (picture: PictureShown, layer: Layer, say: Say): string =>
  `${nameOf(layer, say)} ${textOf(picture, layer, say)}`;

function nameOf(argument: string, say: Say): string {
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

/** Sizes in mm, stand-ins where they are not known. */
function sizesOf(picture: PictureShown): { readonly sizes: Sizes; readonly known: boolean } {
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
function acrossOf(
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

/** The outer end of the panel follows its break line. */
function broken(end: number, top: number, bottom: number, side: number): readonly Point[] {
  const points = breakLine(end, top, bottom, 0);
  void side;
  return [...points].reverse().slice(1, -1);
}

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
