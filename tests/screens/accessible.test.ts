// The workbench without serious or critical faults by the axe rules, at three widths.
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { cell, face, findRow, inBrowser, jobCell, openBench, openText } from "./support/bench.ts";

const browser = inBrowser();
const widths = [1280, 820, 390] as const;

test.each(widths)("the workbench at %i px: sheet, why, chart, text, both, card", async (width) => {
  const page = await browser.page(width, 900);
  await openBench(page);
  expect(await axeFaults(page), "sheet").toEqual([]);
  await findRow(page, "figure fills", "method");
  await jobCell(page, "figure fills", "j1").click();
  await page.keyboard.press("Enter");
  await page.getByRole("region", { name: /^Why / }).waitFor();
  expect(await axeFaults(page), "why").toEqual([]);
  await page.keyboard.press("Escape");
  await cell(page, "chart method", "rule").click();
  await page.keyboard.press("Enter");
  await page.locator(".chart-side table, .chart-side [role=grid]").first().waitFor();
  expect(await axeFaults(page), "chart").toEqual([]);
  await page.getByRole("button", { name: "Close Chart method" }).click();
  await openText(page);
  expect(await axeFaults(page), "text").toEqual([]);
  if (width > 900) {
    await face(page, "Both");
    await page.locator(".floor-sheet").waitFor();
    expect(await axeFaults(page), "both").toEqual([]);
  }
  await face(page, "Card");
  await page.locator(".card-step").first().waitFor();
  expect(await axeFaults(page), "card").toEqual([]);
}, 120_000);
