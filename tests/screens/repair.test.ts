// A rule with a unit mistake is written in either face, told in plain words where it stands, and repaired by
// one key.
import { expect, test } from "vitest";
import {
  cell,
  findRow,
  findings,
  inBrowser,
  openBench,
  openText,
  savedText,
  until,
} from "./support/bench.ts";

const browser = inBrowser();

test("in the text: the finding stands below, Alt+Enter repairs it", async () => {
  const page = await browser.page();
  await openBench(page);
  await openText(page);
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\nfigure deep-cut = depth > 6");
  // While it is typed there are other faults; the last one is waited for.
  await until(
    () => page.locator(".note-says").innerText(),
    (says) => says.includes("6 has no unit"),
  );
  await until(
    () => findings(page).innerText(),
    (says) => says.includes("1 fault"),
  );
  await page.keyboard.press("Alt+Enter");
  await until(
    () => findings(page).innerText(),
    (says) => !says.includes("fault"),
  );
  expect(await savedText(page)).toContain("figure deep-cut = depth > 6 mm");
});

test("in the sheet, while the rule is written: Alt+Enter repairs the draft, Enter keeps it", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "figure hole-short", "hole-short");
  await cell(page, "figure hole-short", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of hole-short" });
  await field.fill("smallest(shortest-side, longest-side) + 5");
  await page.locator(".rule-editor .finding.error").waitFor();
  expect(await page.locator(".rule-editor .finding").innerText()).toMatch(/5 has no unit.*Alt\+Enter/s);
  await field.press("Alt+Enter");
  await until(
    () => field.inputValue(),
    (typed) => typed === "smallest(shortest-side, longest-side) + 5 mm",
  );
  await field.press("Enter");
  await until(
    () => cell(page, "figure hole-short", "rule").innerText(),
    (says) => says.includes("longest-side) + 5 mm"),
  );
  expect(await savedText(page)).toContain(
    "figure hole-short in mm = smallest(shortest-side, longest-side) + 5 mm\n",
  );
});

test("in the sheet, after it was kept: the row is hatched and the same key repairs it", async () => {
  const page = await browser.page();
  await openBench(page);
  await findRow(page, "figure hole-short", "hole-short");
  await cell(page, "figure hole-short", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of hole-short" });
  await field.fill("smallest(shortest-side, longest-side) + 5");
  await field.press("Enter");
  const row = page.locator('[data-row="figure hole-short"]');
  await row.locator(".finding.error").waitFor();
  expect(await row.getAttribute("class")).toContain("has-error");
  await until(
    () => cell(page, "figure hole-short", "rule").evaluate((one) => one === document.activeElement),
    (here) => here,
  );
  await page.keyboard.press("Alt+Enter");
  await row.locator(".finding.error").waitFor({ state: "detached" });
  expect(await savedText(page)).toContain("longest-side) + 5 mm\n");
});
