// bevelbook check --prove as a program: what it prints, what it hands out as data, and how it ends.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, expect, test } from "vitest";
import { checkReport } from "../../../core/schemas/report.ts";

const program = fileURLToPath(new URL("../../../editor/terminal/bevelbook.mjs", import.meta.url));
const folder = mkdtempSync(join(tmpdir(), "bevelbook-prove-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const text = (limit: string) =>
  `ask size in mm, 0 to 100\n    "s"\nask room in mm, 0 to 400\n    "r"\nfigure width in mm = 3 * size rounded up to 5 mm\nstop tight "Too tight"\n    when width > room\nstep do "Do it, {width}"\nstep never "Not ever"\n    when size > 200 mm\npromise width <= ${limit} or stopped\nworked one "One"\n    with size 10 mm, room 100 mm\n    gives width 30 mm\n`;
function run(limit: string, ...more: string[]) {
  const file = join(folder, `${limit}.bevel`);
  writeFileSync(file, text(limit));
  return spawnSync(process.execPath, [program, "check", file, "--prove", ...more], { encoding: "utf8" });
}

test("all proved: one line a promise, one a sort, and what is never reached", () => {
  const { stdout } = run("300 mm");
  expect(stdout).toContain("  proved      width <= 300 mm or stopped");
  expect(stdout).toContain("every job has an answer: 1 of 1 proved");
  expect(stdout).toMatch(/line 9: step never never applies\./);
  expect(stdout).toMatch(/All \d+ are proved for all answers in the asked ranges\./);
}, 60_000);

test("broken: a job that shows it, what comes out, and exit 1", () => {
  const { stdout, status } = run("250 mm");
  expect(status).toBe(1);
  expect(stdout).toMatch(
    /BROKEN {6}width <= 250 mm or stopped\n +by the job: .*size [\d.]+ mm.*\n +there width is \d+ mm/,
  );
  expect(stdout).toContain("1 broken");
}, 60_000);

test("as data, by its schema, with the guard", () => {
  const { stdout, status } = run("250 mm", "--guard", "--json");
  expect(status).toBe(1);
  const report = checkReport.parse(JSON.parse(stdout));
  expect(report.standing).toMatchObject({ done: true, holds: false });
  expect(report.standing!.goals.find((goal) => goal.sort === "promise")).toMatchObject({ verdict: "broken" });
  expect(report.standing!.never).toHaveLength(1);
  expect(report.guard!.tried).toBe(report.guard!.all);
  expect(report.guard!.unnoticed.length).toBe(report.guard!.tried - report.guard!.noticed);
}, 120_000);

test("options that make no sense are refused in a sentence", () => {
  expect(run("300 mm", "--seconds", "soon")).toMatchObject({
    status: 2,
    stderr: expect.stringContaining("--seconds takes a number"),
  });
  const alone = spawnSync(process.execPath, [program, "check", join(folder, "300 mm.bevel"), "--guard"], {
    encoding: "utf8",
  });
  expect(alone).toMatchObject({ status: 2, stderr: expect.stringContaining("belong to --prove") });
}, 60_000);
