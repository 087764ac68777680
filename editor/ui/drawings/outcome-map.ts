// The map of what comes out over two answers: fields with their words, refused stretches hatched over, and
// the job's own point.
import type { OutcomeMap, PictureShown } from "../../../core/view.ts";
import type { Frame } from "./axes.ts";
import { axes } from "./axes.ts";
import { keyOf } from "./key.ts";
import type { Box, Drawn, Fill, Mark, Point, TextMark } from "./marks.ts";
import { box, boxOf, line, mm, oval, overlaps, segment, sentence, text } from "./marks.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Tones from light to dark and back, so that words next to each other in their kind differ. */
const TONES = 6;

type Field = OutcomeMap["fields"][number];

export function drawMap(_picture: PictureShown, map: OutcomeMap | undefined, sheet: Sheet): Drawn {
  const { say, width } = sheet;
  if (map === undefined) return sentence(say("draw.not-yet"), sheet);
  const below: Mark[] = [];
  const frame = axes(below, map.across, map.up, sheet, width > 120 ? 66 : 54);
  const job = jobOf(map, frame, sheet);
  const marks: Mark[] = [
    ...map.fields.flatMap((field) => fieldMarks(map, field, frame)),
    ...map.fields.map((field) => outlineOf(boxIn(frame, field))),
    box(frame.left, frame.top, frame.right - frame.left, frame.foot - frame.top, { fill: "none" }),
    ...below,
    ...fieldWords(map, frame, sheet, job),
    ...(job === undefined ? [] : pointMarks(job.at, frame)),
  ];
  const bottom = keyOf(marks, legendOf(map, sheet), frame.bottom + 2, sheet);
  return {
    width,
    height: mm(bottom + 1),
    marks,
    notes: [say(job === undefined ? "draw.map-not-here" : "draw.map-here")],
    describes: describeMap(map, sheet),
  };
}

const toneOf = (word: number): Fill => (word < 0 ? "void" : `tone-${word % TONES}`);

/** A field on the sheet. */
const boxIn = (frame: Frame, field: Field): Box => ({
  left: frame.x(field.left),
  right: frame.x(field.right),
  top: frame.y(field.top),
  bottom: frame.y(field.bottom),
});

/** The tone of its word; hatched over where the work is stopped. */
function fieldMarks(map: OutcomeMap, field: Field, frame: Frame): readonly Mark[] {
  const { left, right, top, bottom } = boxIn(frame, field);
  const data = {
    field: map.words[field.word] ?? "",
    left: mm(left),
    right: mm(right),
    bottom: mm(bottom),
    top: mm(top),
  };
  const [width, height] = [right - left, bottom - top];
  return [
    box(left, top, width, height, { fill: toneOf(field.word), ink: "none", data }),
    ...(field.stopped ? [box(left, top, width, height, { fill: "stopped", ink: "none" })] : []),
  ];
}

