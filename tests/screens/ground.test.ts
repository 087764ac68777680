// A job goes on, and is worked again, on the ground that it was begun on: by a layer that is still being
// written, kept in this browser alone, and by a sealed one, with the network cut and after the tablet has
// lost its copy.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { cell, findRow, jobsWorked, until } from "./support/bench.ts";
import { answerAll, doTheRest, smallChip } from "./support/job.ts";
import { inShop } from "./support/shop.ts";

const openShop = inShop(0);
const patience = 60_000;
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/ground-${name}.png` });
};

async function sign(page: Page): Promise<void> {
  await doTheRest(page);
  await page.getByLabel("Your name").fill("N. Invented");
  await page.getByLabel("Note to the sign-off").fill("Trial");
  await page.getByRole("button", { name: "Sign and lock" }).click();
  await page.getByRole("button", { name: /^Press again: nothing/ }).click();
}

/** What the tablet keeps under a key. */
const kept = (page: Page, store: string, key: string): Promise<unknown> =>
  page.evaluate(
    async ([of, at]) => {
      const opening = indexedDB.open("bevelbook jobs");
      await new Promise((done) => {
        opening.onsuccess = done;
      });
      const reading = opening.result.transaction(of!).objectStore(of!).get(at!);
      await new Promise((done) => {
        reading.onsuccess = done;
      });
      opening.result.close();
      return reading.result as unknown;
    },
    [store, key],
  );

/** From the list: the signed job stays as it is. */
async function beginAnother(page: Page): Promise<void> {
  await page.getByRole("button", { name: /^Jobs on this device/ }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Begin a new job" }).click();
  await page.locator(".question-text").waitFor();
}

/** A layer on the shipped road panels whose bevel is 5 mm wider, accepted on the bench. */
async function layer(page: Page): Promise<void> {
  await page.goto("/");
  await jobsWorked(page);
  await page.locator(".tb-book").click();
  await page
    .locator(".books-side .book-line", { hasText: "opens as a copy of its own" })
    .filter({ hasText: "road-panels" })
    .getByRole("button", { name: /^Begin a layer on it/ })
    .click();
  const form = page.getByRole("form", { name: "A layer on road-panels" });
  await form.getByLabel("Name").fill("north-yard");
  await form.getByLabel("Title").fill("Panels in the north yard");
  await form.getByRole("button", { name: "Begin the layer" }).click();
  await page.locator(".sheet-row.is-under").first().waitFor();
  await jobsWorked(page);
  await findRow(page, "figure bevel-width", "bevel-width");
  await cell(page, "figure bevel-width", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of bevel-width" });
  await field.fill("as-before + 5 mm");
  await field.press("Enter");
  await page.locator('.sheet-row.is-own[data-row="figure bevel-width"]').waitFor();
  await page.getByRole("button", { name: "Accept the change" }).click();
  await page
    .getByText(/^Kept on the host, version/)
    .first()
    .waitFor();
}

const bevelOf = (page: Page): Promise<string> =>
  page.locator(".card-step", { hasText: "Grind the bevel" }).innerText();

test.each([
  [1280, 900],
  [820, 1180],
])(
  "a job by a layer that is kept unsealed in the browser is worked again on the host by the " +
    "same ground, at %i",
  async (width, height) => {
    const shop = openShop();
    const page = await shop.person(width, height);
    await layer(page);
    await page.goto("/job.html?book=north-yard");
    await page.locator(".job-state").waitFor();
    await page.getByRole("textbox", { name: "Name of this job" }).fill("Invented van, quay side");
    await answerAll(page, smallChip);
    // 15 mm by the book underneath, 5 mm more by the yard.
    expect(await bevelOf(page)).toContain("20 mm");
    await sign(page);
    await page.getByText("Worked again: the same numbers.").waitFor();
    const [job] = await until(
      async () => (await shop.client.jobs({ state: "signed" })).jobs,
      (jobs) => jobs[0]?.agreement === "same",
    );
    expect([job?.book, job?.edition]).toEqual(["north-yard", 1]);
    const own = await shop.client.text(job!.print);
    expect(own).toContain("\nbook north-yard, edition 1, amends road-panels, edition 1\n");
    const bundle = (
      await shop.host.database.db
        .selectFrom("texts")
        .select("text")
        .where("print", "=", job!.print)
        .executeTakeFirstOrThrow()
    ).text;
    const texts = (JSON.parse(bundle) as { texts: string[] }).texts;
    // That one book and no other that is at hand on the tablet.
    expect([texts.length, texts[0] === own, texts[1]!.includes("\nbook road-panels, edition 1")]).toEqual([
      2,
      true,
      true,
    ]);

    // The shop seals its own road panels under the same number, with a longer taper.
    const sealed = await shop.client.seal("road-panels", {
      text: texts[1]!.replace("dial house-taper = 1:10,", "dial house-taper = 1:14,"),
      why: "Longer.",
      reason: "Invented for a test.",
    });
    expect(sealed).toHaveProperty("sealed");
    expect(await shop.client.again(job!.id)).toMatchObject({ says: "same", differences: [] });
    // Once the tablet has it, what was signed stays as it is, and a new job goes by it.
    await until(
      () => kept(page, "notes", "sealed editions"),
      (told) => JSON.stringify(told ?? null).includes("1:14"),
    );
    await page.reload();
    await page.getByText("Worked again: the same numbers.").waitFor();
    expect(await bevelOf(page)).toContain("20 mm");
    await beginAnother(page);
    await answerAll(page, smallChip);
    // 1.2 mm at 1:14 runs out 16.8 mm, the next 5 mm is 20 mm, and 5 mm more.
    await until(
      () => bevelOf(page),
      (says) => says.includes("25 mm"),
    );
    await shot(page, `job-${width}`);

    // In the log it reads as what it is, and comes out the same.
    await page.goto("/");
    await page.getByRole("button", { name: "Log", exact: true }).click();
    await page.getByRole("button", { name: /Invented van, quay side/ }).click();
    const record = page.locator(".job-record");
    await record.getByText(/^north-yard, edition 1, not sealed/).waitFor();
    await record.getByRole("button", { name: "Work it again" }).click();
    await record
      .getByText("The same numbers, stops, cautions and steps come out.")
      .waitFor({ timeout: patience });
    expect(await page.locator("body").innerText()).not.toContain('"texts"');
    await shot(page, `log-${width}`);
  },
  300_000,
);

const base = (edition: number, slope: string): string => `book small-base, edition ${edition}
    "A house standard"

