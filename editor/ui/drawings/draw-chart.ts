// A chart of the book as a line, its rows as points, and where the job stands on it.
import type { DrawnChart, PictureShown } from "../../../core/view.ts";
import { type Frame, axes, jobPoint } from "./axes.ts";
import type { Drawn, Mark, Point, TextMark } from "./marks.ts";
import { boxOf, line, mm, oval, overlaps, text } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

export function drawChart(_picture: PictureShown, chart: DrawnChart | undefined, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  if (chart === undefined)
    return {
      width,
      height: size * 2,
      marks: [text([1, size * 1.2], say("draw.not-yet"), size)],
      notes: [],
      describes: [],
    };
  const marks: Mark[] = [];
  const frame = axes(marks, chart.across, chart.up, sheet, width > 120 ? 54 : 46);
  marks.push(...grid(chart, frame));
  for (const stretch of chart.lines)
    marks.push(
      line(
        stretch.map(({ x, y }) => [mm(frame.x(x)), mm(frame.y(y))] as const),
        "outline",
        { stretch: stretch.length },
      ),
    );
  for (const point of chart.points)
    marks.push(
      oval([frame.x(point.x), frame.y(point.y)], [0.85, 0.85], "paper", "outline", { point: point.says }),
    );
  marks.push(...jobMarks(chart, frame, sheet));
  const held = chart.held.length > 0 ? [say("draw.held", { held: chart.held.join(", ") })] : [];
  return { width, height: mm(frame.bottom + 1), marks, notes: held, describes: describeChart(chart, sheet) };
}

/** A line at each tick, and the two axes. */
function grid(chart: DrawnChart, { left, right, top, foot, x, y }: Frame): readonly Mark[] {
  const across = chart.across.ticks.map(({ si }): Point[] => [
    [x(si), top],
    [x(si), foot],
  ]);
  const up = chart.up.ticks.map(({ si }): Point[] => [
    [left, y(si)],
    [right, y(si)],
  ]);
  return [
    ...[...across, ...up].map((points) => line(points)),
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

/** Where the job is on the chart, where it is known and on it. */
function jobMarks(chart: DrawnChart, frame: Frame, { size, width }: Sheet): readonly Mark[] {
  const { at: across, low, high } = chart.across;
  const { at: up } = chart.up;
  if (!across || !up || across.si < low - 1e-9 || across.si > high + 1e-9) return [];
  const [x, y] = [frame.x(across.si), frame.y(up.si)];
  const says = cropped(`${across.text}: ${up.text}`, size, frame.right - frame.left, true);
  const label = (at: Point, anchor: "start" | "end"): TextMark =>
    text(at, says, size, anchor, { strong: true, accent: true, halo: true });
  const isFree = (one: TextMark): boolean => {
    const at = boxOf(one);
    return (
      at.left >= frame.left &&
      at.right <= width &&
      at.top >= frame.top - 2 &&
      at.bottom <= frame.foot &&
      !chart.lines.flat().some((p) =>
        overlaps(at, {
          left: frame.x(p.x) - 0.6,
          right: frame.x(p.x) + 0.6,
          top: frame.y(p.y) - 0.6,
          bottom: frame.y(p.y) + 0.6,
        }),
      )
    );
  };
  // The label goes where the line does not: first above to the right, else above to the left, else below.
  const spots = [y - 2, y + size + 1.6].flatMap((at) => [
    label([x + 2.6, at], "start"),
    label([x - 2.6, at], "end"),
  ]);
  return [
    line(
      [
        [x, frame.foot],
        [x, y],
        [frame.left, y],
      ],
      "accent",
    ),
    ...jobPoint(x, y),
    spots.find(isFree) ??
      label(
        [
          Math.max(frame.left + 1, Math.min(x, frame.right - textWidth(says, size, true))),
          Math.max(frame.top + size, y - 2),
        ],
        "start",
      ),
  ];
}

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
