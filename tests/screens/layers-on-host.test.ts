// Three levels at a real host: a yard opens the house's sealed editions, begins a part family's layer on the
// yard's sealed one, and amends a dial, a question, a chart and the steps of it in the sheet. Grey rows name
// the book of each, own ones what they move; the why and Standing name the book of every line; a card whose
// edition was sealed in spite of a fault says so. The books are invented.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { HostClient } from "../../editor/client/storage/host-client.ts";
import { smallBook } from "../editor/host/support/books.ts";
import { cell, findRow, jobsWorked, savedText, until } from "./support/bench.ts";
import { pageFaults } from "./support/axe.ts";
import { inShop, openBook } from "./support/shop.ts";

const openShop = inShop();
const patience = 60_000;

const HOUSE = `book stone-house, edition 1
    "An invented house"

part "What is measured"

ask depth in mm, 0 to 10
    "How deep is it?"

part "Bevel"

dial slope = 1:10, from 1:8 to 1:15
    "Slope of the bevel"
    because "The house grinds so"
    from practice
figure width in mm = depth run out at slope
    because "The bevel runs out at the slope"
    from practice
chart pause by depth gives min
    depth           | pause
    under 5 mm      | 10
    5 mm and over   | 20
    from practice

part "Work"

step grind "Grind {width} all round"
    takes 20 min
    because "The bond needs it"
    from practice
step polish "Polish it"
    takes 5 min
    because "It shows"
    from practice

promise width <= 200 mm
    because "No more is ground"
`;
const YARD = `book quay-yard, edition 1, amends stone-house, edition 1
    "An invented yard"

part "Bevel"

instead dial slope = 1:12
    because "The yard grinds more"
    from house "the yard's lead"
instead figure width = as-before + 5 mm when depth > 2 mm
    because "Wide strips"
    from house "the yard's lead"

part "Work"

step rinse "Rinse it" after grind
    takes 5 min
    because "Salt"
    from practice

worked shallow "A shallow one"
    with depth 1 mm
    gives width 12 mm
    from practice
worked deep "A deep one"
    with depth 6 mm
    gives width 77 mm
    from practice
`;

async function seal(client: HostClient, text: string, book: string, reason?: string): Promise<void> {
  const done = await client.seal(book, {
    text,
    why: "As it is ground.",
    ...(reason === undefined ? {} : { reason }),
  });
  if ("refused" in done) throw new Error(JSON.stringify(done.refused));
}

const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};
const row = (page: Page, id: string) => page.locator(`.sheet-row[data-row="${id}"]`);
const hostBook = (page: Page, name: string) => page.locator(".host-book", { hasText: name });

async function openPanel(page: Page): Promise<void> {
  await page.goto("/");
  await jobsWorked(page);
  await page.locator(".tb-book").click();
}

/** A layer begun on the yard's sealed edition. */
async function beginPart(page: Page, name = "fender-line"): Promise<void> {
  await hostBook(page, "quay-yard")
    .getByRole("button", { name: /^Begin a layer on it/ })
    .click();
  const form = page.getByRole("form", { name: "A layer on quay-yard, edition 1" });
  await form.getByLabel("Name").fill("stone-house");
  await form.getByRole("button", { name: "Begin the layer" }).click();
  expect(await form.getByRole("alert").innerText()).toBe("The shop’s host has a book stone-house already.");
  await form.getByLabel("Name").fill(name);
  await form.getByLabel("Title").fill("Fenders");
  await form.getByRole("button", { name: "Begin the layer" }).click();
  await page.locator(".tb-book b", { hasText: name }).waitFor();
  await page.locator(".sheet-row.is-under").first().waitFor();
  await jobsWorked(page);
}

const statement = (page: Page) => page.getByRole("textbox", { name: "New statement" });

/** The row in ink, with the number of jobs that it moves. */
async function inInk(page: Page, id: string, over: string): Promise<void> {
  await until(
    () => row(page, id).getAttribute("class"),
    (names) => names?.includes("is-own") === true,
  );
  expect(await row(page, id).locator(".own-line").innerText()).toContain(over);
  await row(page, id)
    .locator(".own-line")
    .getByText(/^moves \d+ jobs?/)
    .waitFor({ timeout: patience });
}

