// The steps on a line of time: work solid, waiting hatched, each step in a row of its own at the time when it
// begins. A wait too long for the sheet is cut short with a break, and the longest wait is marked.
import type { PictureShown } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import { keyOf } from "./key.ts";
import type { Data, Drawn, Mark, Point } from "./marks.ts";
import { area, box, mm, segment, sentence, text } from "./marks.ts";
import { type Sheet, openNotes, pictureValue, textOf } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** A wait that is cut short is drawn so long, mm on paper. */
const CUT = 15;
/** Five minutes of work are at least so long where cutting waits short allows it. */
const LEAST = 1.1;

interface Step {
  readonly n: number;
  readonly name: string;
  /** Seconds. */
  readonly from: number;
  readonly takes: number;
  readonly waits: number;
  readonly takesText: string;
  readonly waitsText: string;
}

export function drawTimeLine(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  const steps = stepsOf(picture);
  const words = {
    notes: openNotes(picture, say, (argument) => say(argument === "cure" ? "draw.cure" : "draw.working")),
    describes: describeTimes(picture, steps, sheet),
  };
  const whole = wholeOf(steps);
  if (steps.length === 0) return sentence(say("draw.steps-withheld"), sheet, words);
  if (!(whole > 0)) return sentence(say("draw.no-times"), sheet, words);
  const plan = layOut(steps, sheet);
  const times = timeMarks(plan, picture);
  const marks: Mark[] = [...headMarks(plan), ...rowsOfSteps(plan), ...doneMarks(plan), ...times.marks];
  const longest = steps[plan.longest]!.waits > 0 ? [["longest", say("draw.longest")] as const] : [];
  const legend = [["work", say("draw.work")] as const, ["wait", say("draw.wait")] as const, ...longest];
  const bottom = keyOf(marks, legend, times.bottom + 2, sheet);
  const { size: count } = plan.cut;
  const cut = count > 0 ? [say(count === 1 ? "draw.one-cut" : "draw.cut", { count })] : [];
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [...cut, ...words.notes],
    describes: words.describes,
  };
}

const stepsOf = (picture: PictureShown): readonly Step[] =>
  (pictureValue(picture, "steps")?.rows ?? []).map((row) => ({
    n: row["step"]!.si,
    name: row["step"]!.text,
    from: row["from"]!.si,
    takes: row["takes"]!.si,
    waits: row["waits"]!.si,
    takesText: row["takes"]!.text,
    waitsText: row["waits"]!.text,
  }));

/** Work and waiting of all steps, in seconds. */
const wholeOf = (steps: readonly Step[]): number =>
  steps.reduce((sum, one) => sum + one.takes + one.waits, 0);

/** Where the rows lie on the sheet, in mm on paper. */
interface Plan {
  readonly sheet: Sheet;
  readonly steps: readonly Step[];
  /** The size of the writing in the rows. */
  readonly small: number;
  /** A row's bar is beside its name, not below it. */
  readonly wide: boolean;
  readonly nameWide: number;
  /** Where the times of day end. */
  readonly clockAt: number;
  /** Where the bars begin, and the room that they have. */
  readonly left: number;
  readonly room: number;
  /** Paper per second. */
  readonly scale: number;
  /** Places of the waits that are cut short. */
  readonly cut: ReadonlySet<number>;
  /** The place of the longest wait. */
  readonly longest: number;
  /** The height of the head, of a row, and of a bar. */
  readonly head: number;
  readonly row: number;
  readonly high: number;
}

/** On a wide sheet a row's bar is beside its name, on a narrow one below it. */
function layOut(steps: readonly Step[], sheet: Sheet): Plan {
  const { say, size, width } = sheet;
  const small = size * 0.95;
  const wide = width > 120;
  const clocks = [...steps.map((one) => clock(one.from)), clock(wholeOf(steps)), say("draw.begins")];
  const clockWide = Math.max(...clocks.map((one) => textWidth(one, small)));
  const timesWide = Math.max(...steps.map((one) => textWidth(timesOf(one, say), small, true)));
  const names = [say("draw.step"), ...steps.map((one) => `${one.n} ${one.name}`)];
  const nameRoom = wide ? width * 0.24 : width - clockWide - timesWide - 8;
  const longestName = Math.max(...names.map((one) => textWidth(one, small))) + 0.6;
  const nameWide = Math.max(10, Math.min(nameRoom, longestName));
  const clockAt = nameWide + 2.5 + clockWide;
  const left = wide ? clockAt + 2.5 : 0;
  const room = width - left - 2;
  return {
    ...{ sheet, steps, small, wide, nameWide, clockAt, left, room },
    ...fitted(steps, room),
    longest: steps.reduce((best, one, i) => (one.waits > (steps[best]?.waits ?? 0) ? i : best), 0),
    head: size * 1.6,
    row: size * (wide ? 1.85 : 2.6),
    high: size * (wide ? 0.95 : 0.8),
  };
}

