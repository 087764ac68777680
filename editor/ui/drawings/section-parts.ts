// The parts of a section as marks: the panel with its cut, what lies under it, the plies and the patch.
import type { Mark, Point } from "./marks.ts";
import { area, breakLine, line, mm, segment, text } from "./marks.ts";
import type { Section, Side } from "./section-layout.ts";
import { SIDES, innerEnd } from "./section-layout.ts";

/** The panel with its cut on one side, and the core and inner skin of a sandwich under it. */
export function panelMarks(section: Section): readonly Mark[] {
  return SIDES.flatMap((side) => [...cutMarks(section, side), ...underMarks(section, side)]);
}

function cutMarks(section: Section, side: Side): readonly Mark[] {
  const { across, through, middle, half, bevel, faceAt, cut, skin, foot } = section;
  const [edge, top, end] = [middle + side * half, middle + side * (half + bevel), endOf(section, side)];
  const inner = innerEnd(section, side);
  const outerEnd = broken(end, faceAt, skin);
  const shape: readonly Point[] = through
    ? [[top, faceAt], [edge, skin], [end, skin], ...outerEnd, [end, faceAt]]
    : [[top, faceAt], [edge, cut], [inner, cut], [inner, skin], [end, skin], ...outerEnd, [end, faceAt]];
  const edgeLine: readonly Point[] = through
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
        [inner, cut],
      ];
  const part = side < 0 ? "bevel" : "bevel-right";
  return [
    area(shape, "panel", "none"),
    line(edgeLine, "outline", { part, run: mm(bevel), scale: across.scale }),
    ...(through ? [] : [segment([end, skin], [inner, skin], "outline")]),
    line(breakLine(end, faceAt, foot), "hair"),
  ];
}

function underMarks(section: Section, side: Side): readonly Mark[] {
  const { sizes, down, through, middle, half, skin } = section;
  const [from, end, edge] = [innerEnd(section, side), endOf(section, side), middle + side * half];
  const layers = (["core", "inner"] as const).filter((layer) => sizes[layer] > 0);
  let at = skin;
  return layers.flatMap((layer) => {
    const [top, foot] = [at, at + sizes[layer] * down];
    at = foot;
    const shape: readonly Point[] = [
      [from, top],
      [end, top],
      [end, foot],
      [from, foot],
    ];
    return [
      area(shape, layer === "core" ? "core" : "panel", "none"),
      segment([from, foot], [end, foot], "outline"),
      ...(through ? [segment([edge, top], [from, top], "outline")] : []),
    ];
  });
}

/** Each ply lies on the one before, its ends on the bevel; numbered where there is room. */
export function plyMarks(section: Section): readonly Mark[] {
  const { sizes, sheet, middle, faceAt, cut } = section;
  const { size } = sheet;
  const count = sizes.plies.length;
  const each = count === 0 ? 0 : (cut - faceAt) / count;
  const plies = sizes.plies.flatMap((_, ply) => SIDES.flatMap((side) => onePly(section, ply, each, side)));
  if (each < size * 1.02) return plies;
  const numbers = sizes.plies.map((_, i) =>
    text(middle - size * 1.6, cut - each * (i + 0.5) + size * 0.33, String(i + 1), size * 0.9, {
      anchor: "middle",
      halo: true,
      data: { "ply-number": i + 1 },
    }),
  );
  return [...plies, ...numbers];
}

function onePly(section: Section, ply: number, each: number, side: Side): readonly Mark[] {
  const { sizes, across, middle, half, cut } = section;
  const [bottom, top] = [cut - each * ply, cut - each * (ply + 1)];
  const [inner, outer] = [(sizes.plies[ply - 1] ?? 0) * across.scale, sizes.plies[ply]! * across.scale];
  const from = innerEnd(section, side);
  const [innerX, outerX] = [middle + side * (half + inner), middle + side * (half + outer)];
  return [
    area(
      [
        [from, bottom],
        [innerX, bottom],
        [outerX, top],
        [from, top],
      ],
      ply % 2 === 0 ? "ply" : "ply-other",
      "none",
      {
        ply: ply + 1,
        half: mm(half + outer),
        reach: mm(outer),
        side,
      },
    ),
    segment([from, top], [outerX, top], "inner"),
    segment([innerX, bottom], [outerX, top], "inner"),
  ];
}

/** The patch behind, as far as the sheet goes. */
export function patchMarks(section: Section): readonly Mark[] {
  const { sizes, across, left, right, middle, half, foot, patchFoot } = section;
  if (sizes.backing <= 0) return [];
  const reach = sizes.reach * across.scale;
  return SIDES.flatMap((side) => {
    const from = innerEnd(section, side);
    const to = Math.max(left, Math.min(right, middle + side * (half + reach)));
    const shape: readonly Point[] = [
      [from, foot],
      [to, foot],
      [to, patchFoot],
      [from, patchFoot],
    ];
    return [area(shape, "patch", "none", { part: "patch", reach: mm(reach), side }), line(shape, "outline")];
  });
}

/** A hole that is broken has break lines where something fills it; a whole one has a centre line. */
export function middleMarks(section: Section): readonly Mark[] {
  const { sizes, across, through, middle, faceAt, cut, foot, patchFoot } = section;
  if (across.gap === 0) return [segment([middle, faceAt - 2], [middle, patchFoot + 3], "centre")];
  const filled = sizes.plies.length > 0 || !through || sizes.backing > 0;
  if (!filled) return [];
  const top = sizes.plies.length > 0 ? faceAt : through ? foot : cut;
  return SIDES.map((side) =>
    line(breakLine(innerEnd(section, side), top, Math.max(patchFoot, foot), 1), "hair"),
  );
}

const endOf = ({ left, right }: Section, side: Side): number => (side < 0 ? left : right);

/** The outer end of the panel follows its break line. */
const broken = (end: number, top: number, bottom: number): readonly Point[] =>
  [...breakLine(end, top, bottom, 0)].reverse().slice(1, -1);
