// The map of what comes out over two answers: fields with their words, refused stretches hatched over, and
// the job's own point.
import type { OutcomeMap, PictureShown } from "../../../core/view.ts";
import { axes } from "./axes.ts";
import {
  type Drawn,
  type Fill,
  type Mark,
  type TextMark,
  box,
  boxOf,
  line,
  mm,
  oval,
  overlaps,
  text,
} from "./marks.ts";
import { keyOf } from "./key.ts";
import type { Sheet } from "./paper.ts";
import { cropped, textWidth } from "./text-size.ts";

/** Tones from light to dark and back, so that words next to each other in their kind differ. */
const TONES = 6;

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: still to come apart.
export function drawMap(_picture: PictureShown, map: OutcomeMap | undefined, sheet: Sheet): Drawn {
  const { say, size, width } = sheet;
  if (map === undefined)
    return {
      width,
      height: size * 2,
      marks: [text(1, size * 1.2, say("draw.not-yet"), size)],
      notes: [],
      describes: [],
    };
  const marks: Mark[] = [];
  const below: Mark[] = [];
  const frame = axes(below, map.across, map.up, sheet, width > 120 ? 66 : 54);
  const toneOf = (word: number): Fill => (word < 0 ? "void" : `tone-${word % TONES}`);
  for (const field of map.fields) {
    const [left, right, top, foot] = [
      frame.x(field.left),
      frame.x(field.right),
      frame.y(field.top),
      frame.y(field.bottom),
    ];
    marks.push(
      box(left, top, right - left, foot - top, toneOf(field.word), "none", {
        field: map.words[field.word] ?? "",
        left: mm(left),
        right: mm(right),
        bottom: mm(foot),
        top: mm(top),
      }),
    );
    if (field.stopped) marks.push(box(left, top, right - left, foot - top, "stopped", "none"));
  }
  for (const field of map.fields) {
    const [left, right, top, foot] = [
      frame.x(field.left),
      frame.x(field.right),
      frame.y(field.top),
      frame.y(field.bottom),
    ];
    marks.push(
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
  marks.push(
    box(frame.left, frame.top, frame.right - frame.left, frame.foot - frame.top, "none", "outline"),
    ...below,
  );

  // The job's point first: words then keep clear of it.
  const taken: TextMark[] = [];
  const known = map.across.at !== undefined && map.up.at !== undefined;
  const [px, py] = known ? [frame.x(map.across.at!.si), frame.y(map.up.at!.si)] : [0, 0];
  const point = { left: px - 3, right: px + 3, top: py - 3, bottom: py + 3 };
  const here = known
    ? hereLabel(`${map.across.at!.text}, ${map.up.at!.text}`, px, py, frame, size)
    : undefined;
  if (here) taken.push(here);
  const big = [...map.fields].sort(
    (a, b) => (b.right - b.left) * (b.top - b.bottom) - (a.right - a.left) * (a.top - a.bottom),
  );
  const told = new Map<number, number>();
  for (const field of big) {
    const [left, right, top, foot] = [
      frame.x(field.left),
      frame.x(field.right),
      frame.y(field.top),
      frame.y(field.bottom),
    ];
    if (told.get(field.word) === 2 || foot - top < size * 1.6) continue;
    const says = wordOf(map, field.word, sheet);
    if (textWidth(says, size) > right - left - 2) continue;
    for (const [dx, dy] of [
      [0.5, 0.5],
      [0.5, 0.25],
      [0.5, 0.75],
      [0.25, 0.5],
      [0.75, 0.5],
      [0.5, 0.1],
      [0.5, 0.9],
    ] as const) {
      const half = textWidth(says, size) / 2 + 1;
      const one = text(
        Math.min(Math.max(left + (right - left) * dx, left + half), right - half),
        Math.min(Math.max(top + (foot - top) * dy, top + size), foot - size * 0.4) + size * 0.1,
        says,
        size,
        "middle",
        { halo: true },
      );
      const at = boxOf(one);
      if (taken.some((other) => overlaps(boxOf(other), at)) || (known && overlaps(at, point))) continue;
      taken.push(one);
      told.set(field.word, (told.get(field.word) ?? 0) + 1);
      break;
    }
  }
  marks.push(...taken);
  if (known) {
    marks.push(
      line(
        [
          [px, frame.foot],
          [px, py],
        ],
        "accent",
      ),
      line(
        [
          [frame.left, py],
          [px, py],
        ],
        "accent",
      ),
    );
    marks.push(
      oval(px, py, 1.7, 1.7, "paper", "accent", { job: 1, x: mm(px), y: mm(py) }),
      oval(px, py, 0.5, 0.5, "arrow", "accent"),
    );
  }
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
    notes: [say(known ? "draw.map-here" : "draw.map-not-here")],
    describes: describeMap(map, sheet),
  };
}

const wordOf = (map: OutcomeMap, word: number, { say }: Sheet): string =>
  word < 0 ? say("draw.open-word") : map.words[word]!;

/** The job's two answers beside its point, on the side where there is room. */
function hereLabel(
  says: string,
  x: number,
  y: number,
  frame: { readonly left: number; readonly right: number; readonly top: number; readonly foot: number },
  size: number,
): TextMark {
  const wide = textWidth(says, size, true);
  const right = x + 3 + wide <= frame.right;
  const above = y - size * 1.4 > frame.top;
  const at = right ? x + 2.6 : Math.max(frame.left + wide, x - 2.6);
  return text(
    at,
    above ? y - 2 : Math.min(y + size + 2, frame.foot - 1),
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
