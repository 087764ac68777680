// The steps on a line of time: work solid, waiting hatched, each step in a row of its own at the time when it
// begins. A wait too long for the sheet is cut short with a break, and the longest wait is marked.
import type { PictureShown } from "../../../core/view.ts";
import { shownText } from "../words/engine-words.ts";
import { type Data, type Drawn, type Mark, area, box, line, mm, text } from "./marks.ts";
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

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawTimeLine(picture: PictureShown, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  const steps = (valueOf(picture, "steps")?.rows ?? []).map(
    (row): Step => ({
      n: row["step"]!.si,
      name: row["step"]!.text,
      from: row["from"]!.si,
      takes: row["takes"]!.si,
      waits: row["waits"]!.si,
      takesText: row["takes"]!.text,
      waitsText: row["waits"]!.text,
    }),
  );
  const notes = [
    ...openNotes(picture, say, (argument) => say(argument === "cure" ? "draw.cure" : "draw.working")),
  ];
  const describes = describeTimes(picture, steps, sheet);
  const whole = steps.reduce((sum, one) => sum + one.takes + one.waits, 0);
  if (steps.length === 0 || !(whole > 0))
    return {
      width,
      height: size * 2,
      marks: [text(1, size * 1.2, say(steps.length === 0 ? "draw.steps-withheld" : "draw.no-times"), size)],
      notes,
      describes,
    };

  // On a wide sheet a row's bar stands beside its name, on a narrow one below it.
  const small = size * 0.95;
  const wide = width > 120;
  const clockWide = Math.max(
    ...steps.map((one) => textWidth(clock(one.from), small)),
    textWidth(clock(whole), small),
    textWidth(say("draw.begins"), small),
  );
  const timesWide = Math.max(...steps.map((one) => textWidth(timesOf(one, say), small, true)));
  const nameRoom = wide ? width * 0.24 : width - clockWide - timesWide - 8;
  const nameWide = Math.max(
    10,
    Math.min(
      nameRoom,
      Math.max(
        textWidth(say("draw.step"), small),
        ...steps.map((one) => textWidth(`${one.n} ${one.name}`, small)),
      ) + 0.6,
    ),
  );
  const clockAt = nameWide + 2.5 + clockWide;
  const left = wide ? clockAt + 2.5 : 0;
  const room = width - left - 2;
  const { scale, cut } = fitted(steps, room);
  const longest = steps.reduce((best, one, i) => (one.waits > (steps[best]?.waits ?? 0) ? i : best), 0);
  const row = size * (wide ? 1.85 : 2.6);
  const high = size * (wide ? 0.95 : 0.8);
  const head = size * 1.6;
  const marks: Mark[] = [
    text(0, head - size * 0.55, say("draw.step"), small, "start", { quiet: true }),
    text(clockAt, head - size * 0.55, say("draw.begins"), small, "end", { quiet: true }),
  ];
  let x = left;
  steps.forEach((one, i) => {
    const y = head + row * i;
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
    );
    marks.push(
      text(0, foot, cropped(`${one.n} ${one.name}`, small, nameWide), small, "start"),
      text(clockAt, foot, clock(one.from), small, "end", { quiet: true }),
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
    if (work > 0)
      marks.push(
        box(x, middle - high / 2, work, high, "work", "none", {
          step: one.n,
          minutes: one.takes / 60,
          length: mm(work),
          kind: "work",
        }),
      );
    if (wait > 0)
      marks.push(
        ...waiting(x + work, wait, middle, high, i === longest ? "longest" : "wait", cut.has(i), {
          step: one.n,
          minutes: one.waits / 60,
          length: mm(wait),
          kind: "wait",
        }),
      );
    const says = timesOf(one, say);
    const accent = i === longest && one.waits > 0;
    const ink = accent ? { accent: true, strong: true } : {};
    const end = x + work + wait + 1.8;
    if (!wide)
      marks.push(text(width, foot, cropped(says, small, width - clockAt - 2, accent), small, "end", ink));
    else if (end + textWidth(says, small, accent) <= width)
      marks.push(text(end, foot, says, small, "start", ink));
    else
      marks.push(
        text(x - 1.8, foot, cropped(says, small, x - left - 1, accent), small, "end", { halo: true, ...ink }),
      );
    x += work + wait;
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
  );
  marks.push(
    text(0, foot + size * 1.15, say("draw.done"), small, "start", { strong: true }),
    text(clockAt, foot + size * 1.15, clock(whole), small, "end", { strong: true }),
  );
  let bottom = foot + size * 1.6;
  for (const argument of ["working", "cure"] as const) {
    const value = valueOf(picture, argument);
    if (value?.si === undefined || !(value.si > 0)) continue;
    const long = Math.min(value.si * scale, room * 0.5);
    const middle = bottom + row / 2;
    const isCut = value.si * scale > long + 1e-9;
    marks.push(
      line(
        [
          [left, middle],
          [left + long, middle],
        ],
        "outline",
        { time: argument, length: mm(long), ...(isCut ? { cut: 1 } : {}) },
      ),
      line(
        [
          [left, middle - 1],
          [left, middle + 1],
        ],
        "outline",
      ),
      ...(isCut
        ? []
        : [
            line(
              [
                [left + long, middle - 1],
                [left + long, middle + 1],
              ],
              "outline",
            ),
          ]),
    );
    marks.push(
      text(
        left + long + 1.8,
        middle + small * 0.35,
        cropped(
          `${say(argument === "cure" ? "draw.cure" : "draw.working")} ${textOf(picture, argument, say)}`,
          small,
          width - left - long - 2,
        ),
        small,
      ),
    );
    bottom += row;
  }
  bottom = keyOf(
    marks,
    [
      ["work", say("draw.work")],
      ["wait", say("draw.wait")],
      ...(steps[longest]!.waits > 0 ? [["longest", say("draw.longest")] as const] : []),
    ],
    bottom + 2,
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

/** A hatched bar, or two ends of one that is cut short. */
// biome-ignore lint/complexity/useMaxParams: still to come apart.
function waiting(
  from: number,
  long: number,
  middle: number,
  high: number,
  fill: "wait" | "longest",
  isCut: boolean,
  data: Data,
): readonly Mark[] {
  if (!isCut) return [box(from, middle - high / 2, long, high, fill, "inner", data)];
  const half = from + long / 2;
  return [
    area(zigzag(from, half - 0.9, middle, high, false), fill, "inner", { ...data, cut: 1 }),
    area(zigzag(half + 0.9, from + long, middle, high, true), fill, "inner"),
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
function zigzag(
  from: number,
  to: number,
  middle: number,
  high: number,
  leftEnd: boolean,
): readonly (readonly [number, number])[] {
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
