// One draft on the shop's host, two people with a browser each: they are told of each other, what either
// types reaches both, a statement that both changed waits for a choice, an older version comes back, and a
// host that is away gets it all later.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { smallBook } from "../editor/host/support/books.ts";
import { axeFaults } from "./support/axe.ts";
import { cell, findRow, until } from "./support/bench.ts";
import { inShop, openBook } from "./support/shop.ts";

const openShop = inShop();
const patience = 30_000;

const kept = (page: Page) => page.locator(".tb-does .label");
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};

/** Changes a rule in the sheet, as a person does. */
async function setRule(page: Page, row: string, change: (rule: string) => string): Promise<void> {
  const name = row.split(" ")[1]!;
  await findRow(page, row, name);
  await cell(page, row, "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: `Rule of ${name}` });
  await field.fill(change(await field.inputValue()));
  await field.press("Enter");
}
const ruleOf = (page: Page, row: string): Promise<string> => cell(page, row, "rule").innerText();
const shows = (page: Page, row: string, wanted: RegExp): Promise<string> =>
  until(
    () => ruleOf(page, row),
    (rule) => wanted.test(rule),
    patience,
  );

test.each([
  [1280, 900],
  [820, 1100],
])(
  "two at one draft are told of each other and lose nothing, at %i",
  async (width, height) => {
    const shop = openShop();
    const [ilse, odo] = [await shop.person(width, height), await shop.person(width, height)];
    await openBook(ilse, smallBook(), "small-panels");
    await kept(ilse).getByText("Kept in this browser; not on the host yet").waitFor();
    await setRule(ilse, "dial house-taper", (rule) => rule.replace("1:20", "1:21"));
    await kept(ilse).getByText("Kept on the host, version 1").waitFor();

    await openBook(odo, smallBook(), "small-panels");
    await odo.getByText(/The host has another draft of small-panels: version 1/).waitFor();
    await odo.getByRole("button", { name: "Go on with the host’s draft" }).click();
    await kept(odo).getByText("Kept on the host, version 1").waitFor();
    await findRow(odo, "dial house-taper", "house-taper");
    await shows(odo, "dial house-taper", /1:21/);
    for (const page of [ilse, odo])
      await page.getByText("Another window of this desk has the draft of small-panels open too").waitFor();

    // What one types stands at the other.
    await setRule(odo, "dial house-taper", (rule) => rule.replace("1:21", "1:22"));
    await shows(ilse, "dial house-taper", /1:22/);

    // Odo's network goes; both change the same statement, and one more each.
    await odo.context().setOffline(true);
    await setRule(odo, "dial house-taper", (rule) => rule.replace("1:22", "1:24"));
    await setRule(odo, "ask thickness", (rule) => rule.replace("2 to 8", "2 to 7"));
    await kept(odo).getByText("Kept in this browser; the host does not answer").waitFor();
    await setRule(ilse, "dial house-taper", (rule) => rule.replace("1:22", "1:23"));
    await setRule(ilse, "step grind", (rule) => rule.replace("Grind a bevel", "Sand a bevel"));
    await until(
      () => shop.client.draft("small-panels"),
      (draft) => draft.text.includes("1:23") && draft.text.includes("Sand a bevel"),
      patience,
    );
    await odo.context().setOffline(false);
    await odo.getByRole("button", { name: "Look at both" }).click({ timeout: patience });
    const both = odo.locator(".clash-side");
    expect(await both.locator(".clash-text").allInnerTexts()).toEqual([
      expect.stringContaining("1:23"),
      expect.stringContaining("1:24"),
    ]);
    expect(await both.getByRole("button", { name: "Let this stand" }).isDisabled()).toBe(true);
    expect(await axeFaults(odo)).toEqual([]);
    await shot(odo, `clash-${width}`);
    await both.getByLabel("As it stands here").check();
    await both.getByRole("button", { name: "Let this stand" }).click();
    const text = (
      await until(
        () => shop.client.draft("small-panels"),
        (draft) => draft.text.includes("1:24"),
        patience,
      )
    ).text;
    expect([text.includes("1:23"), text.includes("2 to 7"), text.includes("Sand a bevel")]).toEqual([
      false,
      true,
      true,
    ]);
    await findRow(ilse, "dial house-taper", "house-taper");
    await shows(ilse, "dial house-taper", /1:24/);

    // An older version comes back as a new one.
    const before = (await shop.client.draft("small-panels")).version;
    await ilse.locator(".tb-book").click();
    await ilse.getByRole("button", { name: /^History of this draft/ }).click();
    const first = ilse.locator(".history-list > li").last();
    await first.getByRole("button", { name: /^Look at it/ }).click();
    await first.locator("pre").waitFor();
    expect(await first.locator("pre").innerText()).toContain("1:21");
    expect(await axeFaults(ilse)).toEqual([]);
    await shot(ilse, `history-${width}`);
    await first.getByRole("button", { name: /^Take it back/ }).click();
    await until(
      () => shop.client.draft("small-panels"),
      (draft) => draft.version > before && draft.text.includes("1:21"),
      patience,
    );
    await findRow(odo, "dial house-taper", "house-taper");
    await shows(odo, "dial house-taper", /1:21/);
    const again = ilse.locator(".history-list > li", { hasText: `Version ${before}` });
    await again.getByRole("button", { name: /^Hold the text against it/ }).click();
    await ilse.locator(".weighed-rules").waitFor({ timeout: patience });
    expect(await ilse.locator(".weighed-rules").innerText()).toMatch(/dial house-taper/);
  },
  240_000,
);

test("a host that is away is said, and has everything once it is back", async () => {
  const shop = openShop();
  const page = await shop.person();
  await openBook(page, smallBook(), "small-panels");
  await setRule(page, "dial house-taper", (rule) => rule.replace("1:20", "1:21"));
  await kept(page).getByText("Kept on the host, version 1").waitFor();
  await shop.down();
  await setRule(page, "dial house-taper", (rule) => rule.replace("1:21", "1:22"));
  await kept(page).getByText("Kept in this browser; the host does not answer").waitFor();
  await shop.up();
  await kept(page).getByText("Kept on the host, version 2").waitFor({ timeout: patience });
  expect((await shop.client.draft("small-panels")).text).toContain("1:22");
}, 120_000);
