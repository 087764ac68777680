// A technician does a job: answers as read off the tape, the card, a reason for a number on it, paper; and is
// stopped where the book stops.
import { expect, inject, test } from "vitest";
import { pageSize } from "../../editor/build/page-size.ts";
import { inBrowser, until } from "./support/bench.ts";
import { bytesOf } from "./support/first-visit.ts";
import { answerAll, answerOne, openJob, question, smallChip } from "./support/job.ts";

const browser = inBrowser();

test("answers in inches, fractions and °F lead to the card", async () => {
  const page = await browser.page(820, 1180);
  await openJob(page);
  await answerAll(page, smallChip);
  const card = page.getByRole("region", { name: "Job card" });
  expect(await card.innerText()).toContain("Ready");
  const steps = card.locator(".card-step");
  expect(await steps.count()).toBeGreaterThanOrEqual(8);
  // 1.2 mm at 1:10 runs out 12 mm, the next 5 mm is 15 mm.
  expect(await steps.allInnerTexts()).toEqual(expect.arrayContaining([expect.stringMatching(/15 mm/)]));
  expect(await card.locator(".card-rests").innerText()).toMatch(/1\/8 inch|3\.175 mm|3\.2 mm/);
  await steps.getByRole("button", { name: "15 mm: why?" }).first().click();
  const why = page.getByRole("dialog", { name: "Why bevel-width" });
  await why.locator(".why-of").waitFor();
  expect(await why.innerText()).toMatch(/run-out/);
  await page.keyboard.press("Escape");
  await why.waitFor({ state: "hidden" });
  // In US units the same card reads otherwise.
  await page.getByRole("button", { name: "Settings" }).click();
  await page.getByRole("radio", { name: "US" }).check();
  await until(
    () => card.innerText(),
    (says) => /inch/.test(says) && /°F/.test(says),
  );
});

test("an answer that cannot be is told why, and the likely unit is offered", async () => {
  const page = await browser.page(390, 844);
  await openJob(page);
  await answerAll(page, smallChip, "Panel thickness");
  await page.getByRole("radio", { name: "inch", exact: true }).check();
  await page.locator(".quantity-number").fill("3");
  await page.getByRole("button", { name: "Take this answer" }).click();
  await page.getByRole("alert").getByText("more than 12 mm").waitFor();
  await page.getByRole("button", { name: "It is 3 mm" }).click();
  await answerOne(page, { number: "" });
  await until(
    () => question(page),
    (says) => !says.startsWith("Panel thickness"),
  );
  expect(await page.locator(".ask-row.is-answered", { hasText: "Panel thickness" }).innerText()).toContain(
    "3 mm",
  );
});

test("a part that carries load is stopped at once: no steps, and the reason", async () => {
  const page = await browser.page(390, 844);
  await openJob(page);
  // What can stop the work at once settles most, so it is asked first.
  await until(
    () => question(page),
    (says) => says === "What does the part do?",
  );
  await answerOne(page, { pick: "load-bearing" });
  const card = page.getByRole("region", { name: "Job card" });
  await card.locator(".card-stops").waitFor();
  expect(await card.locator(".card-stops").innerText()).toMatch(/Stop/);
  expect(await card.locator(".card-stops").innerText()).toMatch(/licen[sc]ed/i);
  expect(await card.locator(".card-step").count()).toBe(0);
  await until(
    () => page.locator(".job-state").innerText(),
    (says) => says.includes("Stopped") && says.includes("the steps are withheld"),
  );
});

// Its steps do not fit on one sheet. `paper.test.ts` sees to it that no sheet is used for the foot alone.
test("the card of a filler job prints on two sheets of A4 at most, and of Letter", async () => {
  const page = await browser.page(820, 1180);
  await openJob(page);
  await answerAll(page, smallChip);
  for (const format of ["A4", "Letter"]) {
    const paper = (await page.pdf({ format })).toString("latin1");
    expect(paper.match(/\/Type\s*\/Page\b(?!s)/g)?.length, `sheets of ${format}`).toBeLessThanOrEqual(2);
  }
});

test("the job page carries nothing of the text face, and stays under its size", async () => {
  const page = await browser.page();
  const scripts: Promise<readonly [string, string]>[] = [];
  page.on("response", (answer) => {
    if (/\.js$/.test(answer.url())) scripts.push(answer.text().then((text) => [answer.url(), text]));
  });
  await openJob(page);
  await answerAll(page, smallChip);
  const loaded = await Promise.all(scripts);
  expect(loaded.length).toBeGreaterThan(1);
  for (const [address, text] of loaded) {
    expect(address).not.toMatch(/text-view|editor\.worker/);
    expect(text).not.toMatch(/monaco-editor|vs\/editor/);
  }
  // What the page loads is what is counted.
  const { files, all } = pageSize(inject("folder"), "job.html");
  for (const [address] of loaded)
    expect(files.map((file) => file.name)).toContain(new URL(address).pathname.slice(1));
  // All together, those parts included that a job may never need (Spanish, photographs, the sign-off, the
  // page kept offline): a third more than the first question's, so that a first visit over a slow line of 1
  // Mbit/s has all of it within two seconds.
  expect(all.brotli).toBeLessThan(200_000);
});

test.each(["en-US", "es-ES"])(
  "up to the first question a browser in %s is sent less than 150 kB of page",
  async (locale) => {
    const { files } = pageSize(inject("folder"), "job.html");
    const { sent } = await browser.visit(locale);
    const before = sent.filter((one) => one.first && /\.(js|css|html)$/.test(one.name));
    // A browser takes brotli over https and from its own machine; else it is sent gzip, and that is weighed
    // by the bench.
    for (const one of before) expect(one.packed, one.name).toBe("br");
    expect(bytesOf(inject("folder"), before)).toBeLessThan(150_000);
    // What is told of the build is what the browser asks for, no less; another language than English comes on
    // top.
    const told = files
      .filter((file) => file.first)
      .map((file) => file.name)
      .sort();
    expect(
      [...new Set(before.map((one) => one.name))].filter((name) => !/^assets\/es-/.test(name)).sort(),
    ).toEqual(told);
    expect(before.some((one) => /^assets\/es-/.test(one.name))).toBe(locale === "es-ES");
    // The rest follows by itself, reasons included, for a panel without a network.
    for (const part of [/^assets\/lazy-parts-.*\.js$/, /^assets\/panel-.*\.js$/, /^assets\/job-answers-/])
      expect(
        sent.some((one) => !one.first && part.test(one.name)),
        String(part),
      ).toBe(true);
  },
);