test.each([
  [1280, 900],
  [820, 1100],
])(
  "a part family's layer on the yard's sealed edition, amended in the sheet, at %i",
  async (width, height) => {
    const shop = openShop();
    const page = await shop.person(width, height);
    await seal(shop.client, HOUSE, "stone-house");
    await seal(shop.client, YARD, "quay-yard");
    await openPanel(page);
    // A sealed edition of the host opens as a copy, with what it stands on.
    await hostBook(page, "quay-yard")
      .getByRole("button", { name: /^Open a copy of edition 1/ })
      .click();
    await page.locator(".tb-book b", { hasText: "quay-yard" }).waitFor();
    await row(page, "figure width").locator("del.under-rule").waitFor();
    expect(await row(page, "figure width").innerText()).toContain(
      "when depth > 2 mm; elsewhere as in stone-house",
    );
    await page.locator(".tb-book").click();
    await beginPart(page);
    // Each row names the book that it stands in.
    const marks: readonly (readonly [string, string])[] = [
      ["ask depth", "stone-house"],
      ["dial slope", "quay-yard"],
      ["step grind", "stone-house"],
      ["step rinse", "quay-yard"],
    ];
    for (const [id, layer] of marks) {
      await findRow(page, id, id.split(" ")[1]!);
      expect(await row(page, id).locator(".layer-name").innerText()).toBe(layer);
    }

    // A dial beyond the span of the house is not kept, and what was typed stays.
    await findRow(page, "dial slope", "slope");
    await cell(page, "dial slope", "rule").click();
    await page.keyboard.press("Enter");
    const dial = page.getByRole("textbox", { name: "Rule of slope" });
    expect(await page.locator(".rule-editor-does").innerText()).toContain(
      "Amends it here, from 1:8 to 1:15. quay-yard keeps its own.",
    );
    await dial.fill("1:20");
    await dial.press("Enter");
    await page
      .locator(".rule-editor .finding.error", {
        hasText: "slope is 1:20, outside the span that the book below gives, 1:8 to 1:15.",
      })
      .waitFor();
    expect(await dial.inputValue()).toBe("1:20");
    await shot(page, `layers-host-span-${width}`);
    await dial.fill("1:14");
    await dial.press("Enter");
    await inInk(page, "dial slope", "instead of quay-yard");
    // Two layers that both turn it: both lines are shown.
    await cell(page, "dial slope", "rule").click();
    const again = row(page, "dial slope").locator(".finding", {
      hasText: "quay-yard turns the dial slope of stone-house, and this turns it again",
    });
    expect(await again.locator(".finding-also").innerText()).toMatch(
      /quay-yard replaces it here, line \d+\s*instead dial slope = 1:12/,
    );

    // A question, as a whole.
    await findRow(page, "ask depth", "depth");
    await cell(page, "ask depth", "rule").click();
    await page.getByRole("button", { name: "Amend here" }).click();
    await statement(page).waitFor();
    expect(await statement(page).inputValue()).toContain("instead ask depth in mm, 0 to 10");
    await statement(page).fill((await statement(page).inputValue()).replace("0 to 10", "0 to 8"));
    await statement(page).press("Enter");
    await until(
      () => row(page, "ask depth").getAttribute("class"),
      (names) => names?.includes("is-own") === true,
    );
    expect(await row(page, "ask depth").locator("del.under-rule").innerText()).toContain("in mm, 0 to 10");

    // A step placed after another; the search does not hide what was just written.
    await findRow(page, "step rinse", "rinse");
    await cell(page, "step rinse", "name").click();
    await page.getByLabel("New statement below the chosen one").selectOption("step");
    await statement(page).fill(
      'step brush "Brush it out" after grind\n    takes 3 min\n    because "Loose glass"\n    from practice',
    );
    await statement(page).press("Enter");
    await row(page, "step brush").waitFor();
    await inInk(page, "step brush", "new here");

    // A chart: another value in a row underneath, and a row that is new; the house's rows stay and say whose
    // they are.
    await findRow(page, "chart pause", "pause");
    await cell(page, "chart pause", "rule").click();
    await page.getByRole("button", { name: "Amend here" }).click();
    const grid = page.getByRole("grid", { name: "Rows of pause" });
    const at = (line: number, column: number) => grid.locator("tbody tr").nth(line).locator("td").nth(column);
    await at(0, 0).dblclick();
    await page.getByText(/^This row stands in stone-house and is kept as it is there/).waitFor();
    expect(await page.getByRole("button", { name: "Take the row out" }).isDisabled()).toBe(true);
    await at(1, 1).dblclick();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("30");
    await page.keyboard.press("Enter");
    await until(
      () => grid.locator("tbody tr").allInnerTexts(),
      (all) => /stone-house/.test(all[0] ?? "") && /30\s*here/.test(all[1] ?? ""),
    );
    await shot(page, `layers-host-chart-${width}`);
    expect(await page.locator(".chart-own").count()).toBe(1);
    await page.getByRole("button", { name: "Close Chart pause" }).click();
    await inInk(page, "chart pause", "added to stone-house");

    // Dropped, and taken back.
    await findRow(page, "step polish", "polish");
    await cell(page, "step polish", "name").click();
    await page.keyboard.press("Delete");
    const dropped = page.locator(".sheet-row.is-drop", { hasText: "polish" });
    await dropped
      .locator(".own-line")
      .getByText(/^moves \d+ jobs?/)
      .waitFor({ timeout: patience });
    expect(await dropped.locator("del.under-rule").innerText()).toContain("Polish it");
    await dropped.locator(".sheet-name").click();
    await page.getByRole("button", { name: "Back to the book underneath" }).click();
    await until(
      () => row(page, "step polish").getAttribute("class"),
      (names) => names?.includes("is-under") === true,
    );

    const text = await savedText(page);
    expect(text).toContain("amends quay-yard, edition 1");
    for (const said of [
      "instead dial slope = 1:14",
      "instead ask depth in mm, 0 to 8",
      'step brush "Brush it out" after grind',
      "chart pause add\n    5 mm and over | 30",
    ])
      expect(text).toContain(said);
    expect(text).not.toContain("polish");

    // The why of a value goes through all three books.
    await findRow(page, "figure width", "width");
    await cell(page, "figure width", "job j2").click();
    if (width < 1180) await page.keyboard.press("Enter");
    await page.locator(".why-sentence").waitFor();
    await page.locator(".why").getByRole("radio", { name: "Everything" }).check();
    const line = (name: string) => page.locator(".why [data-line]").filter({ hasText: name }).first();
    await until(
      () => page.locator(".why").innerText(),
      (all) => /Stands in\s+quay-yard/.test(all),
    );
    await line("width").click();
    await until(
      () => page.locator(".why").innerText(),
      (all) => /Stands in\s+stone-house/.test(all),
    );
    await line("slope").click();
    await until(
      () => page.locator(".why").innerText(),
      (all) => /Stands in\s+fender-line/.test(all),
    );
    expect(await pageFaults(page)).toEqual([]);
    await shot(page, `layers-host-why-${width}`);
  },
  240_000,
);

