// Drawings of what no shop would ask for: no ply and sixty, a tenth of a millimetre and five metres, values
// that are not known, names without end. Nothing comes out that is no number, no label lies on another, and
// none leaves the sheet.
import "../../../editor/ui/words/all-words.ts";
import { expect, test } from "vitest";
import type { DrawnChart, OutcomeMap, PictureShown, PictureValue } from "../../../core/view.ts";
import { drawAsk } from "../../../editor/ui/drawings/draw-ask.ts";
import { drawingOf } from "../../../editor/ui/drawings/drawing-of.ts";
import type { Worked } from "../../../editor/ui/drawings/drawing-of.ts";
import { boxOf, overlaps } from "../../../editor/ui/drawings/marks.ts";
import type { Drawn, TextMark } from "../../../editor/ui/drawings/marks.ts";
import { narrowSheet, wideSheet } from "../../../editor/ui/drawings/paper.ts";
import { wordsIn } from "../../../editor/ui/words/words.ts";
import { DRAWN } from "../../../engine/language/check/drawn-as.ts";

const sheets = (["en", "es"] as const).flatMap((language) => [
  wideSheet(wordsIn(language)),
  narrowSheet(wordsIn(language)),
]);
const LONG = "a-name-of-a-hundred-letters-".repeat(4).slice(0, 100);

const length = (argument: string, mm: number | undefined): PictureValue =>
  mm === undefined
    ? {
        argument,
        name: LONG,
        state: "unknown",
        text: `waits for ${LONG}`,
        value: null,
        unit: null,
        waitsFor: [LONG],
      }
    : { argument, name: argument, state: "known", text: `${mm} mm`, value: mm, unit: "mm", si: mm / 1000 };
const list = (rows: NonNullable<PictureValue["rows"]>, argument = "plies"): PictureValue => ({
  argument,
  name: argument,
  state: "known",
  text: String(rows.length),
  value: null,
  unit: null,
  rows,
});
const picture = (shape: string, ...values: PictureValue[]): PictureShown => ({
  id: "picture #1",
  shape,
  title: "",
  values,
});
const cell = (si: number, text: string) => ({ si, text });
const plies = (
  count: number,
  hole: number,
  step: number,
  more: Readonly<Record<string, { si: number; text: string }>> = {},
) =>
  Array.from({ length: count }, (_, i) => ({
    length: cell((hole + 2 * (i + 1) * step) / 1000, `${hole + 2 * (i + 1) * step} mm`),
    width: cell((hole / 2 + 2 * (i + 1) * step) / 1000, `${hole / 2 + 2 * (i + 1) * step} mm`),
    glass: cell(0.01 * i, `${10 * i} g`),
    ...more,
  }));

function* sections(): Generator<PictureShown> {
  const sizes = [0, 0.1, 3.2, 5000, undefined];
  for (const thickness of sizes)
    for (const run of sizes)
      for (const hole of sizes)
        for (const count of [0, 4, 60]) {
          yield picture(
            "section",
            length("thickness", thickness),
            length("run", run),
            length("hole", hole),
            length("depth", thickness === undefined ? 1 : thickness / 2),
            list(plies(count, hole ?? 50, (run ?? 40) / Math.max(1, count))),
            length("ply", 0.43),
          );
          yield picture(
            "section",
            length("thickness", thickness),
            length("run", run),
            length("hole", hole),
            length("backing", run),
            length("reach", thickness === undefined ? undefined : thickness * 20),
            length("core", hole),
            length("inner", thickness),
            list(plies(count, hole ?? 50, 0.01)),
          );
        }
  yield picture("section", length("thickness", 3), length("run", 30));
  yield picture("section");
}

function* planViews(): Generator<PictureShown> {
  for (const count of [0, 1, 2, 6, 16, 17, 60])
    for (const hole of [0.1, 20, 600, 5000])
      for (const step of [0.001, 1, 8.75, 400])
        yield picture(
          "plies",
          list(plies(count, hole, step)),
          length("hole", hole),
          length("hole-short", hole / 3),
        );
  yield picture("plies", list(plies(400, 20, 1)), length("hole", 20));
  for (const many of [1, 8])
    yield picture(
      "plies",
      list(
        plies(
          6,
          100,
          5,
          Object.fromEntries(
            Array.from({ length: many }, (_, i) => [`${LONG}${i}`, cell(i, `${LONG} ${i}`)]),
          ),
        ),
      ),
      length("hole", undefined),
    );
  yield picture("plies", length("plies", undefined), length("hole", undefined));
  yield picture("plies", list([{ across: cell(0.1, "100 mm") }, { across: cell(0.05, "50 mm") }]));
}

