// Every promise that holds as the dials are set, asked for every setting within their spans. Worked out by
// hand: with a taper of 1:15 a panel of 4 mm runs out over 60 mm.
import { expect, test } from "vitest";
import { readBook, showJob, verificationOf, workJob } from "../../../../engine/index.ts";
import { promises, sound } from "../support/standing.ts";

const TAPERED = `book tapered, edition 1
    "A taper that a yard may turn"
ask thickness in mm, 1 to 4
    "Thickness"
ask air in °C, 0 to 40
    "Air"
dial house-taper = 1:10, from 1:10 to 1:15
    "House taper"
    from practice
dial coldest = 15 °C, from 10 °C to 18 °C
    "Coldest"
    from practice
dial fixed in mm = 5 mm
    "Of one setting only"
    from practice
figure width in mm = thickness run out at house-taper
stop cold "Too cold" when air < coldest
step cut "Cut {width}"
    from practice
`;

const settingsOf = (rule: string) => promises(sound(`${TAPERED}promise ${rule}\n`))[0]!;

test("a promise that every setting keeps holds for every setting", () => {
  expect(settingsOf("width <= 60 mm")).toMatchObject({
    verdict: "proved",
    settings: { verdict: "proved" },
  });
  expect(settingsOf("thickness <= fixed")).toMatchObject({ settings: { verdict: "proved" } });
  expect(settingsOf("air >= 10 °C or stopped")).toMatchObject({ settings: { verdict: "proved" } });
});

test("a promise that another setting breaks names that setting, and the job breaks it there", () => {
  const { verdict, settings } = settingsOf("width <= 45 mm");
  expect([verdict, settings?.verdict]).toEqual(["proved", "broken"]);
  expect(Object.keys(settings!.dials!)).toEqual(["house-taper"]);
  const turned = readBook(
    `${TAPERED.replace("= 1:10,", `= ${String(settings!.dials!["house-taper"])},`)}promise width <= 45 mm\n`,
  );
  expect(showJob(workJob(turned, settings!.job!)).broken.map((one) => one.id)).toEqual(["promise #1"]);
  // As set, the same job keeps it.
  const asSet = readBook(`${TAPERED}promise width <= 45 mm\n`);
  expect(showJob(workJob(asSet, settings!.job!)).broken).toEqual([]);
});

test("a setting that lets a job pass that was stopped is a setting too", () => {
  const { settings } = settingsOf("air >= 15 °C or stopped");
  expect(settings).toMatchObject({ verdict: "broken", dials: { coldest: expect.any(String) } });
});

test("a promise that is broken as set says no more", () => {
  const broken = settingsOf("width <= 30 mm");
  expect(broken.verdict).toBe("broken");
  expect(broken.settings).toBeUndefined();
});

test("a book without a dial to turn says nothing of settings", () => {
  const untuned = TAPERED.replace(", from 1:10 to 1:15", "").replace(", from 10 °C to 18 °C", "");
  const book = sound(`${untuned}promise width <= 45 mm\n`);
  expect(promises(book)[0]!.settings).toBeUndefined();
});

test("a chart whose rows end at a dial knows it only as set, and says so", () => {
  const book = sound(`${TAPERED}chart way by thickness gives mm
    thickness     | way
    up to limit   | 10
    over limit    | 20
    from practice
dial limit in mm = 2 mm, from 1 mm to 3 mm
    "Limit"
    from practice
promise way <= 20 mm
`);
  expect(promises(book)[0]!.settings).toEqual({ verdict: "not settled", bound: "chart rows" });
});

test("what holds for every setting is kept when a dial is turned", () => {
  const text = `${TAPERED}promise width <= 60 mm\npromise width <= 45 mm\n`;
  const book = sound(text);
  const before = verificationOf(book);
  while (!before.advance(1000));
  const turned = readBook(text.replace("= 1:10,", "= 1:11,"), book);
  const after = verificationOf(turned, before);
  while (!after.advance(1000));
  const fresh = verificationOf(readBook(turned.text));
  while (!fresh.advance(1000));
  const told = (run: typeof after) => run.view().goals.map((goal) => [goal.says, goal.settings?.verdict]);
  expect(told(after)).toEqual(told(fresh));
});
