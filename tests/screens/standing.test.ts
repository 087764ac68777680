// How a book stands, as the lead sees it: proved, then broken by an edit with a job that shows it, laid
// alongside, and mended.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { cell, face, findRow, inBrowser, openBench, openText, until } from "./support/bench.ts";

const browser = inBrowser();
/** A whole proof takes seconds on a free machine, and more on a busy one. */
const patience = 200_000;

const standing = (page: Page): Promise<void> =>
  page.getByRole("button", { name: "Standing", exact: true }).click();
const said = (page: Page) => page.locator(".record-first");
const line = (page: Page, says: string) =>
  page.locator(".record .goal", { has: page.getByText(says, { exact: true }) });

async function setFlexTaper(page: Page, from: string, to: string): Promise<void> {
  await face(page, "Sheet");
  await findRow(page, "dial flex-taper", "flex-taper");
  await cell(page, "dial flex-taper", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of flex-taper" });
  const rule = await field.inputValue();
  expect(rule.startsWith(from)).toBe(true);
  await field.fill(`${to}${rule.slice(from.length)}`.replace("from 1:10", "from 1:6"));
  await field.press("Enter");
  await page.getByText(/rules? changed/).waitFor();
}

test(
  "proved; a promise broken by an edit, its job laid alongside; put back, and proved again",
  async () => {
    const page = await browser.page(1280, 900);
    await openBench(page);
    await standing(page);
    await page.getByRole("progressbar").waitFor();
    await page.locator(".record-first.is-proved").waitFor({ timeout: patience });
    expect(await line(page, "flex-taper >= house-taper").innerText()).toContain("Proved");
    expect(await page.locator(".record").innerText()).toMatch(
      /All \d+ conditions have a value for every job\./,
    );
    expect(await axeFaults(page), "proved").toEqual([]);

    await setFlexTaper(page, "1:12", "1:8");
    await standing(page);
    await line(page, "flex-taper >= house-taper").locator(".goal-job").waitFor({ timeout: patience });
    const broken = line(page, "flex-taper >= house-taper");
    expect(await broken.innerText()).toMatch(/Broken[\s\S]*flex-taper is 1:8, house-taper is 1:10/);
    expect(await said(page).innerText()).toBe("It may not be said.");
    expect(await axeFaults(page), "broken").toEqual([]);

    const tags = await page.evaluate(() => document.querySelectorAll(".hung-tag").length);
    expect(tags, "the record has no tags").toBe(0);
    await broken.getByRole("button", { name: "Lay it alongside" }).click();
    await page.locator(".hung-tag", { hasText: "breaks promise" }).waitFor();
    const row = await page
      .locator("[data-row^='promise']", { hasText: "This promise is broken by a job" })
      .getAttribute("data-row");
    expect(await page.locator(`[data-place^="${row} | job"]`).last().innerText()).toContain("broken");
    // The text marks it in its place as well.
    await openText(page);
    await page.locator(".found-error").first().waitFor({ state: "attached" });

    await face(page, "Sheet");
    await page.getByRole("button", { name: "Put back" }).click();
    await page.getByText(/rules? changed/).waitFor({ state: "detached" });
    await standing(page);
    await page.locator(".record-first.is-proved").waitFor({ timeout: patience });
  },
  3 * patience,
);

test(
  "a small book: an unnoticed change becomes an example by one press, and undo takes it out",
  async () => {
    const page = await browser.page(820, 1000);
    await openBench(page);
    const text =
      `book small, edition 1\n    "Small"\nask size in mm, 0 to 100\n    "s"\nfigure width in mm ` +
      `= 3 * size rounded up to 5 mm\nstop wide "Too wide"\n    when width > 200 mm\nstep do ` +
      `"Do it, {width}"\npromise width <= 300 mm\nworked one "One"\n    with size 10 mm\n    ` +
      `gives width 30 mm\n`;
    await page
      .locator("input[type=file]")
      .setInputFiles({ name: "small.bevel", mimeType: "text/plain", buffer: Buffer.from(text) });
    await page.getByRole("button", { name: /small/ }).first().waitFor();
    await standing(page);
    await page.locator(".record-first.is-proved").waitFor({ timeout: patience });
    await page.locator(".unnoticed > li").first().waitFor({ timeout: patience });
    await page.getByText("All is looked at.").waitFor({ timeout: patience });
    const before = await page.locator(".record-fields").innerText();
    expect(before).toContain("1 of 1");
    await page.getByRole("button", { name: "Make it an example" }).first().click();
    await until(
      () => page.locator(".record-fields").innerText(),
      (now) => now.includes("2 of 2"),
      30_000,
    );
    await page.getByRole("button", { name: "Undo" }).click();
    await until(
      () => page.locator(".record-fields").innerText(),
      (now) => now.includes("1 of 1"),
      30_000,
    );
    expect(await axeFaults(page)).toEqual([]);
  },
  2 * patience,
);
