// The rows of the sheet are as tall in a browser as sheet/row-height.ts says, so that none lies over the next
// and none leaves a gap: the numbers there repeat those of the style sheets. Measured on the shipped book.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { inBrowser, openBench } from "./support/bench.ts";

interface MeasuredRow {
  readonly id: string;
  /** Px that the row is placed by. */
  readonly said: number;
  /** Px that it has on the screen, and that its text alone needs. */
  readonly drawn: number;
  readonly needed: number;
}

const browser = inBrowser();

/** Every row of the sheet, which draws those in view alone. */
const measured = (page: Page): Promise<readonly MeasuredRow[]> =>
  page.locator(".sheet").evaluate(async (sheet) => {
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const rows = new Map<string, MeasuredRow>();
    for (let at = 0; at < sheet.scrollHeight; at += sheet.clientHeight) {
      sheet.scrollTop = at;
      await frame();
      await frame();
      for (const row of sheet.querySelectorAll<HTMLElement>(".sheet-row")) {
        const id = row.dataset["row"]!;
        if (rows.has(id)) continue;
        const said = Number.parseFloat(row.style.minHeight);
        const drawn = row.getBoundingClientRect().height;
        const held = [row, ...row.querySelectorAll<HTMLElement>(".sheet-cells")];
        const before = held.map((one) => one.style.minHeight);
        for (const one of held) one.style.minHeight = "0";
        const needed = row.getBoundingClientRect().height;
        held.forEach((one, i) => {
          one.style.minHeight = before[i]!;
        });
        rows.set(id, { id, said, drawn, needed });
      }
    }
    return [...rows.values()];
  });

const spare = ({ said, needed }: MeasuredRow): number => said - needed;
const isKind = ({ id }: MeasuredRow): boolean => id.startsWith("kind ");
const isPart = ({ id }: MeasuredRow): boolean => id.startsWith("part ");

test.each([1280, 820])(
  "on a screen of %i px every row has the height that it is placed by",
  async (width) => {
    const page = await browser.page(width, 900);
    await openBench(page);
    await page.evaluate(() => document.fonts.ready);
    const rows = await measured(page);
    expect(rows.length).toBeGreaterThan(400);
    // A text that needs more than is said lies over the row below.
    expect(rows.filter((row) => row.drawn !== row.said)).toEqual([]);

    // Rows whose height is that of their name have two px to spare, those of their rule or basis one, kinds
    // and parts none. A px more or less in any number of one of the two sides is seen here.
    const named = rows.filter((row) => row.said === 56);
    const quiet = rows.filter((row) => isKind(row) && row.said === 34);
    expect([named, quiet].map((all) => Math.min(...all.map(spare)))).toEqual([2, 2]);
    const told = rows.filter((row) => row.said > 56 && !isKind(row));
    const kinds = rows.filter((row) => isKind(row) && row.said > 34);
    // Letters are taken as wide as the widest text has them: a few rows are said a whole line too high.
    const line = 13;
    const fits = (row: MeasuredRow): boolean => spare(row) < line;
    expect(told.filter((row) => fits(row) && (spare(row) < 0.9 || spare(row) > 1.5))).toEqual([]);
    expect([...kinds, ...rows.filter(isPart)].filter((row) => fits(row) && spare(row) !== 0)).toEqual([]);
    expect(told.filter(fits).length).toBeGreaterThan(told.length * 0.8);
  },
);
