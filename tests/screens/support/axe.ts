// Faults of a page by the axe rules, and parts that stand out of a narrow screen.
import axe from "axe-core";
import type { Page } from "playwright-core";

/** Serious and critical faults, each with the first place where it stands. */
export async function axeFaults(page: Page): Promise<readonly string[]> {
  // Half a second to read it in, so once for a page.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
  const found = await page.evaluate(() =>
    (globalThis as unknown as { axe: typeof axe }).axe.run(document, { resultTypes: ["violations"] }),
  );
  return found.violations
    .filter((one) => one.impact === "serious" || one.impact === "critical")
    .map((one) => `${one.id}: ${one.nodes[0]?.html.slice(0, 200)}`);
}

/** Those, and whether the page has to be pushed sideways. */
export async function pageFaults(page: Page): Promise<readonly string[]> {
  const wide = await page.evaluate(() =>
    document.documentElement.scrollWidth > innerWidth
      ? [`wider than the screen: ${document.documentElement.scrollWidth}`]
      : [],
  );
  return [...(await axeFaults(page)), ...wide];
}