function* cups(): Generator<PictureShown> {
  const amounts = [0, 1e-7, 0.0002, 0.13, 5, 4000];
  for (const resin of amounts)
    for (const hardener of amounts)
      for (const across of [undefined, 0.1, 80, 5000]) {
        const row = (part: string, amount: number, before: number) => ({
          part: cell(0, part),
          amount: cell(amount, `${amount * 1000} g`),
          together: cell(amount + before, `${(amount + before) * 1000} g`),
          ...(across === undefined
            ? {}
            : {
                volume: cell(amount / 1100, `${amount} L`),
                filled: cell((amount + before) / 1100, `${amount + before} L`),
                height: cell((amount + before) / 1100 / (across / 1000) ** 2, `${amount + before} mm`),
              }),
        });
        yield picture(
          "cup",
          ...(across === undefined ? [] : [length("across", across)]),
          list(
            [
              row("resin", resin, 0),
              row("filler", hardener, resin),
              row("hardener", hardener, resin + hardener),
            ],
            "marks",
          ),
        );
      }
  yield picture("cup", length("resin", undefined), { ...length("marks", undefined), name: "marks" });
}

function* times(): Generator<PictureShown> {
  const durations = [
    [0, 0],
    [300, 0],
    [1, 1],
    [300, 86400],
    [60, 600],
    [1e7, 1e7],
    [600, 86400],
  ];
  for (const count of [0, 1, 2, 18, 60])
    for (let turn = 0; turn < durations.length; turn++)
      for (const name of ["wash", LONG]) {
        let from = 0;
        const rows = Array.from({ length: count }, (_, i) => {
          const [takes, waits] = durations[(i * (turn + 1)) % durations.length]!;
          const row = {
            step: cell(i + 1, name),
            says: cell(i + 1, LONG),
            from: cell(from, ""),
            takes: cell(takes!, `${takes! / 60} min`),
            waits: cell(waits!, `${Math.round(waits! / 3600)} h`),
          };
          from += takes! + waits!;
          return row;
        });
        yield picture(
          "timeline",
          { ...length("working", 1), si: 1e6, text: "277 h" },
          length("cure", undefined),
          list(rows, "steps"),
        );
      }
}

const axis = (name: string, low: number, high: number, at: number | undefined, unit: string) => ({
  name,
  title: `${LONG} ${LONG}`,
  low,
  high,
  ticks: Array.from({ length: 12 }, (_, i) =>
    cell(low + ((high - low) * i) / 11, `${(low + ((high - low) * i) / 11).toPrecision(8)} ${unit}`),
  ),
  ...(at === undefined ? {} : { at: cell(at, `${at} ${unit}`) }),
});

function* worked(): Generator<readonly [PictureShown, Worked | undefined]> {
  for (const at of [undefined, 0, 0.5, 1])
    for (const cut of [1, 3, 12])
      for (const word of ["fill", LONG]) {
        const fields: OutcomeMap["fields"][number][] = [];
        for (let i = 0; i < cut; i++)
          for (let j = 0; j < cut; j++)
            fields.push({
              left: i / cut,
              right: (i + 1) / cut,
              bottom: j / cut,
              top: (j + 1) / cut,
              word: ((i + j) % 9) - 1,
              stopped: i === j,
            });
        const words = Array.from({ length: 8 }, (_, i) => `${word}-${i}`);
        yield [
          picture("map"),
          {
            map: {
              across: axis("a", 0, 1, at, LONG.slice(0, 20)),
              up: axis("b", 0, 1, at, "mm"),
              shows: "x",
              title: LONG,
              words,
              fields,
              here: -1,
            },
          },
        ];
      }
  for (const at of [undefined, 0, 1]) {
    const chart: DrawnChart = {
      across: axis("a", 0, 1, at, "°C"),
      up: axis("b", 5, 5, at === undefined ? undefined : 5, LONG),
      title: LONG,
      lines: [
        [
          { x: 0, y: 5 },
          { x: 1, y: 5 },
        ],
      ],
      points: [{ x: 0, y: 5, says: LONG }],
      held: [LONG],
    };
    yield [picture("chart"), { chart }];
  }
  yield [picture("map"), undefined];
  yield [picture("chart"), undefined];
}

