// What the screen tests know of the pages: how to open them, and where a person would look and press.
import type { Browser, BrowserContext, Locator, Page } from "playwright-core";
import { afterEach, beforeAll, inject } from "vitest";
import { theBrowser } from "./browser.ts";
import { firstVisit } from "./first-visit.ts";
import type { FirstVisit } from "./first-visit.ts";

/** A browser for one file of tests; every test gets a profile of its own, in which nothing is kept yet. */
export function inBrowser(): {
  profile(width?: number, height?: number, locale?: string): Promise<BrowserContext>;
  page(width?: number, height?: number): Promise<Page>;
  visit(locale: string): Promise<FirstVisit>;
} {
  let browser: Browser;
  const open: BrowserContext[] = [];
  beforeAll(async () => {
    browser = await theBrowser();
  }, 60_000);
  afterEach(async () => {
    await Promise.all(open.splice(0).map((one) => one.close()));
  });
  const profile = async (width = 1400, height = 900, locale = "en-US"): Promise<BrowserContext> => {
    const context = await browser.newContext({
      viewport: { width, height },
      locale,
      baseURL: inject("address"),
      acceptDownloads: true,
    });
    context.setDefaultTimeout(30_000);
    open.push(context);
    return context;
  };
  return {
    profile,
    page: async (width, height) => (await profile(width, height)).newPage(),
    visit: (locale) => firstVisit(browser, inject("address"), locale),
  };
}

/** The workbench, with its first jobs laid alongside and worked. */
export async function openBench(page: Page): Promise<void> {
  await page.goto("/");
  await jobsWorked(page);
}

export const jobsWorked = (page: Page): Promise<void> =>
  page.locator(".hung-tag .state-mark").first().waitFor();

/** The jobs of the shipped book that come first. */
export const firstJobs = ["j1", "j2", "j3"] as const;

/** A cell of the sheet, brought into view by the search as a person would. */
export async function findRow(page: Page, row: string, name: string): Promise<void> {
  await page.getByRole("searchbox", { name: /^Find in names/ }).fill(name);
  await page.locator(`[data-row="${row}"]`).waitFor();
}

export const cell = (page: Page, row: string, column: string): Locator =>
  page.locator(`[data-place="${row} | ${column}"]`);
export const jobCell = (page: Page, row: string, job: string): Locator => cell(page, row, `job ${job}`);

export const face = (page: Page, name: "Sheet" | "Text" | "Both" | "Card"): Promise<void> =>
  page.getByRole("button", { name, exact: true }).click();

/** The text face with the focus in it. */
export async function openText(page: Page, how: "Text" | "Both" = "Text"): Promise<void> {
  await face(page, how);
  await page.locator(".monaco-editor .view-line").first().waitFor();
  await page.locator(".monaco-editor .view-lines").first().click();
  await page.locator(".monaco-editor.focused").waitFor();
}

/** What the title block says of the findings. */
export const findings = (page: Page): Locator => page.locator(".tb-findings b");

/** Waits until the browser has kept everything. */
export const allKept = (page: Page): Promise<void> =>
  page.getByText("Kept in this browser", { exact: true }).first().waitFor();

/** The text that is saved to a file by the key. */
export async function savedText(page: Page): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Control+s")]);
  const stream = await download.createReadStream();
  const parts: Buffer[] = [];
  for await (const part of stream) parts.push(part as Buffer);
  return Buffer.concat(parts).toString("utf8");
}

/** Waits until `read` gives what `wanted` says; fails with the last thing read. */
export async function until<Value>(
  read: () => Promise<Value>,
  wanted: (value: Value) => boolean,
  within = 30_000,
): Promise<Value> {
  const end = Date.now() + within;
  for (;;) {
    const value = await read();
    if (wanted(value)) return value;
    if (Date.now() > end) throw new Error(`After ${within} ms it still reads ${JSON.stringify(value)}.`);
    await new Promise((resolve) => {
      setTimeout(resolve, 40);
    });
  }
}
