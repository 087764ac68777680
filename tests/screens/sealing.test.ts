// Editions sealed from the bench on a real host: without faults, in spite of faults for a written reason that
// stays, and seen elsewhere at once.
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { smallBook } from "../editor/host/support/books.ts";
import { axeFaults } from "./support/axe.ts";
import { inShop, openBook } from "./support/shop.ts";

const openShop = inShop();
const patience = 60_000;

const editions = (page: Page): Promise<void> =>
  page.getByRole("button", { name: "Editions", exact: true }).click();
const lines = (page: Page) => page.locator(".sealed-line");

const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};

async function beginSealing(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Seal the next edition" }).click();
}

test.each([
  [1280, 900],
  [820, 1100],
])(
  "sealed without a fault, then in spite of one for a reason that stays, at %i",
  async (width, height) => {
    const shop = openShop();
    const page = await shop.person(width, height);
    await openBook(page, smallBook(), "small-panels");
    await editions(page);
    await page.getByText("None is sealed yet.").waitFor();

    await beginSealing(page);
    await page.getByText(/The checker finds no fault.*goals are proved/).waitFor({ timeout: patience });
    await page.getByRole("button", { name: "Seal edition 1" }).click();
    expect(
      await page
        .getByLabel("What is new, for those who work by it")
        .evaluate(
          (field) => (field as unknown as { validity: { valueMissing: boolean } }).validity.valueMissing,
        ),
    ).toBe(true);
    await page.getByLabel("What is new, for those who work by it").fill("The house's bevel, written down.");
    await shot(page, `seal-clean-${width}`);
    await page.getByRole("button", { name: "Seal edition 1" }).click();
    await lines(page).first().waitFor({ timeout: patience });
    expect(await lines(page).first().innerText()).toMatch(
      /1\s[\s\S]*The house's bevel, written down\.[\s\S]*Sealed by this desk[\s\S]*all \d+ goals proved/,
    );
    expect(await lines(page).first().innerText()).not.toContain("Sealed with");

    // The worked example now says what the book does not give.
    await page.getByLabel("A book's file").setInputFiles({
      name: "small-panels.bevel",
      mimeType: "text/plain",
      buffer: Buffer.from(smallBook({ says: 61 })),
    });
    await page.getByText("1 sealed.").waitFor();
    await beginSealing(page);
    await page.getByText(/^Example fails/).waitFor();
    await page.getByLabel("What is new, for those who work by it").fill("Tried on the thin ones.");
    await page.getByRole("button", { name: "Seal edition 2" }).click();
    await page.getByText(/Write why it is sealed in spite of that/).waitFor();
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `seal-faulty-${width}`);
    await page.getByLabel(/^Why it is sealed in spite of/).fill("The example waits for the new gauge.");
    await page.getByRole("button", { name: "Seal edition 2" }).click();
    await page.locator(".sealed-line.is-faulty").waitFor({ timeout: patience });
    expect(await lines(page).first().innerText()).toMatch(
      /Sealed with 1 fault: The example waits for the new gauge\./,
    );
    // Kept for good on the host, with the number in the text that it was sealed under.
    const kept = await shop.client.edition("small-panels", 2);
    expect([kept.text.includes("edition 2"), kept.reason, kept.faults.map((one) => one.is)]).toEqual([
      true,
      "The example waits for the new gauge.",
      ["example"],
    ]);

    // Held against edition 1: the text on the bench says otherwise only where it does.
    await lines(page)
      .nth(1)
      .getByRole("button", { name: /^Hold the text against it/ })
      .click();
    await page.getByText("All are weighed.").waitFor({ timeout: patience });
    expect(await page.locator(".weighed-rules").innerText()).toMatch(/thin/);
    await page
      .locator(".sealed-line")
      .first()
      .getByRole("button", { name: /print\s+of edition 2/ })
      .click();
    expect(await page.locator(".sealed-print").innerText()).toBe(kept.standing.fingerprint);
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `sealed-${width}`);
  },
  240_000,
);

test("an edition sealed at one desk stands at the other at once", async () => {
  const shop = openShop();
  const [ilse, odo] = [await shop.person(), await shop.person()];
  await openBook(ilse, smallBook(), "small-panels");
  await openBook(odo, smallBook(), "small-panels");
  await editions(odo);
  await odo.getByText("None is sealed yet.").waitFor();
  await editions(ilse);
  await beginSealing(ilse);
  await ilse.getByLabel("What is new, for those who work by it").fill("First.");
  await ilse.getByRole("button", { name: "Seal edition 1" }).click();
  await lines(odo).first().waitFor({ timeout: patience });
  await odo.getByText("Edition 1 of small-panels is sealed, by this desk.").waitFor();
}, 120_000);

test("while the host proves a large book, the form says how far it is", async () => {
  const page = await openShop().person(820, 1100);
  const road = readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  await openBook(page, road, "road-panels");
  await editions(page);
  await beginSealing(page);
  await page.getByLabel("What is new, for those who work by it").fill("The first edition.");
  await page.getByRole("button", { name: "Seal edition 1" }).click();
  await page.getByText(/The host proves the book: \d+ of \d+ settled\./).waitFor({ timeout: patience });
  await shot(page, "seal-progress");
  expect(await axeFaults(page)).toEqual([]);
  await page
    .locator(".sealed-line, .seal-trouble")
    .first()
    .waitFor({ timeout: 3 * patience });
}, 240_000);
