// What a change does, as the lead sees it: a dial turned, held against the accepted text, each job with both
// values and the change that has it.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { cell, findRow, inBrowser, openBench } from "./support/bench.ts";

const browser = inBrowser();
const patience = 120_000;

async function turnHouseTaper(page: Page): Promise<void> {
  await findRow(page, "dial house-taper", "house-taper");
  await cell(page, "dial house-taper", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of house-taper" });
  await field.fill((await field.inputValue()).replace("1:10", "1:12"));
  await field.press("Enter");
  await page.getByText(/rules? changed/).waitFor();
}

test.each([
  [1280, 900],
  [820, 1100],
])("a turned dial is told by rule and by effect, at %i", async (width, height) => {
  const page = await browser.page(width, height);
  await openBench(page);
  await turnHouseTaper(page);
  await page.getByRole("button", { name: "Editions", exact: true }).click();
  await page.getByText("All are weighed.").waitFor({ timeout: patience });
  const change = page.locator(".weighed-rules > li");
  expect(await change.count()).toBe(1);
  expect(await change.innerText()).toMatch(
    /changed\s+dial house-taper[\s\S]*1:10, from 1:10 to 1:15 becomes 1:12[\s\S]*Moves \d+ jobs\./,
  );
  const job = page.locator(".weighed-job", { hasText: "oval-hole" });
  while ((await job.count()) === 0) await page.getByRole("button", { name: /jobs? more$/ }).click();
  expect(await job.first().innerText()).toMatch(/bevel-width\s+50 mm\s+60 mm\s+1/);
  expect(await page.locator(".weighed-counts").innerText()).toMatch(
    /\d+ of \d+ worked examples.*Together they reach (\d+) of the \1 rows/,
  );
  expect(await axeFaults(page)).toEqual([]);
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/editions-${width}.png` });
  await job
    .first()
    .getByRole("button", { name: /^Lay it alongside/ })
    .click();
  await page.locator(".hung-tag", { hasText: "oval-hole" }).waitFor();
});
