// A shop of some years at the bench: its jobs listed and searched, and two of its editions weighed by the
// jobs of its log, with progress, stopped, gone on, and with a host that goes away half way. The same with
// ten thousand jobs is `npm run bench volume`.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { readBook, compareBooks } from "../../engine/index.ts";
import { deliver } from "../../editor/host/database/job-table.ts";
import { sha256 } from "../../editor/host/database/log-chain.ts";
import { jobEntries } from "../editor/host/support/records.ts";
import { fillShelf, roadEdition } from "../editor/host/support/volume.ts";
import { chance } from "../support/chance.ts";
import { inShop, openBook } from "./support/shop.ts";

const openShop = inShop();
const patience = 120_000;
const [jobs, editions] = [300, 12];
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};

test.each([
  [1280, 900],
  [820, 1100],
])(
  "300 jobs and 12 editions: listed, searched, weighed, stopped and gone on, at %i",
  async (width, height) => {
    const shop = openShop();
    const page = await shop.person(width, height);
    const answers = await fillShelf(shop.host.database, jobs, editions);
    await openBook(page, roadEdition(editions), "road-panels");

    await page.getByRole("button", { name: "Log", exact: true }).click();
    await page.getByText("50 and more, the last changed first.").waitFor();
    await page.getByRole("button", { name: "More jobs" }).click();
    await page.getByText("100 and more, the last changed first.").waitFor();
    // A delivery comes on top of what is read and does not take the reader back to the first page.
    const late = jobEntries(
      chance(3),
      { name: "quay-panels", edition: 1, print: sha256("quay"), sealed: true },
      Date.UTC(2025, 0, 1),
    ).map((entry) => (entry.does === "begin" ? { ...entry, title: "late canopy" } : entry));
    await deliver(shop.host.database, { name: "a tablet" }, late);
    await page.locator(".log-lines li:first-child b", { hasText: "late canopy" }).waitFor();
    await page.getByText("101 and more, the last changed first.").waitFor();
    await page
      .locator(".log-find label", { hasText: /^State/ })
      .locator("select")
      .selectOption("signed");
    await page.getByText("30, the last changed first.").waitFor();
    const title = await page.locator(".log-lines b").first().innerText();
    await page.getByRole("searchbox", { name: "Find in jobs" }).fill(title.toUpperCase());
    await page.getByText("1, the last changed first.").waitFor();
    await page.getByRole("searchbox", { name: "Find in jobs" }).fill("");
    await page.getByText("30, the last changed first.").waitFor();
    await page.locator(".log-lines button").first().click();
    await page.locator(".job-record").getByRole("heading", { name: title }).waitFor();
    // Below thirty rows or beside them, the record is in sight.
    await page.waitForFunction(() => {
      const { top } = document.querySelector(".job-record h3")!.getBoundingClientRect();
      return top >= 0 && top < innerHeight;
    });

    await page.getByRole("button", { name: "Editions", exact: true }).click();
    await page.getByText(`${editions} sealed.`).waitFor({ timeout: patience });
    await page.locator(".editions-field", { hasText: /^This/ }).locator("select").selectOption("sealed 9");
    await page
      .locator(".editions-field", { hasText: /^Held against/ })
      .locator("select")
      .selectOption("sealed 4");
    const status = page.locator(".progress [role=status]");
    await page.getByText("All are weighed.").waitFor({ timeout: patience });

    // The host gives a hundred at once here, and goes away before the third hundred.
    let asked = 0;
    let away = true;
    await page.route("**/api/answers*", async (route) => {
      asked += 1;
      if (away && asked > 2) {
        await route.abort();
        return;
      }
      await route.continue({ url: route.request().url().replace("limit=500", "limit=100") });
    });
    await page.getByLabel("Jobs from the log").selectOption({ label: "all" });
    await page
      .getByText("The shop's host cannot be reached. The 200 jobs that have come are kept here.")
      .waitFor();
    expect(await status.innerText()).toBe("Left off fetching the log: 200 jobs have come.");
    await shot(page, `volume-away-${width}`);
    await page.getByRole("button", { name: "Weigh these 200" }).click();
    await page
      .locator(".weighed-counts", { hasText: / of 20\d jobs laid alongside or from the log/ })
      .waitFor({ timeout: patience });
    await page.getByText("All are weighed.").waitFor({ timeout: patience });
    away = false;
    asked = 0;
    await page.getByLabel("Made-up jobs").selectOption({ label: "at least 1000" });
    await page.getByRole("progressbar", { name: "Jobs weighed" }).waitFor({ timeout: patience });
    // The 200 were not asked for again.
    expect(asked).toBe(1);
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    await page.getByText("Stopped. What is weighed stays.").waitFor({ timeout: patience });
    const [settled, all] = (await page.locator(".progress-count").innerText()).split(" of ").map(Number) as [
      number,
      number,
    ];
    expect(settled).toBeLessThan(all);
    await shot(page, `volume-stopped-${width}`);
    await page.getByRole("button", { name: "Go on", exact: true }).click();
    await page.getByText("All are weighed.").waitFor({ timeout: patience });
    expect(await page.locator(".progress-count").innerText()).toBe(`${all} of ${all}`);

    // It comes out as the engine says it by itself, over the same jobs.
    const weighing = compareBooks(readBook(roadEdition(4)), readBook(roadEdition(9)), {
      logged: answers.map((one, n) => ({ name: `${n}`, answers: one })),
      spread: 0,
    });
    while (!weighing.advance(50));
    const { logged } = weighing.view().counts;
    expect(logged.moved).toBeGreaterThan(100);
    const laid = await page.locator(".weighed-counts").innerText();
    const [, moved, worked] = /(\d+) of (\d+) jobs laid alongside or from the log/
      .exec(laid)!
      .map(Number) as [number, number, number];
    const beside = worked - jobs;
    expect(moved).toBeGreaterThanOrEqual(logged.moved);
    expect(moved).toBeLessThanOrEqual(logged.moved + beside);
    expect(await page.locator(".weighed-job").count()).toBe(12);
    await shot(page, `volume-weighed-${width}`);
  },
  400_000,
);
