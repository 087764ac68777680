// A chart of the book as a line, its rows as points, and where the job stands on it.
import type { DrawnChart, PictureShown } from "../../../core/view.ts";
import { axes } from "./axes.ts";
import { type Drawn, type Mark, boxOf, line, mm, oval, overlaps, text } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawChart(_picture: PictureShown, chart: DrawnChart | undefined, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  if (chart === undefined)
    return {
      width,
      height: size * 2,
      marks: [text(1, size * 1.2, say("draw.not-yet"), size)],
      notes: [],
      describes: [],
    };
  const marks: Mark[] = [];
  const frame = axes(marks, chart.across, chart.up, sheet, width > 120 ? 54 : 46);
  for (const tick of chart.across.ticks)
    marks.push(
      line(
        [
          [frame.x(tick.si), frame.top],
          [frame.x(tick.si), frame.foot],
        ],
        "hair",
      ),
    );
  for (const tick of chart.up.ticks)
    marks.push(
      line(
        [
          [frame.left, frame.y(tick.si)],
          [frame.right, frame.y(tick.si)],
        ],
        "hair",
      ),
    );
  marks.push(
    line(
      [
        [frame.left, frame.top],
        [frame.left, frame.foot],
        [frame.right, frame.foot],
      ],
      "outline",
    ),
  );
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
      oval(frame.x(point.x), frame.y(point.y), 0.85, 0.85, "paper", "outline", { point: point.says }),
    );
  const { at: across } = chart.across;
  const { at: up } = chart.up;
  if (across && up && across.si >= chart.across.low - 1e-9 && across.si <= chart.across.high + 1e-9) {
    const [x, y] = [frame.x(across.si), frame.y(up.si)];
    marks.push(
      line(
        [
          [x, frame.foot],
          [x, y],
          [frame.left, y],
        ],
        "accent",
      ),
      oval(x, y, 1.7, 1.7, "paper", "accent", { job: 1, x: mm(x), y: mm(y) }),
      oval(x, y, 0.5, 0.5, "arrow", "accent"),
    );
    const says = cropped(`${across.text}: ${up.text}`, size, frame.right - frame.left, true);
    const wide = textWidth(says, size, true);
    // The label goes where the line does not: first above to the right, else above to the left, else below.
    const spots = [
      [x + 2.6, y - 2, "start"],
      [x - 2.6, y - 2, "end"],
      [x + 2.6, y + size + 1.6, "start"],
      [x - 2.6, y + size + 1.6, "end"],
    ] as const;
    const free = spots
      .map(([tx, ty, anchor]) => text(tx, ty, says, size, anchor, { strong: true, accent: true, halo: true }))
      .find((one) => {
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
      });
    marks.push(
      free ??
        text(
          Math.max(frame.left + 1, Math.min(x, frame.right - wide)),
          Math.max(frame.top + size, y - 2),
          says,
          size,
          "start",
          { strong: true, accent: true, halo: true },
        ),
    );
  }
  const held = chart.held.length > 0 ? [say("draw.held", { held: chart.held.join(", ") })] : [];
  return { width, height: mm(frame.bottom + 1), marks, notes: held, describes: describeChart(chart, sheet) };
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
