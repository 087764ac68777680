// The technician's page after its first visit, with the network cut and the host gone: it opens, asks, gives
// the card and prints. A new build comes with the next visit and takes nothing from a page that is open.
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterEach, beforeEach, expect, inject, test } from "vitest";
import { listen } from "../../editor/host/listen.ts";
import { pagesApp } from "../../editor/host/pages.ts";
import { withFiles } from "../../editor/build/offline-list.ts";
import { inBrowser, until } from "./support/bench.ts";
import { answerAll, question, smallChip } from "./support/job.ts";

const browser = inBrowser();
let folder = "";
let host: { readonly address: string; readonly port: number; close(): void };

/** A host of its own, so that it can be ended without taking the pages from other tests. */
async function open(port = 0): Promise<void> {
  const listening = await listen(pagesApp(folder), { host: "127.0.0.1", port } as Parameters<
    typeof listen
  >[1]);
  if ("failed" in listening) throw new Error(listening.failed);
  host = listening;
}

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "bevelbook-offline-"));
  cpSync(inject("folder"), folder, { recursive: true });
  await open();
});
afterEach(() => {
  host.close();
  rmSync(folder, { recursive: true, force: true });
});

/** The page once the browser has put away all that it needs. */
async function visit(page: Page): Promise<void> {
  await page.goto(`${host.address}job.html?book=road-panels`);
  await page.locator(".question-text").waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
}
/**
 * Ends the worker that serves the page where the next one waits, as the browser does with one that has had
 * nothing to do for half a minute. Under a debugger, which these tests are to the browser, an idle worker is
 * kept for good.
 */
async function letIdleWorkerEnd(page: Page): Promise<void> {
  const debugging = await page.context().newCDPSession(page);
  const versions = new Map<string, string>();
  debugging.on(
    "ServiceWorker.workerVersionUpdated",
    (told: { versions: { versionId: string; status: string }[] }) => {
      for (const { versionId, status } of told.versions) versions.set(versionId, status);
    },
  );
  await debugging.send("ServiceWorker.enable");
  await until(
    () => Promise.resolve([...versions.values()]),
    (all) => all.length > 0,
  );
  const waits = [...versions.values()].includes("installed");
  for (const [versionId, status] of versions)
    if (waits && status === "activated") await debugging.send("ServiceWorker.stopWorker", { versionId });
  await debugging.detach();
}

const cacheNames = (page: Page): Promise<readonly string[]> => page.evaluate(() => caches.keys());

test("with the host gone and the network cut the page opens, asks, gives the card, says " +
  "why and prints", async () => {
  const context = await browser.profile(820, 1180);
  const page = await context.newPage();
  await visit(page);
  host.close();
  await context.setOffline(true);
  await page.reload();
  await page.locator(".question-text").waitFor();
  await answerAll(page, smallChip);
  const card = page.getByRole("region", { name: "Job card" });
  expect(await card.locator(".card-step").count()).toBeGreaterThanOrEqual(8);
  await card.getByRole("button", { name: "15 mm: why?" }).first().click();
  await page.getByRole("dialog", { name: "Why bevel-width" }).locator(".why-of").waitFor();
  await page.keyboard.press("Escape");
  const paper = await page.pdf({ format: "A4" });
  expect(paper.length).toBeGreaterThan(10_000);
  // The typefaces are there too: what is measured is drawn in them.
  expect(
    await page.evaluate(() =>
      document.fonts.ready.then((fonts) =>
        [...fonts].filter((one) => one.status === "loaded").map((one) => one.family.replaceAll('"', "")),
      ),
    ),
  ).toEqual(expect.arrayContaining(["Barlow", "Barlow Semi Condensed"]));
  // Opened anew, in a page of its own, by the short address as well.
  const again = await context.newPage();
  await again.goto(`${host.address}job`);
  await again.locator(".card-step").first().waitFor();
}, 90_000);

test("nothing is kept but the page's own files: no answer of the host, nothing of the bench", async () => {
  const page = await browser.page(820, 1180);
  await visit(page);
  await page.evaluate(() => fetch("/api/anything").catch(() => undefined));
  await page.evaluate(() => fetch("/index.html").catch(() => undefined));
  const kept = await page.evaluate(async () =>
    (
      await Promise.all(
        (
          await caches.keys()
        ).map(async (name) =>
          (await (await caches.open(name)).keys()).map((one) => new URL(one.url).pathname),
        ),
      )
    ).flat(),
  );
  expect(kept).toContain("/job.html");
  expect(kept.some((path) => /road-panels-[\w-]+\.bevel$/.test(path))).toBe(true);
  expect(kept.filter((path) => /\/api\/|index|editor\.worker|text-view/.test(path))).toEqual([]);
  for (const path of kept) expect(readFileSync(join(folder, path)).length, path).toBeGreaterThan(0);
});

