// A layer as a yard's lead makes it: begun on the shipped book, a dial turned, a figure amended, a caution
// dropped with its reason, all in the sheet; the book underneath stays in grey and untouched, own lines say
// what they replace and move, and the why names both books.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { cell, findRow, inBrowser, jobsWorked, openBench, savedText, until } from "./support/bench.ts";

const browser = inBrowser();
const patience = 120_000;

async function begin(page: Page): Promise<void> {
  await openBench(page);
  await page.locator(".tb-book").click();
  await page
    .locator(".books-side .book-line", { hasText: "opens as a copy of its own" })
    .filter({ hasText: "road-panels" })
    .getByRole("button", { name: /^Begin a layer on it/ })
    .click();
  const form = page.getByRole("form", { name: "A layer on road-panels" });
  await form.getByLabel("Name").fill("road-panels");
  await form.getByRole("button", { name: "Begin the layer" }).click();
  expect(await form.getByRole("alert").innerText()).toBe("The book underneath has that name already.");
  await form.getByLabel("Name").fill("north-yard");
  await form.getByLabel("Title").fill("Panels in the north yard");
  await form.getByRole("button", { name: "Begin the layer" }).click();
  await page.locator(".sheet-row.is-under").first().waitFor();
  await jobsWorked(page);
}