function headMarks({ sheet: { say, size }, small, clockAt, head }: Plan): readonly Mark[] {
  const y = head - size * 0.55;
  return [
    text(0, y, say("draw.step"), small, { quiet: true }),
    text(clockAt, y, say("draw.begins"), small, { anchor: "end", quiet: true }),
  ];
}

/** Each row begins where the one before ends. */
function rowsOfSteps(plan: Plan): readonly Mark[] {
  let x = plan.left;
  return plan.steps.flatMap((_, i) => {
    const from = x;
    x += workOf(plan, i) + waitOf(plan, i);
    return rowMarks(plan, i, from);
  });
}

const workOf = ({ steps, scale }: Plan, i: number): number => steps[i]!.takes * scale;
const waitOf = ({ steps, scale, cut }: Plan, i: number): number => {
  const { waits } = steps[i]!;
  return waits > 0 ? (cut.has(i) ? CUT : waits * scale) : 0;
};

function rowMarks(plan: Plan, i: number, x: number): readonly Mark[] {
  const { sheet, steps, small, wide, nameWide, clockAt, head, row, high } = plan;
  const { size, width } = sheet;
  const step = steps[i]!;
  const y = head + row * i;
  const middle = wide ? y + row / 2 : y + size * 1.85;
  const foot = wide ? middle + small * 0.35 : y + size * 1.05;
  const joint = segment([x, y - row / 2 + high / 2], [x, middle - high / 2], "hair");
  return [
    segment([0, y], [width, y], "hair"),
    text(0, foot, cropped(`${step.n} ${step.name}`, small, nameWide), small),
    text(clockAt, foot, clock(step.from), small, { anchor: "end", quiet: true }),
    ...(i > 0 && wide ? [joint] : []),
    ...barMarks(plan, i, x, middle),
    timesText(plan, i, x, foot),
  ];
}

/** Work, and the wait behind it. */
function barMarks(plan: Plan, i: number, x: number, middle: number): readonly Mark[] {
  const { steps, high, longest, cut } = plan;
  const step = steps[i]!;
  const [work, wait] = [workOf(plan, i), waitOf(plan, i)];
  const data = { step: step.n, minutes: step.takes / 60, length: mm(work), kind: "work" };
  const bar = box(x, middle - high / 2, work, high, { fill: "work", ink: "none", data });
  const waits: Wait = {
    from: x + work,
    to: x + work + wait,
    middle,
    high,
    fill: i === longest ? "longest" : "wait",
    data: { step: step.n, minutes: step.waits / 60, length: mm(wait), kind: "wait" },
  };
  return [...(work > 0 ? [bar] : []), ...(wait > 0 ? waitMarks(waits, wait, cut.has(i)) : [])];
}

/** How long a step takes, behind its bar; before the bar where there is no room behind it. */
function timesText(plan: Plan, i: number, x: number, foot: number): Mark {
  const { sheet, steps, small, wide, clockAt, left, longest } = plan;
  const { say, width } = sheet;
  const says = timesOf(steps[i]!, say);
  const accent = i === longest && steps[i]!.waits > 0;
  const ink = accent ? { accent: true, strong: true } : {};
  const end = x + workOf(plan, i) + waitOf(plan, i) + 1.8;
  if (!wide)
    return text(width, foot, cropped(says, small, width - clockAt - 2, accent), small, {
      anchor: "end",
      ...ink,
    });
  if (end + textWidth(says, small, accent) <= width) return text(end, foot, says, small, ink);
  const before = cropped(says, small, x - left - 1, accent);
  return text(x - 1.8, foot, before, small, { anchor: "end", halo: true, ...ink });
}

/** The time when all is done. */
function doneMarks(plan: Plan): readonly Mark[] {
  const { sheet, steps, small, clockAt } = plan;
  const { say, size, width } = sheet;
  const foot = footOf(plan);
  return [
    segment([0, foot], [width, foot], "inner"),
    text(0, foot + size * 1.15, say("draw.done"), small, { strong: true }),
    text(clockAt, foot + size * 1.15, clock(wholeOf(steps)), small, { anchor: "end", strong: true }),
  ];
}

/** Where the rows of the steps end. */
const footOf = ({ head, row, steps }: Plan): number => head + row * steps.length;

