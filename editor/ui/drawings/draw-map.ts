// The map of what comes out over two answers: fields with their words, refused stretches hatched over, and
// the job's own point.
import type { OutcomeMap, PictureShown } from "../../../core/view.ts";
import { type Frame, axes, jobPoint } from "./axes.ts";
import type { Drawn, Fill, Mark, TextMark } from "./marks.ts";
import { box, boxOf, line, mm, overlaps, text } from "./marks.ts";
import { keyOf } from "./key.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Tones from light to dark and back, so that words next to each other in their kind differ. */
const TONES = 6;

const toneOf = (word: number): Fill => (word < 0 ? "void" : `tone-${word % TONES}`);

export function drawMap(_picture: PictureShown, map: OutcomeMap | undefined, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  if (map === undefined)
    return {
      width,
      height: size * 2,
      marks: [text([1, size * 1.2], say("draw.not-yet"), size)],
      notes: [],
      describes: [],
    };
  const below: Mark[] = [];
  const frame = axes(below, map.across, map.up, sheet, width > 120 ? 66 : 54);
  const { at: across } = map.across;
  const { at: up } = map.up;
  const job = across &&
    up && { x: frame.x(across.si), y: frame.y(up.si), says: `${across.text}, ${up.text}` };
  const marks: Mark[] = [
    ...fieldMarks(map, frame),
    box([frame.left, frame.top, frame.right - frame.left, frame.foot - frame.top], "none", "outline"),
    ...below,
    ...fieldWords(map, frame, sheet, job),
  ];
  if (job)
    for (const from of [
      [job.x, frame.foot],
      [frame.left, job.y],
    ] as const)
      marks.push(line([from, [job.x, job.y]], "accent"));
  if (job) marks.push(...jobPoint(job.x, job.y));
  const shown = [...new Set(map.fields.map((field) => field.word))].sort((a, b) => a - b);
  const bottom = keyOf(
    marks,
    [
      ...shown.map((word) => [toneOf(word), wordOf(map, word, sheet)] as const),
      ...(map.fields.some((field) => field.stopped) ? [["stopped", say("draw.stopped")] as const] : []),
    ],
    frame.bottom + 2,
    sheet,
  );
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [say(job ? "draw.map-here" : "draw.map-not-here")],
    describes: describeMap(map, sheet),
  };
}

type Field = OutcomeMap["fields"][number];
const onPaper = (field: Field, frame: Frame) => ({
  left: frame.x(field.left),
  right: frame.x(field.right),
  top: frame.y(field.top),
  foot: frame.y(field.bottom),
});

function fieldMarks(map: OutcomeMap, frame: Frame): readonly Mark[] {
  const fills: Mark[] = [];
  const outlines: Mark[] = [];
  for (const field of map.fields) {
    const { left, right, top, foot } = onPaper(field, frame);
    const place = [left, top, right - left, foot - top] as const;
    fills.push(
      box(place, toneOf(field.word), "none", {
        field: map.words[field.word] ?? "",
        left: mm(left),
        right: mm(right),
        bottom: mm(foot),
        top: mm(top),
      }),
    );
    if (field.stopped) fills.push(box(place, "stopped", "none"));
    outlines.push(
      line(
        [
          [left, foot],
          [left, top],
          [right, top],
          [right, foot],
          [left, foot],
        ],
        right - left > 1 && foot - top > 1 ? "inner" : "hair",
      ),
    );
  }
  return [...fills, ...outlines];
}

/** Where a word is tried in its field, in parts of its width and height. */
const PLACES = [
  [0.5, 0.5],
  [0.5, 0.25],
  [0.5, 0.75],
  [0.25, 0.5],
  [0.75, 0.5],
  [0.5, 0.1],
  [0.5, 0.9],
] as const;

interface JobOnMap {
  readonly x: number;
  readonly y: number;
  readonly says: string;
}

/** The words of the fields, the largest first, each at most twice; they keep clear of the job's point. */
function fieldWords(
  map: OutcomeMap,
  frame: Frame,
  sheet: Sheet,
  job: JobOnMap | undefined,
): readonly TextMark[] {
  const { size } = sheet;
  const taken: TextMark[] = job ? [hereLabel(job, frame, size)] : [];
  const isFree = (one: TextMark): boolean => {
    const at = boxOf(one);
    return (
      !taken.some((other) => overlaps(boxOf(other), at)) &&
      !(job && overlaps(at, { left: job.x - 3, right: job.x + 3, top: job.y - 3, bottom: job.y + 3 }))
    );
  };
  const big = [...map.fields].sort(
    (a, b) => (b.right - b.left) * (b.top - b.bottom) - (a.right - a.left) * (a.top - a.bottom),
  );
  const written = new Map<number, number>();
  for (const field of big) {
    const { left, right, top, foot } = onPaper(field, frame);
    const times = written.get(field.word) ?? 0;
    if (times === 2 || foot - top < size * 1.6) continue;
    const says = wordOf(map, field.word, sheet);
    const wide = textWidth(says, size);
    if (wide > right - left - 2) continue;
    const half = wide / 2 + 1;
    const one = PLACES.map(([dx, dy]) =>
      text(
        [
          Math.min(Math.max(left + (right - left) * dx, left + half), right - half),
          Math.min(Math.max(top + (foot - top) * dy, top + size), foot - size * 0.4) + size * 0.1,
        ],
        says,
        size,
        "middle",
        { halo: true },
      ),
    ).find(isFree);
    if (one === undefined) continue;
    taken.push(one);
    written.set(field.word, times + 1);
  }
  return taken;
}

const wordOf = (map: OutcomeMap, word: number, { say }: Sheet): string =>
  word < 0 ? say("draw.open-word") : map.words[word]!;

/** The job's two answers beside its point, on the side where there is room. */
function hereLabel({ says, x, y }: JobOnMap, frame: Frame, size: number): TextMark {
  const wide = textWidth(says, size, true);
  const right = x + 3 + wide <= frame.right;
  const above = y - size * 1.4 > frame.top;
  const at = right ? x + 2.6 : Math.max(frame.left + wide, x - 2.6);
  return text(
    [at, above ? y - 2 : Math.min(y + size + 2, frame.foot - 1)],
    cropped(says, size, frame.right - frame.left, true),
    size,
    right ? "start" : "end",
    { halo: true, strong: true, accent: true },
  );
}

function describeMap(map: OutcomeMap, sheet: Sheet): readonly string[] {
  const { say } = sheet;
  const share = (word: number, stopped?: boolean) =>
    map.fields.reduce(
      (sum, one) =>
        one.word === word && (stopped === undefined || one.stopped === stopped)
          ? sum + (one.right - one.left) * (one.top - one.bottom)
          : sum,
      0,
    ) / ((map.across.high - map.across.low) * (map.up.high - map.up.low) || 1);
  const shown = [...new Set(map.fields.map((field) => field.word))].sort((a, b) => a - b);
  return [
    say("draw.map-says", { across: map.across.title, up: map.up.title, shows: map.title }),
    ...shown.map((word) =>
      say("draw.map-word", { word: wordOf(map, word, sheet), share: Math.round(share(word) * 100) }),
    ),
    ...(map.across.at && map.up.at
      ? [
          say("draw.map-job", {
            across: map.across.at.text,
            up: map.up.at.text,
            word: wordOf(map, map.here, sheet),
          }),
        ]
      : [say("draw.map-not-here")]),
  ];
}
