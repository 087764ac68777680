// Why is asked of a value and followed down to the row of a chart; on the way each line lights up the rule it
// stands for.
import { expect, test } from "vitest";
import { cell, findRow, inBrowser, jobCell, openBench, openText, until } from "./support/bench.ts";

const browser = inBrowser();

test("from a cell to the row of a chart, and to the rule in the sheet", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "figure fills", "method");
  await jobCell(page, "figure fills", "j1").click();
  const why = page.getByRole("region", { name: /^Why / });
  await why.waitFor();
  const line = why.locator(".why-head", { hasText: "method" }).first();
  await line.press("ArrowRight");
  await until(
    () => line.getAttribute("aria-expanded"),
    (open) => open === "true",
  );
  await why.getByText("Decided by").first().waitFor();
  expect(await why.innerText()).toMatch(/Decided by\s+row 1:/);
  // The line has the focus, so its rule is lit in the sheet; and the rule pointed at lights the line.
  await page.locator('[data-row="chart method"].is-lit').waitFor();
  await cell(page, "chart method", "name").hover();
  await why.locator(".why-line.is-lit", { hasText: "method" }).first().waitFor();
  await why.getByRole("button", { name: "Go to the rule of method" }).click();
  await until(
    () => cell(page, "chart method", "rule").evaluate((one) => one === document.activeElement),
    (here) => here,
  );
});

test("beside the text, the very row of the chart is lit", async () => {
  const page = await browser.page(1700);
  await openBench(page);
  await openText(page, "Both");
  await findRow(page, "figure fills", "method");
  await jobCell(page, "figure fills", "j1").click();
  await page
    .getByRole("region", { name: /^Why / })
    .locator(".why-head", { hasText: "method" })
    .first()
    .press("ArrowRight");
  const lit = page.locator(".monaco-editor .view-overlays .chosen");
  await lit.first().waitFor();
  const text = (): Promise<string> =>
    page.evaluate(() => {
      const mark = document.querySelector(".monaco-editor .view-overlays .chosen")?.getBoundingClientRect();
      const line = [...document.querySelectorAll(".monaco-editor .view-line")].find(
        (one) => mark !== undefined && Math.abs(one.getBoundingClientRect().top - mark.top) < 4,
      );
      return line?.textContent?.replace(/\u00a0/g, " ") ?? "";
    });
  await until(text, (says) => /smc, closed-mould, hand-laid \| surface \| no /.test(says));
});

test("what a rule is used by is one press away", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "figure bevel-taper", "bevel-taper");
  await jobCell(page, "figure bevel-taper", "j1").click();
  await page
    .locator(".why-side-names", { hasText: "Used by" })
    .getByRole("button", { name: "run-out" })
    .click();
  await page.locator('[data-row="figure run-out"].is-chosen').waitFor();
  expect(await page.locator(".why-of").innerText()).toContain("run-out");
});