test("Standing names the book of each line, and the card the book of each step", async () => {
  const shop = openShop();
  const page = await shop.person(1280, 900);
  await seal(shop.client, HOUSE, "stone-house");
  await seal(shop.client, YARD, "quay-yard");
  await openPanel(page);
  await beginPart(page);
  await page.getByRole("button", { name: "Standing", exact: true }).click();
  await until(
    () => page.locator(".goals > li").filter({ hasText: "width <= 200 mm" }).allInnerTexts(),
    (all) => all.some((one) => one.includes("In stone-house")),
    patience,
  );
  await shot(page, "layers-host-standing");
  await page.getByRole("button", { name: "Card", exact: true }).click();
  await page.locator(".card .card-says").first().waitFor();
  const layers = await until(
    () => page.locator(".card-layer").allInnerTexts(),
    (all) => all.length > 0,
  );
  expect(new Set(layers.map((one) => one.replace(/^.*\s/, "")))).toEqual(
    new Set(["stone-house", "quay-yard"]),
  );
  await page
    .getByText(/on quay-yard, edition 1.*on stone-house, edition 1/)
    .first()
    .waitFor();
  await shot(page, "layers-host-card");
}, 120_000);

test("the bench's card says what its edition was sealed in spite of, as long as it is that edition, " +
  "on paper too", async () => {
  const shop = openShop();
  const page = await shop.person(820, 1100);
  await seal(shop.client, smallBook({ says: 61 }), "small-panels", "The example waits for the new gauge.");
  await openBook(page, smallBook({ says: 61 }), "small-panels");
  await page.getByRole("button", { name: "Card", exact: true }).click();
  const says = page.getByText(
    "This edition was sealed with a known fault. The lead’s reason: The example waits for the new gauge.",
  );
  await says.waitFor();
  await shot(page, "layers-host-in-spite");
  await page.emulateMedia({ media: "print" });
  expect(await says.isVisible()).toBe(true);
  await page.emulateMedia({ media: "screen" });
  expect(await pageFaults(page)).toEqual([]);
  // A text that was changed since is a draft of its own.
  await page.getByRole("button", { name: "Sheet", exact: true }).click();
  await findRow(page, "dial house-taper", "house-taper");
  await cell(page, "dial house-taper", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of house-taper" });
  await field.fill("1:19");
  await field.press("Enter");
  await page.getByRole("button", { name: "Card", exact: true }).click();
  await page.locator(".card .card-says").first().waitFor();
  await until(
    () => says.count(),
    (count) => count === 0,
  );
}, 120_000);
