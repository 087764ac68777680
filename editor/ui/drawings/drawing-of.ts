// Which drawing is made of a picture: one place that knows all shapes.
import type { PictureShown } from "../../../core/view.ts";
import type { WorkedDrawing } from "../../client/engine/messages.ts";
import type { WordKey } from "../words/en.ts";
import { drawChart } from "./draw-chart.ts";
import { drawCup } from "./draw-cup.ts";
import type { Drawn } from "./marks.ts";
import { drawMap } from "./draw-map.ts";
import { drawPlies } from "./draw-plies.ts";
import { drawSection } from "./draw-section.ts";
import type { Sheet } from "./paper.ts";
import { drawTimeLine } from "./draw-time-line.ts";

/** What a map or a chart is drawn from besides the picture. */
export type Worked = WorkedDrawing;

/** Undefined for a shape that this program does not know. */
export function drawingOf(picture: PictureShown, sheet: Sheet, worked?: Worked): Drawn | undefined {
  switch (picture.shape) {
    case "section":
      return drawSection(picture, sheet);
    case "plies":
      return drawPlies(picture, sheet);
    case "cup":
      return drawCup(picture, sheet);
    case "timeline":
      return drawTimeLine(picture, sheet);
    case "map":
      return drawMap(picture, worked && "map" in worked ? worked.map : undefined, sheet);
    case "chart":
      return drawChart(picture, worked && "chart" in worked ? worked.chart : undefined, sheet);
    default:
      return undefined;
  }
}

/** What the drawing is called where the book gives it no title. */
export const titleKeys: Readonly<Record<string, WordKey>> = {
  section: "draw.section",
  plies: "draw.plies-title",
  cup: "draw.cup-title",
  timeline: "draw.timeline",
  map: "draw.map",
  chart: "draw.chart",
};

/** Drawn from the engine's answer to a question of its own, since it costs many jobs. */
export const isAskedFor = (shape: string): boolean => shape === "map" || shape === "chart";

/**
 * Amounts and steps: nobody gets them before the job is released. A section shows what is measured, and may
 * come before.
 */
export const isReleased = (shape: string, state: string): boolean =>
  state === "ready" || (state === "waiting" && (shape === "section" || isAskedFor(shape)));
