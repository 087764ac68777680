// A chart of the book as a line, its rows as points, and where the job is on it.
import type { DrawnChart, PictureShown } from "../../../core/view.ts";
import type { Frame } from "./axes.ts";
import { axes } from "./axes.ts";
import type { Box, Drawn, Mark, Point, TextMark } from "./marks.ts";
import { boxOf, line, mm, oval, overlaps, segment, sentence, text } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

export function drawChart(_picture: PictureShown, chart: DrawnChart | undefined, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  if (chart === undefined) return sentence(say("draw.not-yet"), sheet);
  const marks: Mark[] = [];
  const frame = axes(marks, chart.across, chart.up, sheet, width > 120 ? 54 : 46);
  marks.push(...gridMarks(chart, frame), ...curveMarks(chart, frame), ...jobMarks(chart, frame, sheet));
  const held = chart.held.length > 0 ? [say("draw.held", { held: chart.held.join(", ") })] : [];
  return { width, height: mm(frame.bottom + 1), marks, notes: held, describes: describeChart(chart, sheet) };
}

function gridMarks(chart: DrawnChart, { left, right, top, foot, x, y }: Frame): readonly Mark[] {
  return [
    ...chart.across.ticks.map(({ si }) => segment([x(si), top], [x(si), foot], "hair")),
    ...chart.up.ticks.map(({ si }) => segment([left, y(si)], [right, y(si)], "hair")),
    line(
      [
        [left, top],
        [left, foot],
        [right, foot],
      ],
      "outline",
    ),
  ];
}

function curveMarks(chart: DrawnChart, frame: Frame): readonly Mark[] {
  return [
    ...chart.lines.map((stretch) =>
      line(
        stretch.map(({ x, y }): Point => [mm(frame.x(x)), mm(frame.y(y))]),
        "outline",
        { stretch: stretch.length },
      ),
    ),
    ...chart.points.map((point) =>
      oval(frame.x(point.x), frame.y(point.y), 0.85, 0.85, { fill: "paper", data: { point: point.says } }),
    ),
  ];
}

/** The job's point with its two values; nothing where it is not on the chart. */
function jobMarks(chart: DrawnChart, frame: Frame, sheet: Sheet): readonly Mark[] {
  const { at: across, low, high } = chart.across;
  const { at: up } = chart.up;
  if (!across || !up || across.si < low - 1e-9 || across.si > high + 1e-9) return [];
  const at: Point = [frame.x(across.si), frame.y(up.si)];
  const [x, y] = at;
  return [
    line(
      [
        [x, frame.foot],
        [x, y],
        [frame.left, y],
      ],
      "accent",
    ),
    oval(x, y, 1.7, 1.7, { fill: "paper", ink: "accent", data: { job: 1, x: mm(x), y: mm(y) } }),
    oval(x, y, 0.5, 0.5, { fill: "arrow", ink: "accent" }),
    jobLabel(`${across.text}: ${up.text}`, at, chart, frame, sheet),
  ];
}

/** It goes where the line does not: first above to the right, else above to the left, else below. */
function jobLabel(words: string, [x, y]: Point, chart: DrawnChart, frame: Frame, sheet: Sheet): TextMark {
  const { size, width } = sheet;
  const look = { strong: true, accent: true, halo: true };
  const says = cropped(words, size, frame.right - frame.left, true);
  const wide = textWidth(says, size, true);
  const isOnSheet = (at: Box): boolean =>
    at.left >= frame.left && at.right <= width && at.top >= frame.top - 2 && at.bottom <= frame.foot;
  const meetsLine = (at: Box): boolean =>
    chart.lines.flat().some((point) => overlaps(at, around(frame.x(point.x), frame.y(point.y))));
  const spots = [
    [x + 2.6, y - 2, "start"],
    [x - 2.6, y - 2, "end"],
    [x + 2.6, y + size + 1.6, "start"],
    [x - 2.6, y + size + 1.6, "end"],
  ] as const;
  const free = spots
    .map(([left, foot, anchor]) => text(left, foot, says, size, { anchor, ...look }))
    .find((one) => isOnSheet(boxOf(one)) && !meetsLine(boxOf(one)));
  if (free !== undefined) return free;
  const left = Math.max(frame.left + 1, Math.min(x, frame.right - wide));
  return text(left, Math.max(frame.top + size, y - 2), says, size, look);
}

const around = (x: number, y: number): Box => ({
  left: x - 0.6,
  right: x + 0.6,
  top: y - 0.6,
  bottom: y + 0.6,
});

function describeChart(chart: DrawnChart, { say }: Sheet): readonly string[] {
  return [
    say("draw.chart-says", { up: chart.up.title, across: chart.across.title }),
    ...chart.points.map((point) => `${point.says}.`),
    ...(chart.across.at && chart.up.at
      ? [say("draw.chart-job", { across: chart.across.at.text, up: chart.up.at.text })]
      : []),
    ...(chart.held.length > 0 ? [say("draw.held", { held: chart.held.join(", ") })] : []),
  ];
}
