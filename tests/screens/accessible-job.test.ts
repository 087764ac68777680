// The job page without serious or critical faults by the axe rules, at three widths in both languages.
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { inBrowser } from "./support/bench.ts";
import { answerAll, answerOne, openJob, smallChip } from "./support/job.ts";

const browser = inBrowser();
const widths = [1280, 820, 390] as const;
const languages = ["en-US", "es-MX"] as const;

test.each(widths.flatMap((width) => languages.map((language) => [width, language] as const)))(
  "the job page at %i px in %s: a choice, a measure, the card, a reason, what changes it, settings, a stop",
  async (width, language) => {
    const page = await (await browser.profile(width, 900, language)).newPage();
    await openJob(page);
    expect(await axeFaults(page), "choice").toEqual([]);
    await answerAll(page, smallChip, "Damage at its longest");
    await page.getByRole("radio", { name: "inch", exact: true }).check();
    expect(await axeFaults(page), "measure").toEqual([]);
    await answerAll(page, smallChip);
    expect(await axeFaults(page), "card").toEqual([]);
    await page.locator(".mix-number").first().fill("25");
    await page.locator(".used-row.is-ready .button").first().click();
    await page.locator(".step-wait .button").first().click();
    await page.locator(".timer").waitFor();
    expect(await axeFaults(page), "at the panel").toEqual([]);
    await page.locator(".record-jobs").click();
    await page.locator(".job-list-row").first().waitFor();
    expect(await axeFaults(page), "list of jobs").toEqual([]);
    await page.locator(".job-list-head .button").click();
    await page.locator(".card-step .piece-asks").first().click();
    await page.getByRole("dialog").locator(".why-of").waitFor();
    expect(await axeFaults(page), "why").toEqual([]);
    await page.locator(".why-sheet .pick-one-stop").last().click();
    await page.locator(".what-changes .ask-row").first().waitFor();
    expect(await axeFaults(page), "what changes it").toEqual([]);
    await page.keyboard.press("Escape");
    await page.locator(".page-head-line button").last().click();
    await page.locator(".page-settings").waitFor();
    expect(await axeFaults(page), "settings").toEqual([]);
    await page
      .locator(".card-rests div", { hasText: "What does the part do?" })
      .getByRole("button", { name: /^(Change|Cambiar)/ })
      .click();
    await answerOne(page, { pick: "load-bearing" });
    await page.locator(".card-stops").waitFor();
    expect(await axeFaults(page), "stop").toEqual([]);
  },
  120_000,
);
