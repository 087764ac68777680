// The drawings on the technician's page and on paper, in a real browser: labels as they are really set lie on
// nothing, the sheet that fits is shown, nothing is wider than the screen, and on paper they stand on sheets
// of their own where they are wanted.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { inBrowser, until } from "./support/bench.ts";
import { answerAll, openJob } from "./support/job.ts";
import type { Given } from "./support/job.ts";

const browser = inBrowser();

/** A hole in a hand-laid panel that is laid up with four plies and patched: the worked example `laid-up`. */
const laidUp: Readonly<Record<string, Given>> = {
  "How far does the damage go?": { pick: "through" },
  "Damage at its longest": { number: "170" },
  "Damage at its widest": { number: "120" },
  "Panel thickness at the break": { number: "3,2" },
  "From the damage to the nearest edge": { number: "200" },
  "Does the spot flex or shake": { pick: "no" },
  "Can you reach the back": { pick: "yes" },
  "What does the part do?": { pick: "body" },
  "What lies behind the damage": { pick: "clear" },
  "What shows in the broken edge": { pick: "glass-fibre" },
  "How does the back of the panel feel": { pick: "rough" },
  "What do the strands in the broken edge look like": { pick: "layered" },
  "Air at the panel": { number: "20" },
  "The panel itself": { number: "20" },
  "Relative humidity": { number: "50" },
  "Coldest temperature": { number: "15" },
  "Least liquid peroxide": { number: "1" },
  "Most liquid peroxide": { number: "2" },
};

async function onCard(page: Page): Promise<void> {
  await openJob(page);
  await answerAll(page, laidUp);
  await page.locator(".draws .draw-of-map svg").first().waitFor({ state: "attached" });
  await page.locator(".draws .draw-of-chart svg").first().waitFor({ state: "attached" });
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
}

/**
 * Labels of the drawings that are shown, two by two, that really lie on one another; and labels that stick
 * out of the screen.
 */
const clashes = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    for (const sheet of document.querySelectorAll<SVGSVGElement>(".draws svg")) {
      if (sheet.getBoundingClientRect().width === 0) continue;
      const texts = [...sheet.querySelectorAll("text")].map((one) => {
        const { left, right, top, bottom, height } = one.getBoundingClientRect();
        // A line of writing takes more than its letters: what stands above capitals and below the foot is let
        // go.
        return {
          says: one.textContent ?? "",
          left,
          right,
          top: top + height * 0.22,
          bottom: bottom - height * 0.2,
        };
      });
      texts.forEach((a, i) => {
        if (a.right > document.documentElement.clientWidth + 1 || a.left < -1)
          found.push(`${a.says} leaves the screen`);
        for (const b of texts.slice(i + 1))
          if (
            a.left < b.right - 0.5 &&
            b.left < a.right - 0.5 &&
            a.top < b.bottom - 0.5 &&
            b.top < a.bottom - 0.5
          )
            found.push(`${a.says} on ${b.says}`);
      });
    }
    return found;
  });

test.each([
  [360, "narrow"],
  [820, "wide"],
] as const)(
  "at %d px the card shows its drawings on the %s sheet, and no label lies on another",
  async (width, sheet) => {
    const page = await browser.page(width, 1100);
    await onCard(page);
    const draws = page.locator(".draws");
    expect(await draws.locator("figure").count()).toBe(7);
    for (const one of await draws.locator("figure").all()) {
      expect(await one.locator("svg:visible").count()).toBe(1);
      expect(await one.locator("svg:visible").getAttribute("class")).toContain(`is-${sheet}`);
    }
    expect(await clashes(page)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
    // Small writing is still writing: eleven pixels at least.
    const least = await page.evaluate(() =>
      Math.min(
        ...[...document.querySelectorAll<SVGTextElement>(".draws svg text")]
          .filter((one) => one.getBoundingClientRect().width > 0)
          .map((one) => Number(one.getAttribute("font-size")) * one.ownerSVGElement!.getScreenCTM()!.a),
      ),
    );
    expect(least).toBeGreaterThanOrEqual(10.9);
    // In words on demand.
    const section = draws.locator(".draw-of-section");
    await section.getByText("The drawing in words").click();
    expect(await section.locator("details li").allInnerTexts()).toEqual(
      expect.arrayContaining(["bevel: 35 mm.", "damage: 170 mm."]),
    );
  },
);

test("a question shows where it is measured", async () => {
  const page = await browser.page(390, 844);
  await openJob(page);
  await answerAll(page, laidUp, "Panel thickness");
  const sign = page.locator(".question .draw-ask");
  expect(await sign.locator("figcaption").innerText()).toMatch(/face to face/);
  expect(await sign.locator("svg").getAttribute("role")).toBe("img");
});

test(
  "on paper the drawings follow the card on sheets of their own, where they are wanted, each " +
    "whole and as wide as 170 mm",
  async () => {
    const page = await browser.page(820, 1180);
    await onCard(page);
    const sheets = async (): Promise<number> =>
      (await page.pdf({ format: "A4" })).toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)!.length;
    const alone = await sheets();
    await page.getByRole("checkbox", { name: "Print them with the card" }).check();
    const both = await until(sheets, (count) => count > alone);
    expect(both - alone).toBeLessThanOrEqual(4);
    await page.emulateMedia({ media: "print" });
    await page.setViewportSize({ width: 694, height: 980 });
    const widths = await page.evaluate(() =>
      [...document.querySelectorAll(".draws svg")]
        .filter((one) => one.getBoundingClientRect().width > 0)
        .map(
          (one) =>
            [one.getAttribute("class"), Math.round(one.getBoundingClientRect().width / (96 / 25.4))] as const,
        ),
    );
    for (const [sheet, mm] of widths) {
      expect(sheet).toContain("is-wide");
      expect(mm).toBeGreaterThanOrEqual(155);
      expect(mm).toBeLessThanOrEqual(170);
    }
    expect(await clashes(page)).toEqual([]);
  },
);
