// The steps on a line of time: work solid, waiting hatched, each step in a row of its own at the time when it
// begins. A wait too long for the sheet is cut short with a break, and the longest wait is marked.
import type { PictureShown } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import type { Data, Drawn, Mark, Point } from "./marks.ts";
import { area, box, line, mm, text } from "./marks.ts";
import { keyOf } from "./key.ts";
// biome-ignore lint/suspicious/noShadowRestrictedNames: the drawing's own word, not the global.
import { type Sheet, openNotes, textOf, valueOf } from "./paper.ts";
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

/** Where the columns and rows are, in mm on paper. */
interface Layout {
  readonly steps: readonly Step[];
  /** Place of the step with the longest wait. */
  readonly longest: number;
  /** On a wide sheet a row's bar is beside its name, on a narrow one below it. */
  readonly wide: boolean;
  readonly small: number;
  readonly nameWide: number;
  /** Right edge of the times of day. */
  readonly clockAt: number;
  /** Where the bars begin. */
  readonly left: number;
  readonly room: number;
  readonly scale: number;
  /** Places of the steps whose waits are cut short. */
  readonly cut: ReadonlySet<number>;
  readonly row: number;
  readonly head: number;
}

export function drawTimeLine(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const steps = stepsOf(picture);
  const notes = openNotes(picture, say, (argument) =>
    say(argument === "cure" ? "draw.cure" : "draw.working"),
  );
  const describes = describeTimes(picture, steps, sheet);
  const whole = steps.reduce((sum, one) => sum + one.takes + one.waits, 0);
  if (steps.length === 0 || !(whole > 0)) {
    const says = say(steps.length === 0 ? "draw.steps-withheld" : "draw.no-times");
    return { width, height: size * 2, marks: [text([1, size * 1.2], says, size)], notes, describes };
  }
  const layout = layoutOf(steps, whole, sheet);
  const { small, clockAt, head, row, cut, longest } = layout;
  const marks: Mark[] = [
    text([0, head - size * 0.55], say("draw.step"), small, "start", { quiet: true }),
    text([clockAt, head - size * 0.55], say("draw.begins"), small, "end", { quiet: true }),
  ];
  let x = layout.left;
  steps.forEach((_, i) => {
    x = stepRow(marks, layout, i, x, sheet);
  });
  const foot = head + row * steps.length;
  marks.push(
    line(
      [
        [0, foot],
        [width, foot],
      ],
      "inner",
    ),
    text([0, foot + size * 1.15], say("draw.done"), small, "start", { strong: true }),
    text([clockAt, foot + size * 1.15], clock(whole), small, "end", { strong: true }),
  );
  const bottom = keyOf(
    marks,
    [
      ["work", say("draw.work")],
      ["wait", say("draw.wait")],
      ...(steps[longest]!.waits > 0 ? [["longest", say("draw.longest")] as const] : []),
    ],
    resinTimes(marks, picture, layout, foot + size * 1.6, sheet) + 2,
    sheet,
  );
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [
      ...(cut.size > 0 ? [say(cut.size === 1 ? "draw.one-cut" : "draw.cut", { count: cut.size })] : []),
      ...notes,
    ],
    describes,
  };
}

const stepsOf = (picture: PictureShown): readonly Step[] =>
  (valueOf(picture, "steps")?.rows ?? []).map((row) => ({
    n: row["step"]!.si,
    name: row["step"]!.text,
    from: row["from"]!.si,
    takes: row["takes"]!.si,
    waits: row["waits"]!.si,
    takesText: row["takes"]!.text,
    waitsText: row["waits"]!.text,
  }));

function layoutOf(steps: readonly Step[], whole: number, { say, size, width }: Sheet): Layout {
  const small = size * 0.95;
  const wide = width > 120;
  const widest = (texts: readonly string[], strong?: boolean): number =>
    Math.max(...texts.map((one) => textWidth(one, small, strong)));
  const clockWide = widest([...steps.map((one) => clock(one.from)), clock(whole), say("draw.begins")]);
  const timesWide = widest(
    steps.map((one) => timesOf(one, say)),
    true,
  );
  const nameRoom = wide ? width * 0.24 : width - clockWide - timesWide - 8;
  const names = [say("draw.step"), ...steps.map((one) => `${one.n} ${one.name}`)];
  const nameWide = Math.max(10, Math.min(nameRoom, widest(names) + 0.6));
  const clockAt = nameWide + 2.5 + clockWide;
  const left = wide ? clockAt + 2.5 : 0;
  const room = width - left - 2;
  return {
    steps,
    longest: steps.reduce((best, one, i) => (one.waits > (steps[best]?.waits ?? 0) ? i : best), 0),
    wide,
    small,
    nameWide,
    clockAt,
    left,
    room,
    ...fitted(steps, room),
    row: size * (wide ? 1.85 : 2.6),
    head: size * 1.6,
  };
}

