// Jobs on a curve, each hung at its place with a tag.
import { withKeys } from "../unique-keys.ts";
import { type PlottedJob, yOf } from "./curve-words.ts";
import { clean, spread } from "./geometry.ts";
import { EDGE, HEIGHT, LETTER, type Place, rises } from "./plot-place.ts";

/** Jobs laid alongside: a leader from both axes to the curve, and a tag with the name. */
export function Jobs({
  jobs,
  x,
  y,
  xReach,
  yReach,
  width,
  curve,
}: Place & { readonly jobs: readonly PlottedJob[] }) {
  const shown = jobs.filter((job) => Number.isFinite(job.x) && Number.isFinite(job.y));
  const rising = rises(curve);
  // Tags that would lie on one another make way upwards, away from the line.
  const heights = spread(
    shown.map((job) => 22 - y(job.y)),
    20,
    { low: 14 - (HEIGHT - EDGE.bottom), high: -EDGE.top - 12 },
  ).map((height) => -height);
  return (
    <>
      {withKeys(shown, (job) => job.name).map(({ key, item: job, index }) => {
        const px = x(job.x),
          py = y(job.y),
          tag = heights[index]!;
        const roomLeft = px - EDGE.left - 26,
          roomRight = width - EDGE.right - px - 26;
        const whole = `${job.name}: ${yOf(curve, clean(Number(job.y.toPrecision(4))))}`;
        const says = whole.length * LETTER <= Math.max(roomLeft, roomRight) ? whole : job.name;
        // The tag hangs on the free side of the line, unless it would leave the drawing there.
        const wide = says.length * LETTER;
        const toLeft = rising
          ? roomLeft >= wide || roomLeft > roomRight
          : roomRight < wide && roomLeft > roomRight;
        const tagX = px + (toLeft ? -18 : 18);
        return (
          <g key={key} className={job.chosen ? "plot-job plot-job-chosen" : "plot-job"}>
            <path className="plot-leader" d={`M${px} ${y(yReach.low)}V${py}M${x(xReach.low)} ${py}H${px}`} />
            <path className="plot-thread" d={`M${px} ${py}L${tagX} ${tag}`} />
            <circle cx={px} cy={py} r={job.chosen ? 5.5 : 4.5} />
            <text x={tagX + (toLeft ? -4 : 4)} y={tag + 4.5} textAnchor={toLeft ? "end" : "start"}>
              {says}
            </text>
          </g>
        );
      })}
    </>
  );
}
