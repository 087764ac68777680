// `npm run picture`: the picture of the workbench in the README, made anew from the pages as they are. The
// jobs are the worked examples that the workbench lays alongside by itself.
import { statSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { fetchBrowser, openBrowser } from "./support/browser.ts";
import { servePages } from "./support/server.ts";

const file = fileURLToPath(new URL("../../editor/workbench/workbench.png", import.meta.url));
/** Bytes that a picture in the repository may have. */
const most = 300_000;

fetchBrowser();
const pages = await servePages();
const browser = await openBrowser();
try {
  const page = await browser.newPage({ viewport: { width: 1400, height: 900 } });
  await page.goto(pages.address);
  await page.locator(".hung-tag .state-mark").nth(2).waitFor();
  await page.getByLabel("Show the part").selectOption("Bevel");
  await page.locator('[data-place="figure bevel-width | job j2"]').click();
  const why = page.getByRole("region", { name: "Why bevel-width" });
  await why.locator(".why-head", { hasText: "run-out" }).first().press("ArrowRight");
  await why.locator(".why-head", { hasText: "cut-depth" }).first().waitFor();
  await page.locator(".side-body").evaluate((body) => {
    body.scrollTop = 0;
  });
  await page.locator('[data-place="figure bevel-width | job j2"]').focus();
  await page.mouse.move(2, 2);
  await page.locator(".sheet-row.is-lit").waitFor({ state: "detached" });
  await page.locator(".ink-number").first().waitFor();
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: file, animations: "disabled", caret: "hide" });
} finally {
  await browser.close();
  pages.close();
}
const { size } = statSync(file);
if (size > most)
  throw new Error(`The picture has ${size} bytes; at most ${most} are kept in the repository.`);
console.log(`Wrote ${file} (${Math.round(size / 1000)} kB).`);
