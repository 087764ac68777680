// bevelbook check --prove as a person calls it: what it prints, what it hands out as data, and how it ends.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { checkReport } from "../../../core/schemas/report.ts";
import { callIn } from "./support/call.ts";

const folder = mkdtempSync(join(tmpdir(), "bevelbook-prove-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const text = (limit: string) => `ask size in mm, 0 to 100
    "s"
ask room in mm, 0 to 400
    "r"
figure width in mm = 3 * size rounded up to 5 mm
stop tight "Too tight"
    when width > room
step do "Do it, {width}"
step never "Not ever"
    when size > 200 mm
promise width <= ${limit} or stopped
worked one "One"
    with size 10 mm, room 100 mm
    gives width 30 mm
`;
function run(limit: string, ...more: string[]) {
  writeFileSync(join(folder, `${limit}.bevel`), text(limit));
  return callIn(folder, ["check", `${limit}.bevel`, "--prove", ...more]);
}

test("all proved: one line a promise, one a sort, and what is never reached", async () => {
  const { out } = await run("300 mm");
  expect(out).toContain("  proved      width <= 300 mm or stopped");
  expect(out).toContain("every job has an answer: 1 of 1 proved");
  expect(out).toMatch(/line 9: step never never applies\./);
  expect(out).toMatch(/All \d+ are proved for every job: each ask answered in its range, left blank or/);
}, 60_000);

test("broken: a job that shows it, what comes out, and exit 1", async () => {
  const { out, code } = await run("250 mm");
  expect(code).toBe(1);
  expect(out).toMatch(
    /BROKEN {6}width <= 250 mm or stopped\n +by the job: .*size [\d.]+ mm.*\n +there width is \d+ mm/,
  );
  expect(out).toContain("1 broken");
}, 60_000);

test("every setting of the dials: one that keeps the promise, and one that breaks it", async () => {
  writeFileSync(
    join(folder, "dials.bevel"),
    `ask size in mm, 1 to 100
    "s"
dial times = 3, from 2 to 4
    from practice
figure width in mm = times * size
step do "Do it, {width}"
promise width <= 400 mm
promise width <= 350 mm
`,
  );
  const { out } = await callIn(folder, ["check", "dials.bevel", "--prove"]);
  expect(out).toMatch(/proved {6}width <= 400 mm\n +holds for every setting\n/);
  expect(out).toMatch(
    /proved {6}width <= 350 mm\n +holds as set; breaks at times = 4\n +there by the job: size [\d.]+ mm\n/,
  );
  const { out: data } = await callIn(folder, ["check", "dials.bevel", "--prove", "--json"]);
  const promises = checkReport
    .parse(JSON.parse(data))
    .standing!.goals.filter((one) => one.sort === "promise");
  expect(promises.map((one) => one.settings?.verdict)).toEqual(["proved", "broken"]);
}, 60_000);

test("as data, by its schema, with the guard", async () => {
  const { out, code } = await run("250 mm", "--guard", "--json");
  expect(code).toBe(1);
  const report = checkReport.parse(JSON.parse(out));
  expect(report.standing).toMatchObject({ done: true, holds: false });
  expect(report.standing!.goals.find((goal) => goal.sort === "promise")).toMatchObject({ verdict: "broken" });
  expect(report.standing!.never).toHaveLength(1);
  expect(report.guard!.tried).toBe(report.guard!.all);
  expect(report.guard!.unnoticed.length).toBe(report.guard!.tried - report.guard!.noticed);
}, 120_000);

test("options that make no sense are refused in a sentence", async () => {
  expect(await run("300 mm", "--seconds", "soon")).toMatchObject({
    code: 2,
    err: expect.stringContaining("--seconds takes a number"),
  });
  expect(await callIn(folder, ["check", "300 mm.bevel", "--guard"])).toMatchObject({
    code: 2,
    err: expect.stringContaining("belong to --prove"),
  });
}, 60_000);
