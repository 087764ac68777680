// The shop's log at the bench, and sealed editions on the technician's page: hundreds of editions and
// thousands of jobs listed, searched and weighed, signed cards worked again, the log verified, and an edition
// sealed while a job is open.
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import type { BookRef, CardRecord } from "../../core/record.ts";
import { cardOf } from "../../core/compare-card.ts";
import { deliver } from "../../editor/host/database/job-table.ts";
import { seal } from "../../editor/host/database/editions.ts";
import { sha256 } from "../../editor/host/database/log-chain.ts";
import { engineVersion, readBook, showJob, workJob } from "../../engine/index.ts";
import { smallBook } from "../editor/host/support/books.ts";
import { jobEntries } from "../editor/host/support/records.ts";
import { chance } from "../support/chance.ts";
import { axeFaults } from "./support/axe.ts";
import { until } from "./support/bench.ts";
import type { TestShop } from "./support/shop.ts";
import { inShop, openBook } from "./support/shop.ts";

const openShop = inShop();
const patience = 60_000;
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};

const refOf = (text: string, edition: number): BookRef => ({
  name: "small-panels",
  edition,
  print: sha256(text),
  sealed: true,
});

/**
 * Editions put on the shelf without the proof that a sealing runs: the list is looked at, not the sealing.
 */
async function shelve(shop: TestShop, from: number, to: number): Promise<void> {
  for (let number = from; number <= to; number += 1) {
    const text = smallBook({ edition: number, taper: 10 + (number % 3), more: `-- edition ${number}\n` });
    await seal(shop.host.database, "Ilse Marrow", {
      book: "small-panels",
      number,
      title: "Small panels",
      print: sha256(text),
      text,
      stands: [],
      why: number === 77 ? "The winter taper." : `Change ${number}.`,
      standing: { goals: 4, proved: 4, done: true, engine: engineVersion },
      faults: [],
    });
  }
}

test.each([
  [1280, 900],
  [820, 1100],
])(
  "200 editions and 2,000 jobs are listed, searched and weighed, at %i",
  async (width, height) => {
    const shop = openShop();
    const page = await shop.person(width, height);
    await shelve(shop, 1, 200);
    const luck = chance(7);
    const text = smallBook({ edition: 200, taper: 10 + (200 % 3), more: "-- edition 200\n" });
    const answers = { thickness: "3 mm" };
    const card = cardOf(showJob(workJob(readBook(text), answers)), engineVersion);
    const other: CardRecord = {
      ...card,
      values: card.values.map((one) => (one.name === "bevel" ? { ...one, text: "99 mm" } : one)),
    };
    const signed = [
      jobEntries(luck, refOf(text, 200), 2_000_000_000_000, card, answers),
      jobEntries(luck, refOf(text, 200), 2_000_000_100_000, other, answers),
    ];
    const names = ["Blue canopy, order 1", "Red canopy, order 2"];
    await deliver(
      shop.host.database,
      { name: "tablet" },
      signed.flatMap((entries, n) =>
        entries.map((entry) => (entry.does === "begin" ? { ...entry, title: names[n]! } : entry)),
      ),
    );
    for (let n = 0; n < 20; n += 1)
      await deliver(
        shop.host.database,
        { name: "tablet" },
        Array.from({ length: 100 }, () =>
          jobEntries(luck, refOf(text, 200), 1_700_000_000_000 + n * 1_000_000),
        ).flat(),
      );
    shop.host.rework.poke();
    await shop.host.rework.idle();

    await openBook(page, smallBook({ edition: 200, taper: 14 }), "small-panels");
    await page.getByRole("button", { name: "Editions", exact: true }).click();
    await page.getByText("200 sealed.").waitFor({ timeout: patience });
    await page.getByRole("searchbox", { name: "Find in editions" }).fill("winter taper");
    await page.getByText("200 sealed, 1 found.").waitFor();
    expect(await page.locator(".sealed-number b").allInnerTexts()).toEqual(["77"]);
    await page
      .locator(".sealed-line")
      .getByRole("button", { name: /^Hold the text against it/ })
      .click();
    await page.getByLabel("Jobs from the log").selectOption({ label: "all" });
    await page
      .locator(".weighed-counts", { hasText: / of 200[0-9] jobs laid alongside or from the log/ })
      .waitFor({ timeout: 120_000 });
    await page.getByText("All are weighed.").waitFor({ timeout: 120_000 });
    await page.locator(".weighed-from", { hasText: "job from the log" }).first().waitFor();
    // Two sealed ones against each other.
    await page.locator(".editions-field", { hasText: /^This/ }).locator("select").selectOption("sealed 200");
    await page
      .locator(".editions-field", { hasText: /^Held against/ })
      .locator("select")
      .selectOption("sealed 199");
    await page.locator(".weighed-rules", { hasText: /1:11 becomes 1:12/ }).waitFor({ timeout: 120_000 });

    await page.getByRole("button", { name: "Log", exact: true }).click();
    await page.getByText("50 and more, the last changed first.").waitFor();
    await page.getByRole("button", { name: "More jobs" }).click();
    await page.getByText("100 and more, the last changed first.").waitFor();
    await page.getByRole("searchbox", { name: "Find in jobs" }).fill("canopy");
    await page.getByText("2, the last changed first.").waitFor();
    await page.getByRole("button", { name: /Blue canopy/ }).click();
    const record = page.locator(".job-record");
    await record.getByRole("button", { name: "Work it again" }).click();
    await record
      .getByText("The same numbers, stops, cautions and steps come out.")
      .waitFor({ timeout: patience });
    await page.getByRole("button", { name: /Red canopy/ }).click();
    await record.getByRole("heading", { name: "Red canopy, order 2" }).waitFor();
    await record.getByRole("button", { name: "Work it again" }).click();
    await record.getByText("1 thing comes out otherwise.").waitFor({ timeout: patience });
    expect(await record.locator(".job-again").innerText()).toMatch(/bevel\s+99 mm\s+36 mm/);
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `log-jobs-${width}`);

    await page.getByRole("button", { name: "Who did what" }).click();
    await page.getByRole("button", { name: "Verify the log" }).click();
    await page.getByText(/^The log is whole: \d+ lines/).waitFor({ timeout: patience });
    await page.getByLabel(/^A print of the newest line/).fill("0".repeat(64));
    await page.getByRole("button", { name: "Verify the log" }).click();
    await page.getByText("The log does not hold.").waitFor({ timeout: patience });
    expect(await axeFaults(page)).toEqual([]);
    await shot(page, `log-lines-${width}`);

    await page.getByRole("button", { name: "Jobs", exact: true }).click();
    await page.getByRole("searchbox", { name: "Find in jobs" }).fill("canopy");
    await page.getByRole("button", { name: /Blue canopy/ }).click();
    await record.getByRole("button", { name: "Lay it alongside in the sheet" }).click();
    await page.locator(".hung-tag", { hasText: "Blue canopy, order 1" }).waitFor();
  },
  300_000,
);

