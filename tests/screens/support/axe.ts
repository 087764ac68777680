// Faults of a page by the axe rules, and parts that stand out of a narrow screen.
import type axe from "axe-core";
import least from "axe-core/axe.min.js";
import type { Page } from "playwright-core";

const grave: readonly string[] = ["serious", "critical"];

interface Rule {
  readonly id: string;
  readonly impact?: string;
}

/** Serious and critical faults, each with the first place where it stands. */
export async function axeFaults(page: Page): Promise<readonly string[]> {
  // Half a second to read it in, so once for a page.
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(least.source);
  const found = await page.evaluate(async (counted) => {
    const { axe: tool } = globalThis as unknown as { axe: typeof axe & { _audit: { rules: Rule[] } } };
    // A rule whose faults are never grave is not tried: half of the time goes to those.
    const light = tool._audit.rules.filter(({ impact }) => impact !== undefined && !counted.includes(impact));
    const rules = Object.fromEntries(light.map(({ id }) => [id, { enabled: false }]));
    return tool.run(document, { resultTypes: ["violations"], rules });
  }, grave);
  return found.violations
    .filter((one) => grave.includes(one.impact ?? ""))
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