const outlineOf = ({ left, right, top, bottom }: Box): Mark =>
  line(
    [
      [left, bottom],
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
    right - left > 1 && bottom - top > 1 ? "inner" : "hair",
  );

/** The job's own point, where both answers are known. */
interface JobPoint {
  readonly at: Point;
  readonly label: TextMark;
  /** Words keep clear of it. */
  readonly room: Box;
}

function jobOf(map: OutcomeMap, frame: Frame, { size }: Sheet): JobPoint | undefined {
  const [across, up] = [map.across.at, map.up.at];
  if (across === undefined || up === undefined) return undefined;
  const [x, y] = [frame.x(across.si), frame.y(up.si)];
  return {
    at: [x, y],
    label: hereLabel(`${across.text}, ${up.text}`, [x, y], frame, size),
    room: { left: x - 3, right: x + 3, top: y - 3, bottom: y + 3 },
  };
}

const pointMarks = ([x, y]: Point, frame: Frame): readonly Mark[] => [
  segment([x, frame.foot], [x, y], "accent"),
  segment([frame.left, y], [x, y], "accent"),
  oval(x, y, 1.7, 1.7, { fill: "paper", ink: "accent", data: { job: 1, x: mm(x), y: mm(y) } }),
  oval(x, y, 0.5, 0.5, { fill: "arrow", ink: "accent" }),
];

/** The job's label first, then words on the largest fields, each word at most twice, none on another. */
function fieldWords(
  map: OutcomeMap,
  frame: Frame,
  sheet: Sheet,
  job: JobPoint | undefined,
): readonly TextMark[] {
  const taken: TextMark[] = job === undefined ? [] : [job.label];
  const times = new Map<number, number>();
  const isFree = (at: Box): boolean =>
    !taken.some((other) => overlaps(boxOf(other), at)) && (job === undefined || !overlaps(at, job.room));
  for (const field of [...map.fields].sort((a, b) => areaOf(b) - areaOf(a))) {
    const before = times.get(field.word) ?? 0;
    if (before === 2) continue;
    const word = placesFor(wordOf(map, field.word, sheet), boxIn(frame, field), sheet.size).find((one) =>
      isFree(boxOf(one)),
    );
    if (word === undefined) continue;
    taken.push(word);
    times.set(field.word, before + 1);
  }
  return taken;
}

const areaOf = (field: Field): number => (field.right - field.left) * (field.top - field.bottom);

/** Where a word may be written on its field, the best place first; nowhere on one that is too small. */
function placesFor(says: string, { left, right, top, bottom }: Box, size: number): readonly TextMark[] {
  if (bottom - top < size * 1.6 || textWidth(says, size) > right - left - 2) return [];
  const half = textWidth(says, size) / 2 + 1;
  return PLACES.map(([dx, dy]) =>
    text(
      Math.min(Math.max(left + (right - left) * dx, left + half), right - half),
      Math.min(Math.max(top + (bottom - top) * dy, top + size), bottom - size * 0.4) + size * 0.1,
      says,
      size,
      { anchor: "middle", halo: true },
    ),
  );
}

/** As parts of the field's width and height. */
const PLACES: readonly Point[] = [
  [0.5, 0.5],
  [0.5, 0.25],
  [0.5, 0.75],
  [0.25, 0.5],
  [0.75, 0.5],
  [0.5, 0.1],
  [0.5, 0.9],
];

function legendOf(map: OutcomeMap, sheet: Sheet): readonly (readonly [Fill, string])[] {
  const isStopped = map.fields.some((field) => field.stopped);
  return [
    ...wordsShown(map).map((word) => [toneOf(word), wordOf(map, word, sheet)] as const),
    ...(isStopped ? [["stopped", sheet.say("draw.stopped")] as const] : []),
  ];
}

/** In the order of their kind; -1 for what is still open. */
const wordsShown = (map: OutcomeMap): readonly number[] =>
  [...new Set(map.fields.map((field) => field.word))].sort((a, b) => a - b);

const wordOf = (map: OutcomeMap, word: number, { say }: Sheet): string =>
  word < 0 ? say("draw.open-word") : map.words[word]!;

/** The job's two answers beside its point, on the side where there is room. */
function hereLabel(says: string, [x, y]: Point, frame: Frame, size: number): TextMark {
  const wide = textWidth(says, size, true);
  const right = x + 3 + wide <= frame.right;
  const above = y - size * 1.4 > frame.top;
  const at = right ? x + 2.6 : Math.max(frame.left + wide, x - 2.6);
  return text(
    at,
    above ? y - 2 : Math.min(y + size + 2, frame.foot - 1),
    cropped(says, size, frame.right - frame.left, true),
    size,
    { anchor: right ? "start" : "end", halo: true, strong: true, accent: true },
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
  return [
    say("draw.map-says", { across: map.across.title, up: map.up.title, shows: map.title }),
    ...wordsShown(map).map((word) =>
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