test("a new build waits for the next visit, and then the old files are dropped", async () => {
  const context = await browser.profile(820, 1180);
  const page = await context.newPage();
  await visit(page);
  const before = await cacheNames(page);
  expect(before).toHaveLength(1);
  newBuild(folder);
  // The page that is open learns of it and goes on as it is, its worker's file among those kept.
  await page.evaluate(() =>
    navigator.serviceWorker
      .getRegistration()
      .then((one) => one?.update())
      .then(() => undefined),
  );
  await until(
    () =>
      page.evaluate(() =>
        navigator.serviceWorker
          .getRegistration()
          .then((one) => one?.waiting !== null && one?.waiting !== undefined),
      ),
    (waits) => waits,
  );
  await answerAll(page, smallChip, "Panel thickness");
  expect(await cacheNames(page)).toEqual(expect.arrayContaining([...before]));
  // Opened again it is the new one, and what was answered is still there.
  await page.reload();
  await page.locator(".question-text").waitFor();
  await until(
    async () => {
      await letIdleWorkerEnd(page);
      return cacheNames(page);
    },
    (now) => now.length === 1 && now[0] !== before[0],
  );
  await until(
    () => question(page),
    (asked) => asked.startsWith("Panel thickness"),
  );
  host.close();
  await context.setOffline(true);
  await page.reload();
  await until(
    () => question(page),
    (asked) => asked.startsWith("Panel thickness"),
  );
}, 90_000);

test("a host that answers with an error is as good as none", async () => {
  const context = await browser.profile(820, 1180);
  const page = await context.newPage();
  await visit(page);
  await context.route("**/job.html*", (route) => route.fulfill({ status: 503, body: "out of order" }));
  await page.reload();
  await page.locator(".question-text").waitFor();
});

test("a tablet can set the page on its start screen", async () => {
  const page = await browser.page(820, 1180);
  await page.goto(`${host.address}job.html?book=road-panels`);
  const link = await page.locator("link[rel=manifest]").getAttribute("href");
  const answer = await page.request.get(new URL(link ?? "", host.address).href);
  expect(answer.headers()["content-type"]).toMatch(/manifest\+json|json/);
  const manifest = (await answer.json()) as {
    start_url: string;
    display: string;
    icons: { src: string; sizes: string }[];
  };
  expect(new URL(manifest.start_url, host.address).pathname).toBe("/job.html");
  expect(manifest.display).toBe("standalone");
  for (const icon of manifest.icons)
    expect((await page.request.get(new URL(icon.src, host.address).href)).ok(), icon.src).toBe(true);
  expect(manifest.icons.map((icon) => icon.sizes)).toEqual(expect.arrayContaining(["192x192", "512x512"]));
});

/** The same pages as another build: the page's script has another name and one more line. */
function newBuild(at: string): void {
  const assets = join(at, "assets");
  const script = readdirSync(assets).find(
    (name) => /^job-[\w-]{8}\.js$/.test(name) && readFileSync(join(at, "job.html"), "utf8").includes(name),
  )!;
  const other = script.replace(/-[\w-]{8}\.js$/, "-ANEWONE1.js");
  writeFileSync(join(assets, other), `${readFileSync(join(assets, script), "utf8")}\n/* anew */`);
  for (const end of ["", ".br", ".gz"]) rmSync(join(assets, script + end), { force: true });
  for (const end of [".br", ".gz"])
    for (const name of ["job.html", "job-offline.js"]) rmSync(join(at, name + end), { force: true });
  writeFileSync(join(at, "job.html"), readFileSync(join(at, "job.html"), "utf8").replaceAll(script, other));
  // The list of files is made as the build makes it.
  const worker = readFileSync(join(at, "job-offline.js"), "utf8");
  const listed = /JSON\.parse\((".*?[^\\]")\)/.exec(worker)!;
  const { files } = JSON.parse(JSON.parse(listed[1]!) as string) as { files: string[] };
  const now = files
    .map((file) => (file.endsWith(script) ? `assets/${other}` : file))
    .map((name) => ({ name, content: readFileSync(join(at, name)) }));
  writeFileSync(join(at, "job-offline.js"), withFiles(worker.replace(listed[1]!, '"%built%"'), now));
}
