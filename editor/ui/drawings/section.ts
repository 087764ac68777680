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
import { type Drawn, type Fill, type Mark, mm } from "./marks.ts";
import { type Sheet, openNotes, pictureValue } from "./paper.ts";
import { lengthColumns } from "./plies.ts";
import { scaleText } from "./scales.ts";
import { lengthMarks, reachMarks, thicknessMarks } from "./section-dimensions.ts";
import type { Section } from "./section-layout.ts";
import { layOut } from "./section-layout.ts";
import { middleMarks, panelMarks, patchMarks, plyMarks } from "./section-parts.ts";
import { nameOf } from "./section-sizes.ts";

export function drawSection(picture: PictureShown, sheet: Sheet): Drawn {
  const section = layOut(picture, sheet);
  const reach = reachMarks(section);
  const thicknesses = thicknessMarks(section, reach.bottom);
  const marks: Mark[] = [
    ...panelMarks(section),
    ...plyMarks(section),
    ...patchMarks(section),
    ...middleMarks(section),
    ...lengthMarks(section),
    ...reach.marks,
    ...thicknesses.marks,
  ];
  const bottom = keyOf(marks, legendOf(section), thicknesses.bottom + 4, sheet);
  return {
    width: sheet.width,
    height: mm(bottom + 1),
    marks,
    notes: notesOf(section),
    describes: describeSection(picture, section.sizes.plies.length, sheet.say),
  };
}

/** What the hatchings mean. */
function legendOf({ picture, sizes, sheet: { say } }: Section): readonly (readonly [Fill, string])[] {
  return [
    ["panel", say("draw.panel")],
    ...(sizes.plies.length > 0 ? [["ply", pliesText(picture, sizes.plies.length, say)] as const] : []),
    ...(sizes.core > 0 ? [["core", say("draw.core")] as const] : []),
    ...(sizes.backing > 0 ? [["patch", say("draw.backing")] as const] : []),
  ];
}

function notesOf({ picture, sizes, known, across, stretch, sheet: { say } }: Section): readonly string[] {
  const { plies } = sizes;
  const scale = `${say("draw.scale", { scale: scaleText(across.scale) })}${stretchText(stretch, say)}`;
  // The reaches are those of a list by size; which ply goes down first is the book's, and is in its steps.
  const bySize = plies.length > 1 && plies[0]! < plies.at(-1)! ? [say("draw.by-size")] : [];
  return [
    known ? `${scale}${across.gap > 0 ? say("draw.broken") : ""}.` : say("draw.not-to-scale"),
    ...bySize,
    ...openNotes(picture, say, (argument) => nameOf(argument, say)),
  ];
}

/** How much larger or smaller the thickness is drawn; "" where it is to the same scale. */
function stretchText(stretch: number, say: Say): string {
  if (stretch === 1) return "";
  const by = Number((stretch > 1 ? stretch : 1 / stretch).toPrecision(3));
  return say(stretch > 1 ? "draw.stretched" : "draw.squeezed", { by });
}

const pliesText = (picture: PictureShown, count: number, say: Say): string => {
  const ply = pictureValue(picture, "ply");
  const each = ply?.state === "known" ? ply.text : "";
  return each === ""
    ? say(count === 1 ? "draw.one-ply" : "draw.plies", { count })
    : say(count === 1 ? "draw.one-ply-of" : "draw.plies-of", { count, each });
};

function describeSection(picture: PictureShown, count: number, say: Say): readonly string[] {
  const says = ["thickness", "depth", "run", "hole", "core", "inner", "backing", "reach", "ply"].flatMap(
    (argument) => {
      const value = pictureValue(picture, argument);
      return value === undefined
        ? []
        : [say("draw.says", { what: nameOf(argument, say), value: shownText(value, say) })];
    },
  );
  const plies = pictureValue(picture, "plies");
  const [longName] = lengthColumns(plies?.rows ?? []);
  const each = (plies?.rows ?? []).map((row, i) =>
    say("draw.ply-says", { n: i + 1, values: row[longName ?? ""]?.text ?? "" }),
  );
  if (plies === undefined) return [...says, ...each];
  const all =
    plies.state === "known"
      ? `${pliesText(picture, count, say)}.`
      : say("draw.says", { what: say("draw.plies-name"), value: shownText(plies, say) });
  return [...says, ...each, all];
}