ask depth in mm, 1 to 10
    "How deep?"

ask length in mm, 1 to 500
    "How long?"

dial slope = ${slope}, from 1:8 to 1:15
    from practice

figure width in mm = depth run out at slope

step grind "Grind {width} over {length}"
`;
const quay = (edition: number): string =>
  `book quay-panels, edition ${edition}, amends small-base\n    "Quay panels"\n\ninstead figure ` +
  `width = as-before + ${4 + edition} mm\n    from house "invented, 2026"\n`;

const given: Readonly<Record<string, string>> = { "How deep?": "4", "How long?": "120" };

/** Answers the question that is asked now. */
async function give(page: Page): Promise<void> {
  const asked = await page.locator(".question-text").innerText();
  await page.locator(".quantity-number").pressSequentially(given[asked]!);
  await page.locator(".question-reach [type=submit]").click();
  await page.waitForFunction((was) => document.querySelector(".question-text")?.textContent !== was, asked);
}

test("a sealed layer goes on without the network, and comes back from the host with the ground that " +
  "it was sealed upon", async () => {
  const shop = openShop();
  const page = await shop.person(820, 1180);
  const seal = async (book: string, text: string): Promise<void> => {
    expect(
      await shop.client.seal(book, { text, why: "Invented.", reason: "Invented for a test." }),
    ).toHaveProperty("sealed");
  };
  await seal("small-base", base(1, "1:10"));
  await seal("quay-panels", quay(1));
  // The newest base is another by now.
  await seal("small-base", base(2, "1:15"));
  await page.goto("/job.html");
  await page.getByRole("button", { name: /Quay panels/ }).click();
  await give(page);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await until(
    async () => (await shop.client.jobs()).jobs.length,
    (count) => count === 1,
  );

  await shop.down();
  await page.context().setOffline(true);
  await page.reload();
  await give(page);
  // 4 mm at 1:10 is 40 mm, and the yard's 5 mm.
  const step = page.locator(".card-step", { hasText: "Grind" });
  await step.getByText("45 mm").first().waitFor();
  await sign(page);
  await page.getByText("Worked again: the same numbers.").waitFor();

  await page.context().setOffline(false);
  await shop.up();
  await page.reload();
  const [job] = await until(
    async () => (await shop.client.jobs({ state: "signed" })).jobs,
    (jobs) => jobs[0]?.agreement === "same",
  );
  // The next edition is sealed upon the newest base, and the tablet loses the book of its job.
  await seal("quay-panels", quay(2));
  await page.getByText(/^Edition 2 is sealed/).waitFor();
  await page.goto("/sign-in.html");
  await page.evaluate(async () => {
    const opening = indexedDB.open("bevelbook jobs");
    await new Promise((done) => {
      opening.onsuccess = done;
    });
    const writing = opening.result.transaction("books", "readwrite");
    writing.objectStore("books").clear();
    await new Promise((done) => {
      writing.oncomplete = done;
    });
    opening.result.close();
  });
  await page.goto("/job.html");
  await page.getByText("Worked again: the same numbers.").waitFor();
  await step.getByText("45 mm").first().waitFor();
  expect(await kept(page, "books", job!.print)).toMatchObject({ text: quay(1), under: [base(1, "1:10")] });
  await beginAnother(page);
  await give(page);
  await give(page);
  // 60 mm by the newest base, and the yard's 6 mm.
  await step.getByText("66 mm").first().waitFor();
}, 180_000);