async function amend(page: Page, row: string, name: string, typed: string): Promise<void> {
  await findRow(page, row, name);
  await cell(page, row, "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: `Rule of ${name}` });
  await field.fill(typed);
  await field.press("Enter");
  await page.locator(`.sheet-row.is-own[data-row="${row}"]`).waitFor();
}

const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/layers-${name}.png` });
};

test.each([
  [1280, 900],
  [820, 1100],
])(
  "a layer is begun, a dial turned and a figure amended over the book in grey, at %i",
  async (width, height) => {
    const page = await browser.page(width, height);
    await begin(page);
    // All of the book underneath is there, in grey, each row with the mark of its book.
    await findRow(page, "dial house-taper", "house-taper");
    const dial = page.locator('[data-row="dial house-taper"]');
    expect(await dial.getAttribute("class")).toContain("is-under");
    expect(await dial.locator(".layer-mark").innerText()).toContain("road-panels");
    const grey = await dial
      .locator(".rule")
      .first()
      .evaluate((node) => getComputedStyle(node).color);
    await amend(page, "dial house-taper", "house-taper", "1:12");
    expect(await dial.locator("del.under-rule").innerText()).toContain("1:10, from 1:10 to 1:15");
    expect(await dial.locator(".own-line").innerText()).toContain("instead of road-panels");
    expect(
      await dial
        .locator("span.rule")
        .first()
        .evaluate((node) => getComputedStyle(node).color),
    ).not.toBe(grey);
    // A conflict is told with the own line and the line underneath.
    const also = dial.locator(".finding-also li").first();
    expect(await also.innerText()).toMatch(/here in road-panels, line \d+\s*gives run-out 50 mm/);
    await amend(page, "figure bevel-width", "bevel-width", "as-before + 5 mm");
    const text = await savedText(page);
    expect(text).toContain("amends road-panels, edition 1");
    expect(text).toMatch(
      /part "Bevel"\n\ninstead dial house-taper = 1:12\n+instead figure bevel-width = as-before \+ 5 mm/,
    );
    expect(text.length).toBeLessThan(400);
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `sheet-${width}`);
    // Undone and done again across both.
    await page.getByRole("button", { name: "Undo", exact: true }).click();
    await page.locator('.sheet-row.is-under[data-row="figure bevel-width"]').waitFor();
    await page.getByRole("button", { name: "Do again", exact: true }).click();
    await page.locator('.sheet-row.is-own[data-row="figure bevel-width"]').waitFor();
    // What the own line moves, and from there the jobs.
    const moves = page.locator('[data-row="figure bevel-width"] .moves-jobs');
    // The number stands for all jobs only once all are weighed: the first ones alone may be a single job.
    await until(
      () => moves.innerText({ timeout: patience }),
      (says) => /^moves \d+ jobs(?! so far)/.test(says),
      patience,
    );
    await moves.click();
    await page
      .locator(".weighed-rules li.is-chosen", { hasText: "figure bevel-width" })
      .waitFor({ timeout: patience });
    await page.getByText("All are weighed.").waitFor({ timeout: patience });
    expect(await page.locator(".weighed-job").count()).toBeGreaterThan(0);
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `moved-${width}`);
  },
  300_000,
);

/** The card of the book on the bench, once its jobs are worked. */
const jobsAsCard = (page: Page): Promise<void> => page.locator(".card .card-says").first().waitFor();

test("the why of a value goes through both books and names them; card and lines too", async () => {
  const page = await browser.page(1400, 1000);
  await begin(page);
  await amend(page, "figure bevel-width", "bevel-width", "as-before + 5 mm");
  await cell(page, "figure bevel-width", "job j1").click();
  const why = page.locator(".why");
  await why.locator(".why-sentence").waitFor();
  await until(
    () => why.innerText(),
    (all) => /north-yard/.test(all),
  );
  await why.locator("[data-line]").filter({ hasText: "bevel-width" }).first().click();
  await until(
    () => why.innerText(),
    (all) => /Stands in\s+road-panels/.test(all) && /Stands in\s+north-yard/.test(all),
  );
  expect(await page.locator(".why-side").innerText()).toContain(
    "It takes the place of what stands in road-panels: run-out rounded up to 5 mm",
  );
  await shot(page, "why");
  await page.getByRole("button", { name: "Card", exact: true }).click();
  await page.getByText("edition 1, on road-panels, edition 1").first().waitFor();
  await shot(page, "card");
  // Where several books give the lines of a card, each line names its own.
  await page.locator(".tb-book").click();
  await page
    .locator(".books-side .book-line", { hasText: "opens as a copy of its own" })
    .filter({ hasText: "harbour-yard" })
    .getByRole("button")
    .first()
    .click();
  await page.locator(".tb-book b", { hasText: "harbour-yard" }).waitFor();
  await jobsAsCard(page);
  const layers = await until(
    () => page.locator(".card-layer").allInnerTexts(),
    (all) => all.length > 0,
  );
  expect(new Set(layers.map((one) => one.replace(/^.*\s/, "")))).toEqual(
    new Set(["road-panels", "harbour-yard"]),
  );
  await shot(page, "card-lines");
});

test(
  "a caution is dropped with its reason by the keyboard alone, shown struck, and " + "brought back",
  async () => {
    const page = await browser.page(1400, 1000);
    await begin(page);
    await findRow(page, "caution solvent", "solvent");
    await cell(page, "caution solvent", "name").click();
    await page.keyboard.press("Delete");
    const field = page.getByRole("textbox", { name: "New statement" });
    expect(await field.inputValue()).toBe('drop caution solvent\n    because ""');
    await page.keyboard.type("No solvent in this yard");
    await field.press("Enter");
    const dropped = page.locator(".sheet-row.is-drop", { hasText: "solvent" });
    await dropped.waitFor();
    expect(await dropped.locator("del").first().innerText()).toBe("solvent");
    expect(await dropped.locator("del.under-rule").innerText()).toContain("Flammable solvent");
    expect(await page.locator('[data-row="caution solvent"]').count()).toBe(0);
    expect(await savedText(page)).toContain('drop caution solvent\n    because "No solvent in this yard"');
    await shot(page, "dropped");
    await dropped.locator(".sheet-name").click();
    await page.getByRole("button", { name: "Back to the book underneath" }).click();
    await page.locator('.sheet-row.is-under[data-row="caution solvent"]').waitFor();
    expect(await savedText(page)).not.toContain("drop caution");
  },
);

test("a step underneath is written anew as a whole, and the book underneath keeps its own", async () => {
  const page = await browser.page(1400, 1000);
  await begin(page);
  await findRow(page, "step wash", "wash");
  await cell(page, "step wash", "rule").click();
  await page.getByRole("button", { name: "Amend here" }).click();
  const field = page.getByRole("textbox", { name: "New statement" });
  await field.waitFor();
  await field.fill((await field.inputValue()).replace("Wash the panel", "Rinse the panel, then wash it"));
  await field.press("Enter");
  await page.locator('.sheet-row.is-own[data-row="step wash"]').waitFor();
  expect(await savedText(page)).toMatch(/instead step wash "Rinse the panel, then wash it/);
});

test("a layer whose book is not at hand says how it is found, and nothing is released", async () => {
  const page = await browser.page(1400, 1000);
  await openBench(page);
  await page.locator("input[type=file]").setInputFiles({
    name: "lonely.bevel",
    mimeType: "text/plain",
    buffer: Buffer.from(
      'book lonely, edition 1, amends nowhere-house, edition 4\n    "A layer on a book that is not there"\n',
    ),
  });
  await page.locator(".tb-book b", { hasText: "lonely" }).waitFor();
  await page.getByText("Open its file under Books").first().waitFor();
});