const all = (): (readonly [PictureShown, Worked | undefined])[] => [
  ...[...sections(), ...planViews(), ...cups(), ...times()].map((one) => [one, undefined] as const),
  ...worked(),
];

test.each(["section", "plies", "cup", "timeline", "map", "chart"])(
  "%s: all is a number, no label lies on another or leaves the sheet",
  (shape) => {
    const wrong = new Set<string>();
    let count = 0;
    for (const [one, from] of all()) {
      if (one.shape !== shape) continue;
      for (const sheet of sheets) {
        count++;
        for (const fault of faultsOf(drawingOf(one, sheet, from)!))
          if (wrong.size < 12)
            wrong.add(
              `${sheet.width} mm: ${fault}: ` +
                JSON.stringify(
                  one.values.map((value) => [
                    value.argument,
                    value.rows ? value.rows.length : value.text.slice(0, 20),
                  ]),
                ),
            );
      }
    }
    expect(count).toBeGreaterThan(10);
    expect([...wrong]).toEqual([]);
  },
);

test.each(["core", "inner", "reach"])(
  "a section whose %s is not known says that it is not to scale",
  (open) => {
    // The size that stands in for it is drawn: no scale is said.
    const say = wordsIn("en");
    const sizes = ["thickness", "run", "hole", "backing", "reach", "core", "inner"];
    const values = sizes.map((argument) => length(argument, argument === open ? undefined : 5));
    const { notes } = drawingOf(picture("section", ...values), wideSheet(say))!;
    expect(notes[0]).toBe(say("draw.not-to-scale"));
  },
);

test("every place that a question can be drawn as has its sign, in both languages", () => {
  for (const sheet of sheets)
    for (const place of Object.keys(DRAWN)) {
      const drawn = drawAsk(place, sheet);
      if (place === "none") expect(drawn).toBeUndefined();
      else expect([place, faultsOf(drawn!)]).toEqual([place, []]);
    }
  expect(drawAsk(undefined, sheets[0]!)).toBeUndefined();
  expect(drawAsk("toString", sheets[0]!)).toBeUndefined();
});

function faultsOf(drawn: Drawn): readonly string[] {
  const faults: string[] = [];
  const numbers = drawn.marks.flatMap((mark) => [
    ...(mark.is === "line"
      ? mark.points.flat()
      : mark.is === "oval"
        ? [mark.x, mark.y, mark.rx, mark.ry]
        : [mark.x, mark.y, mark.size]),
    ...Object.values(mark.data ?? {}).filter((one) => typeof one === "number"),
  ]);
  if (!Number.isFinite(drawn.height) || drawn.height <= 0 || drawn.height > 1500)
    faults.push(`height ${drawn.height}`);
  if (numbers.some((one) => !Number.isFinite(one))) faults.push("a mark that is no number");
  if (
    /NaN|undefined|Infinity|\{\w+\}/.test(
      [
        ...drawn.notes,
        ...drawn.describes,
        ...drawn.marks.flatMap((mark) => (mark.is === "text" ? [mark.text] : [])),
      ].join(" "),
    )
  )
    faults.push("a text that is no text");
  const texts = drawn.marks.filter((mark): mark is TextMark => mark.is === "text" && mark.text !== "");
  const boxes = texts.map(boxOf);
  boxes.forEach((box, i) => {
    if (box.left < -0.6 || box.right > drawn.width + 0.6 || box.top < -0.8 || box.bottom > drawn.height + 0.6)
      faults.push(`“${texts[i]!.text.slice(0, 30)}” leaves the sheet`);
    for (let j = i + 1; j < boxes.length; j++)
      if (overlaps(box, boxes[j]!)) {
        faults.push(`“${texts[i]!.text.slice(0, 30)}” lies on “${texts[j]!.text.slice(0, 30)}”`);
        break;
      }
  });
  return faults;
}