test("the technician's page takes a sealed edition for new jobs and leaves the open one " +
  "with its own", async () => {
  const shop = openShop();
  const page = await shop.person(820, 1180);
  expect(await shop.client.seal("small-panels", { text: smallBook(), why: "First." })).toHaveProperty(
    "sealed",
  );
  await page.goto("/job.html");
  const choice = page.getByRole("button", { name: /Small panels/ });
  await choice.waitFor();
  expect(await choice.innerText()).toContain("sealed by the shop");
  await choice.click();
  await page.locator(".quantity-number").pressSequentially("3");
  await page.locator(".question-reach [type=submit]").click();
  await page.getByText("Grind a bevel of 60 mm").first().waitFor();

  const told = await shop.client.seal("small-panels", {
    text: smallBook({ edition: 2, taper: 22, says: 61 }),
    why: "Longer.",
    reason: "The example is for the old taper.",
  });
  expect(told).toHaveProperty("sealed");
  await page
    .getByText("Edition 2 is sealed. This job stays with edition 1; new jobs go by edition 2.")
    .waitFor();
  await page.getByText("Grind a bevel of 60 mm").first().waitFor();
  await shot(page, "job-sealed");
  await page.getByRole("button", { name: "Read", exact: true }).click();
  await page.getByRole("button", { name: "Begin a new job" }).click();
  await page.locator(".job-page-next button").click();
  await page.locator(".quantity-number").pressSequentially("3");
  await page.locator(".question-reach [type=submit]").click();
  await page.getByText("Grind a bevel of 66 mm").first().waitFor();
  // What it was sealed in spite of stands on the technician's page as well.
  await page.getByText("The lead’s reason: The example is for the old taper.").waitFor();
  const jobs = await (async () => {
    for (;;) {
      const { jobs: found } = await shop.client.jobs();
      if (found.length === 2) return found;
      await new Promise((resolve) => {
        setTimeout(resolve, 300);
      });
    }
  })();
  expect(jobs.map((job) => job.edition).sort()).toEqual([1, 2]);
}, 120_000);

test("where the very text that a tablet has is what the shop sealed, its jobs are by the " +
  "sealed edition", async () => {
  const shop = openShop();
  const page = await shop.person(820, 1180);
  const text = readFileSync(new URL("../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  await seal(shop.host.database, "Ilse Marrow", {
    book: "road-panels",
    number: 1,
    title: "Road panels",
    print: sha256(text),
    text,
    stands: [],
    why: "First.",
    standing: { goals: 1, proved: 1, done: true, engine: engineVersion },
    faults: [],
  });
  await page.goto("/job.html?book=road-panels");
  await page.locator(".question-text").waitFor();
  // The shop's editions come after the first question; what is kept of them on the device tells that they
  // have.
  const kept = () =>
    page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const opening = indexedDB.open("bevelbook jobs");
          opening.onsuccess = () => {
            const reading = opening.result.transaction("notes").objectStore("notes").get("sealed editions");
            reading.onsuccess = () => {
              opening.result.close();
              resolve((reading.result as { books: unknown[] } | undefined)?.books.length ?? 0);
            };
          };
        }),
    );
  await until(kept, (count) => count === 1);
  await page.waitForTimeout(1000);
  await page.locator(".question .choice").first().click();
  const [job] = await until(
    async () => (await shop.client.jobs()).jobs,
    (jobs) => jobs.length === 1,
  );
  expect((await shop.client.job(job!.id)).job.book).toEqual({
    name: "road-panels",
    edition: 1,
    print: sha256(text),
    sealed: true,
  });
}, 60_000);