/** One step from `x` on; gives where the next begins. */
function stepRow(marks: Mark[], layout: Layout, i: number, x: number, { say, size, width }: Sheet): number {
  const { steps, wide, small, scale, cut, row, longest, clockAt, left } = layout;
  const one = steps[i]!;
  const high = size * (wide ? 0.95 : 0.8);
  const y = layout.head + row * i;
  const middle = wide ? y + row / 2 : y + size * 1.85;
  const foot = wide ? middle + small * 0.35 : y + size * 1.05;
  const [work, wait] = [one.takes * scale, one.waits > 0 ? (cut.has(i) ? CUT : one.waits * scale) : 0];
  marks.push(
    line(
      [
        [0, y],
        [width, y],
      ],
      "hair",
    ),
    text([0, foot], cropped(`${one.n} ${one.name}`, small, layout.nameWide), small, "start"),
    text([clockAt, foot], clock(one.from), small, "end", { quiet: true }),
  );
  if (i > 0 && wide)
    marks.push(
      line(
        [
          [x, y - row / 2 + high / 2],
          [x, middle - high / 2],
        ],
        "hair",
      ),
    );
  const data = (kind: "work" | "wait", seconds: number, length: number): Data => ({
    step: one.n,
    minutes: seconds / 60,
    length: mm(length),
    kind,
  });
  if (work > 0)
    marks.push(box([x, middle - high / 2, work, high], "work", "none", data("work", one.takes, work)));
  if (wait > 0)
    marks.push(
      ...waiting(
        [x + work, wait, middle, high],
        i === longest ? "longest" : "wait",
        cut.has(i),
        data("wait", one.waits, wait),
      ),
    );
  const says = timesOf(one, say);
  const accent = i === longest && one.waits > 0;
  const ink = accent ? { accent: true, strong: true } : {};
  const end = x + work + wait + 1.8;
  const put = (at: number, room: number, anchor: "start" | "end", more: object): void => {
    marks.push(text([at, foot], cropped(says, small, room, accent), small, anchor, { ...more, ...ink }));
  };
  if (!wide) put(width, width - clockAt - 2, "end", {});
  else if (end + textWidth(says, small, accent) <= width) put(end, Infinity, "start", {});
  else put(x - 1.8, x - left - 1, "end", { halo: true });
  return x + (work + wait);
}

/** How long the resin can be worked and how long it cures, from `top` on; gives where they end below. */
function resinTimes(
  marks: Mark[],
  picture: PictureShown,
  { left, room, scale, small, row }: Layout,
  top: number,
  { say, width }: Sheet,
): number {
  let bottom = top;
  for (const argument of ["working", "cure"] as const) {
    const value = valueOf(picture, argument);
    if (value?.si === undefined || !(value.si > 0)) continue;
    const long = Math.min(value.si * scale, room * 0.5);
    const middle = bottom + row / 2;
    const isCut = value.si * scale > long + 1e-9;
    const end = left + long;
    const says =
      `${say(argument === "cure" ? "draw.cure" : "draw.working")} ` + textOf(picture, argument, say);
    marks.push(
      line(
        [
          [left, middle],
          [end, middle],
        ],
        "outline",
        { time: argument, length: mm(long), ...(isCut ? { cut: 1 } : {}) },
      ),
      ...(isCut ? [left] : [left, end]).map((x) =>
        line(
          [
            [x, middle - 1],
            [x, middle + 1],
          ],
          "outline",
        ),
      ),
      text([end + 1.8, middle + small * 0.35], cropped(says, small, width - end - 2), small),
    );
    bottom += row;
  }
  return bottom;
}

/**
 * A hatched bar from a place on, so long, around a middle and so high, or two ends of one that is cut short.
 */
function waiting(
  [from, long, middle, high]: readonly [number, number, number, number],
  fill: "wait" | "longest",
  isCut: boolean,
  data: Data,
): readonly Mark[] {
  if (!isCut) return [box([from, middle - high / 2, long, high], fill, "inner", data)];
  const half = from + long / 2;
  return [
    area(zigzag([from, half - 0.9], [middle, high], false), fill, "inner", { ...data, cut: 1 }),
    area(zigzag([half + 0.9, from + long], [middle, high], true), fill, "inner"),
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
function zigzag([from, to]: Point, [middle, high]: Point, leftEnd: boolean): readonly Point[] {
  const [top, foot] = [middle - high / 2, middle + high / 2];
  return leftEnd
    ? [
        [to, top],
        [to, foot],
        [from - 0.7, foot],
        [from + 0.7, middle],
        [from - 0.7, middle],
        [from + 0.7, top],
      ]
    : [
        [from, top],
        [from, foot],
        [to - 0.7, foot],
        [to + 0.7, middle],
        [to - 0.7, middle],
        [to + 0.7, top],
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
      const value = valueOf(picture, argument);
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
