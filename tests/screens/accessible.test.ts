// The workbench without serious or critical faults by the axe rules, at three widths.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { axeFaults } from "./support/axe.ts";
import { cell, face, findRow, inBrowser, jobCell, openBench, openText } from "./support/bench.ts";

const browser = inBrowser();
const widths = [1280, 820, 390] as const;

/** Buttons and fields at the head of the page that lie on one another. */
const onOneAnother = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const all = [...document.querySelectorAll(".title-block button, .title-block select")]
      .map((one) => ({ one, box: one.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0);
    return all.flatMap(({ one, box: a }, n) =>
      all
        .slice(n + 1)
        .flatMap(({ one: other, box: b }) =>
          one.contains(other) ||
          a.right - 1 <= b.left ||
          b.right - 1 <= a.left ||
          a.bottom - 1 <= b.top ||
          b.bottom - 1 <= a.top
            ? []
            : [`${one.textContent} on ${other.textContent}`],
        ),
    );
  });

test.each(widths)(
  "the workbench at %i px: sheet, why, chart, text, both, card",
  async (width) => {
    const page = await browser.page(width, 900);
    await openBench(page);
    // On a host there is one face more than here.
    await page
      .locator(".tb-choices")
      .first()
      .evaluate((choices) => {
        const more = choices.lastElementChild!.cloneNode(true);
        more.textContent = "Log";
        choices.append(more);
      });
    expect(await onOneAnother(page)).toEqual([]);
    expect(await axeFaults(page), "sheet").toEqual([]);
    await findRow(page, "figure fills", "method");
    await jobCell(page, "figure fills", "j1").click();
    await page.keyboard.press("Enter");
    await page.getByRole("region", { name: /^Why / }).waitFor();
    expect(await axeFaults(page), "why").toEqual([]);
    await page.keyboard.press("Escape");
    await cell(page, "chart method", "rule").click();
    await page.keyboard.press("Enter");
    await page.locator(".chart-side table, .chart-side [role=grid]").first().waitFor();
    expect(await axeFaults(page), "chart").toEqual([]);
    await page.getByRole("button", { name: "Close Chart method" }).click();
    await openText(page);
    expect(await axeFaults(page), "text").toEqual([]);
    if (width > 900) {
      await face(page, "Both");
      await page.locator(".floor-sheet").waitFor();
      expect(await axeFaults(page), "both").toEqual([]);
    }
    await face(page, "Card");
    await page.locator(".card-step").first().waitFor();
    expect(await axeFaults(page), "card").toEqual([]);
  },
  120_000,
);