/** Pot life and cure, each a line to the same scale below the steps, cut where it is too long. */
function timeMarks(
  plan: Plan,
  picture: PictureShown,
): { readonly marks: readonly Mark[]; readonly bottom: number } {
  const { sheet, small, left, room, scale, row } = plan;
  const { say, size, width } = sheet;
  const marks: Mark[] = [];
  let bottom = footOf(plan) + size * 1.6;
  for (const argument of ["working", "cure"] as const) {
    const value = pictureValue(picture, argument);
    if (value?.si === undefined || !(value.si > 0)) continue;
    const long = Math.min(value.si * scale, room * 0.5);
    const middle = bottom + row / 2;
    const isCut = value.si * scale > long + 1e-9;
    const end = left + long;
    const words = `${say(argument === "cure" ? "draw.cure" : "draw.working")} ${textOf(picture, argument, say)}`;
    marks.push(
      segment([left, middle], [end, middle], "outline", {
        time: argument,
        length: mm(long),
        ...(isCut ? { cut: 1 } : {}),
      }),
      segment([left, middle - 1], [left, middle + 1], "outline"),
      ...(isCut ? [] : [segment([end, middle - 1], [end, middle + 1], "outline")]),
      text(end + 1.8, middle + small * 0.35, cropped(words, small, width - end - 2), small),
    );
    bottom += row;
  }
  return { marks, bottom };
}

/** A bar along the line of time. */
interface Bar {
  readonly from: number;
  readonly to: number;
  readonly middle: number;
  readonly high: number;
}

interface Wait extends Bar {
  readonly fill: "wait" | "longest";
  readonly data: Data;
}

/** A hatched bar, or two ends of one that is cut short. */
function waitMarks(wait: Wait, long: number, isCut: boolean): readonly Mark[] {
  const { from, to, middle, high, fill, data } = wait;
  if (!isCut) return [box(from, middle - high / 2, long, high, { fill, ink: "inner", data })];
  const half = from + long / 2;
  return [
    area(zigzag({ ...wait, to: half - 0.9 }, "right"), fill, "inner", { ...data, cut: 1 }),
    area(zigzag({ ...wait, from: half + 0.9, to }, "left"), fill, "inner"),
  ];
}

/** One scale for all that is not cut short; the longest waits are cut first, until the work can be seen. */
function fitted(
  steps: readonly Step[],
  room: number,
): { readonly scale: number; readonly cut: ReadonlySet<number> } {
  const order = steps
    .map((_, i) => i)
    .filter((i) => steps[i]!.waits > 0)
    .sort((a, b) => steps[b]!.waits - steps[a]!.waits);
  const cut = new Set<number>();
  const scale = () => {
    const left = steps.reduce((sum, one, i) => sum + one.takes + (cut.has(i) ? 0 : one.waits), 0);
    return left > 0 ? Math.max(0, room - cut.size * CUT) / left : 0;
  };
  const wanted = LEAST / 300;
  while (
    scale() < wanted &&
    cut.size < order.length &&
    cut.size * CUT < room * 0.5 &&
    steps[order[cut.size]!]!.waits * scale() > CUT
  ) {
    // Waits of one length are drawn at one length.
    const { waits } = steps[order[cut.size]!]!;
    for (const i of order) if (steps[i]!.waits >= waits * (1 - 1e-9)) cut.add(i);
  }
  return { scale: scale(), cut };
}

const timesOf = (step: Step, say: Sheet["say"]): string =>
  [step.takes > 0 ? step.takesText : "", step.waits > 0 ? say("draw.waits", { time: step.waitsText }) : ""]
    .filter((one) => one !== "")
    .join(", ");

/** Hours and minutes since the work began: 0:35, 27:05. */
function clock(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, "0")}`;
}

/** A bar one end of which is broken off. */
function zigzag({ from, to, middle, high }: Bar, broken: "left" | "right"): readonly Point[] {
  const [top, foot] = [middle - high / 2, middle + high / 2];
  const [whole, end] = broken === "left" ? [to, from] : [from, to];
  return [
    [whole, top],
    [whole, foot],
    [end - 0.7, foot],
    [end + 0.7, middle],
    [end - 0.7, middle],
    [end + 0.7, top],
  ];
}

function describeTimes(picture: PictureShown, steps: readonly Step[], { say }: Sheet): readonly string[] {
  const longest = steps.reduce<Step | undefined>(
    (best, one) => (one.waits > (best?.waits ?? 0) ? one : best),
    undefined,
  );
  const whole = steps.reduce((sum, one) => sum + one.takes + one.waits, 0);
  return [
    ...steps.map((one) =>
      say("draw.step-says", {
        n: one.n,
        name: one.name,
        at: clock(one.from),
        times: timesOf(one, say) || say("draw.no-time"),
      }),
    ),
    ...(steps.length > 0 ? [say("draw.done-says", { at: clock(whole) })] : [say("draw.steps-withheld")]),
    ...(longest
      ? [say("draw.longest-says", { n: longest.n, name: longest.name, time: longest.waitsText })]
      : []),
    ...["working", "cure"].flatMap((argument) => {
      const value = pictureValue(picture, argument);
      return value
        ? [
            say("draw.says", {
              what: say(argument === "cure" ? "draw.cure" : "draw.working"),
              value: shownText(value, say),
            }),
          ]
        : [];
    }),
  ];
}
