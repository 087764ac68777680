// In the worker: what a map or a chart of the card is drawn from.
import type { PictureShown, UnitSystem } from "../../../core/view.ts";
import { chartDrawn, outcomeMap } from "../../../engine/index.ts";
import type { JobToWork, WorkedDrawing } from "./messages.ts";
import { jobHere } from "./served.ts";

export function drawing(
  text: string,
  job: JobToWork,
  picture: PictureShown,
  units: UnitSystem,
): WorkedDrawing | undefined {
  const worked = jobHere(text, job);
  const named = (argument: string): string =>
    picture.values.find((value) => value.argument === argument)?.name ?? "";
  if (picture.shape === "map") {
    const map = outcomeMap(
      worked,
      { across: named("across"), up: named("up"), shows: named("shows") },
      units,
    );
    return map && { map };
  }
  if (picture.shape !== "chart") return undefined;
  const chart = chartDrawn(worked, named("shows"), units);
  return chart && { chart };
}
