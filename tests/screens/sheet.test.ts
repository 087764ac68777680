// The sheet by itself: rules in inks without the text face's weight, one chart after another, the keys of one
// face leading to the other and back to where one was.
import { expect, test } from "vitest";
import { cell, findRow, inBrowser, openBench, openText, until } from "./support/bench.ts";

const browser = inBrowser();

test("rules are coloured without the text face being fetched", async () => {
  const page = await browser.page();
  const asked: string[] = [];
  page.on("request", (request) => {
    asked.push(request.url());
  });
  await openBench(page);
  await findRow(page, "figure bevel-width", "bevel-width");
  const rule = cell(page, "figure bevel-width", "rule");
  await rule.locator(".ink-number", { hasText: "5" }).waitFor();
  expect((await rule.innerText()).trim()).toBe("run-out rounded up to 5 mm");
  expect(await rule.locator(".ink-word").allInnerTexts()).toEqual(expect.arrayContaining(["rounded up to"]));
  expect(asked.filter((address) => /text-view|editor\.worker/.test(address))).toEqual([]);
});

test("a second chart opens without closing the first, from the sheet and in the panel", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "chart method", "chart");
  await cell(page, "chart method", "rule").dblclick();
  const heading = page.locator(".side h2");
  await until(
    () => heading.innerText(),
    (says) => says === "Chart method",
  );
  await cell(page, "chart backing", "rule").click();
  await until(
    () => heading.innerText(),
    (says) => says === "Chart backing",
  );
  await page
    .getByRole("gridcell", { name: "over 1.8 mm to 2.8 mm" })
    .or(page.getByText("over 1.8 mm to 2.8 mm"))
    .first()
    .waitFor();
  await page.getByLabel("Chart shown").selectOption("house-dose");
  await until(
    () => heading.innerText(),
    (says) => says === "Chart house-dose",
  );
  await page.locator(".chart-side svg").first().waitFor();
});

test("a cell of a chart is typed, and undo brings the old one back", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "chart backing", "backing");
  await cell(page, "chart backing", "rule").dblclick();
  const first = page.locator(".chart-grid tbody tr").nth(1).locator("td").nth(1);
  await until(
    () => first.innerText(),
    (says) => says.trim() === "3",
  );
  await first.dblclick();
  await page.locator(".chart-field").fill("4");
  await page.keyboard.press("Enter");
  await until(
    () => first.innerText(),
    (says) => says.trim() === "4",
  );
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  await until(
    () => first.innerText(),
    (says) => says.trim() === "3",
  );
});

test("from face to face by a key, each time to where one was", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "figure bevel-width", "bevel-width");
  await cell(page, "figure bevel-width", "rule").click();
  await openText(page);
  await page.keyboard.press("Control+End");
  const line = page.locator(".note-where");
  const last = await until(
    () => line.innerText(),
    (says) => Number(/\d+/.exec(says)?.[0]) > 1000,
  );
  await page.keyboard.press("Alt+1");
  await until(
    () => page.evaluate(() => (document.activeElement as HTMLElement | null)?.dataset["place"] ?? ""),
    (place) => place.endsWith("| rule"),
  );
  await page.keyboard.press("Alt+2");
  await page.locator(".monaco-editor.focused").waitFor();
  await until(
    () => line.innerText(),
    (says) => says === last,
  );
});
