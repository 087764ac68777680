// The house taper is changed, and the values of three jobs move: each cell shows both numbers until the
// change is accepted.
import { expect, test } from "vitest";
import type { Page } from "playwright-core";
import { cell, findRow, firstJobs, inBrowser, jobCell, openBench, until } from "./support/bench.ts";

const browser = inBrowser();
const row = "figure bevel-width";

/** 10 mm of run at 1:10 becomes 15 mm at 1:15; 15 becomes 25 (22.5 rounded up to 5 mm). */
const moves = [
  ["10 mm", "15 mm"],
  ["10 mm", "15 mm"],
  ["15 mm", "25 mm"],
] as const;

async function setTaper(page: Page): Promise<void> {
  await findRow(page, "dial house-taper", "house-taper");
  await cell(page, "dial house-taper", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of house-taper" });
  const rule = await field.inputValue();
  expect(rule).toMatch(/^1:10\b/);
  await field.fill(rule.replace("1:10", "1:15"));
  await field.press("Enter");
  await page.getByText(/rules? changed/).waitFor();
  await findRow(page, row, "bevel-width");
}

const shown = (page: Page): Promise<(readonly (string | undefined)[])[]> =>
  Promise.all(firstJobs.map(async (job) => [await text(page, job, "del"), await text(page, job, "ins")]));
const text = async (page: Page, job: string, mark: string): Promise<string | undefined> => {
  const found = jobCell(page, row, job).locator(mark);
  return (await found.count()) === 0
    ? undefined
    : (await found.innerText())
        .replace(/^(was|now)\s+/, "")
        .replace(/\s+/g, " ")
        .trim();
};

test("both values stand in the cell of each job, and accepting leaves the new one", async () => {
  const page = await browser.page();
  await openBench(page);
  await setTaper(page);
  await until(
    () => shown(page),
    (now) => JSON.stringify(now) === JSON.stringify(moves),
  );
  expect(await page.locator(".change-count").innerText()).toMatch(/1 rule changed, \d+ values moved/);
  await page.getByRole("button", { name: "Accept the change" }).click();
  await until(
    () => Promise.all(firstJobs.map((job) => jobCell(page, row, job).innerText())),
    (now) => now.join() === moves.map(([, is]) => is).join(),
  );
  await page.getByText(/rules? changed/).waitFor({ state: "detached" });
});

test("putting it back brings the old values", async () => {
  const page = await browser.page();
  await openBench(page);
  await setTaper(page);
  await page.getByRole("button", { name: "Put back" }).click();
  await until(
    () => Promise.all(firstJobs.map((job) => jobCell(page, row, job).innerText())),
    (now) => now.join() === moves.map(([was]) => was).join(),
  );
});
