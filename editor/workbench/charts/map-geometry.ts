// Where the fields of a chart's map are drawn, which of them are drawn as one, and the map in words. Pure.
import type { ChartView, JobView } from "../../../core/view.ts";
import { placeOn, weightOf } from "./chart-map-places.ts";
import type { Axis, ChartMap } from "./chart-map-places.ts";

/** Width of the drawing, room around the map, and height of a field of weight 1, in px. */
export const mapSize = { width: 700, left: 150, right: 18, top: 14, below: 58, field: 50 } as const;

export interface MapPlaces {
  /** Where each stretch of the axis across begins, and where the last one ends. */
  readonly xs: readonly number[];
  readonly ys: readonly number[];
  readonly bottom: number;
}

export function placesOfMap(map: ChartMap): MapPlaces {
  const tall = map.y.stretches.reduce((sum, one) => sum + weightOf(one), 0);
  const bottom = mapSize.top + tall * mapSize.field;
  return {
    xs: placesOf(map.x, mapSize.left, mapSize.width - mapSize.right),
    ys: placesOf(map.y, mapSize.top, bottom),
    bottom,
  };
}

function placesOf(axis: Axis, from: number, to: number): readonly number[] {
  const all = axis.stretches.reduce((sum, one) => sum + weightOf(one), 0) || 1;
  let done = 0;
  return [
    from,
    ...axis.stretches.map((one) => {
      done += weightOf(one);
      return from + ((to - from) * done) / all;
    }),
  ];
}

/**
 * Where a job's point is drawn; undefined while its place is not known. A field of words has room for its
 * text.
 */
export function jobPoint(
  map: ChartMap,
  { xs, ys }: MapPlaces,
  view: JobView,
): { readonly x: number; readonly y: number } | undefined {
  const [x, y] = [placeOn(map.x, view), placeOn(map.y, view)];
  if (x === undefined || y === undefined) return undefined;
  const stretch = map.y.stretches[y.stretch];
  return {
    x: along(xs, x.stretch, x.part),
    y: along(ys, y.stretch, stretch && "word" in stretch ? 0.74 : y.part),
  };
}

/** The place at this part of a stretch, 0 at its beginning and 1 at its end. */
export const along = (places: readonly number[], stretch: number, part: number): number =>
  places[stretch]! + (places[stretch + 1]! - places[stretch]!) * part;

/** Fields beside each other with the same rows. */
export interface Region {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly rows: readonly number[];
}

/** Fields beside each other with the same rows, as one. */
export function joined(map: ChartMap): readonly Region[] {
  return map.fields.flatMap((line, j) => {
    if (weightOf(map.y.stretches[j]!) === 0) return [];
    const found: { line: number; from: number; to: number; rows: readonly number[] }[] = [];
    line.forEach((rows, i) => {
      if (weightOf(map.x.stretches[i]!) === 0) return;
      const last = found.at(-1);
      if (last && last.rows.join() === rows.join() && !("word" in map.x.stretches[i]!)) last.to = i + 1;
      else found.push({ line: j, from: i, to: i + 1, rows });
    });
    return found;
  });
}

/** Single ends along the map that no row takes in, though both sides have one: a hole as thin as a line. */
export const edges = (map: ChartMap): readonly { readonly i: number; readonly j: number }[] =>
  map.fields.flatMap((line, j) =>
    line.flatMap((rows, i) => {
      const sides = [line[i - 1], line[i + 1]];
      return weightOf(map.x.stretches[i]!) === 0 &&
        weightOf(map.y.stretches[j]!) > 0 &&
        rows.length === 0 &&
        sides.every((side) => side === undefined || side.length > 0)
        ? [{ i, j }]
        : [];
    }),
  );

/** The map for those who do not see it. */
export function mapInWords(
  chart: ChartView,
  map: ChartMap,
  jobs: readonly string[],
  value: (row: number) => string,
): string {
  const holes = map.fields.flatMap((line) => line.filter((rows) => rows.length === 0)).length;
  const held = map.held.map((one) => `${one.name} ${one.word}`).join(", ");
  const gives = [...new Set(map.fields.flat(2).map(value))].join(", ");
  const open =
    holes === 0 ? "Every field has a row." : `${holes} ${holes === 1 ? "field has" : "fields have"} no row.`;
  const beside = jobs.length === 0 ? "" : ` Jobs: ${jobs.join(", ")}.`;
  const over = `${map.y.name} against ${map.x.name}${held === "" ? "" : `, for ${held}`}`;
  return `Map of ${chart.name}: ${over}. It gives ${gives}. ${open}${beside}`;
}
