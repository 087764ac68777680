// `npm run bench volume [jobs] [editions]`: the workbench in a real browser at a host that holds many jobs
// and editions: the log opened, paged and searched, two editions chosen of many, and their effect weighed
// over all logged jobs. Figures stand beside a plain rival in the same run.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { spawn } from "node:child_process";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Page } from "playwright-core";
import { openHost } from "../../editor/host/host.ts";
import { readBook, showJob, compareBooks, workJob } from "../../engine/index.ts";
import { fillShelf, roadEdition } from "../editor/host/support/volume.ts";
import { findBrowser, openBrowser } from "../screens/support/browser.ts";
import { servePages } from "../screens/support/server.ts";

const [jobs, editions] = [Number(process.argv[2] ?? 10_000), Number(process.argv[3] ?? 200)];
if (!(jobs >= 1500 && editions >= 10)) {
  console.error("Give at least 1500 jobs and 10 editions.");
  process.exit(2);
}
if (findBrowser() === undefined) {
  console.log("No browser is installed here, and this measures pages in one: nothing is measured.");
  process.exit(0);
}
const patience = 900_000;
/** Editions held against each other: the later one turns four dials. */
const [newer, older] = [9, 4];

interface Watched {
  longest: number;
}

const data = mkdtempSync(join(tmpdir(), "bevelbook-volume-"));
const pages = await servePages();
const browser = await openBrowser();
try {
  const host = await openHost(pages.folder, { host: "127.0.0.1", port: 0 }, { data, proofSeconds: 10 });
  if ("failed" in host) throw new Error(host.failed);
  const began = performance.now();
  const answers = await fillShelf(host.database, jobs, editions);
  console.log(
    `\n${jobs} jobs of one book, ${jobs / 10} of another, ${editions} editions; put on the ` +
      `shelf in ${Math.round((performance.now() - began) / 1000)} s`,
  );
  for (const [width, height] of [
    [1280, 900],
    [820, 1100],
  ] as const) {
    const context = await browser.newContext({
      viewport: { width, height },
      locale: "en-US",
      baseURL: host.address,
    });
    const page = await context.newPage();
    page.setDefaultTimeout(patience);
    // The longest time for which the page heard no hand, as the browser tells it (50 ms and over).
    await page.addInitScript(() => {
      const seen = { longest: 0 };
      Object.assign(window, { seen });
      new PerformanceObserver((list) => {
        for (const one of list.getEntries()) seen.longest = Math.max(seen.longest, one.duration);
      }).observe({ type: "longtask" });
    });
    await page.goto("/");
    await page.locator(".hung-tag .state-mark").first().waitFor();
    await page.getByLabel("A book's file").setInputFiles({
      name: "road-panels.bevel",
      mimeType: "text/plain",
      buffer: Buffer.from(roadEdition(editions)),
    });
    await page.locator(".hung-tag .state-mark").first().waitFor();
    console.log(`\nAt ${width} px`);
    await log(page, `${host.address}api/jobs?limit=500`);
    if (process.env["BEVELBOOK_SHOTS"])
      await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/log-${width}.png` });
    await effect(page);
    if (process.env["BEVELBOOK_SHOTS"])
      await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/weighed-${width}.png` });
    await context.close();
  }
  await host.close();
  engineAlone(answers);
  await terminal(answers);
} finally {
  await browser.close();
  pages.close();
  rmSync(data, { recursive: true, force: true });
}

// biome-ignore lint/complexity/noExcessiveLinesPerFunction: one walk through the log, step by step.
async function log(page: Page, address: string): Promise<void> {
  await longest(page);
  let began = performance.now();
  await page.getByRole("button", { name: "Log", exact: true }).click();
  await page.locator(".log-lines li").first().waitFor();
  const opened = performance.now() - began;
  const first = await size(page);
  // The rival: every row in the page at once.
  const naive = await page.evaluate(async (from) => {
    const start = performance.now();
    const list = document.createElement("ul");
    list.className = "log-lines";
    for (let before: string | undefined = ""; before !== undefined; ) {
      const got: { jobs: { title: string; book: string }[]; next?: string } = await (
        await fetch(`${from}${before === "" ? "" : `&before=${before}`}`)
      ).json();
      for (const job of got.jobs) {
        const line = document.createElement("li");
        line.innerHTML = "<button type=button><b></b><span></span></button>";
        line.querySelector("b")!.textContent = job.title;
        line.querySelector("span")!.textContent = job.book;
        list.append(line);
      }
      before = got.next;
    }
    document.querySelector(".log-jobs section")!.append(list);
    list.getBoundingClientRect();
    const took = performance.now() - start;
    list.remove();
    return took;
  }, address);
  console.log(
    `  the log opened, first row after ${ms(opened)}; all rows in the page at ` +
      `once ${ms(naive)}, ${(naive / opened).toFixed(1)} times as long`,
  );
  await longest(page);
  const more: number[] = [];
  for (let n = 2; n <= 20; n += 1) {
    began = performance.now();
    await page.getByRole("button", { name: "More jobs" }).click();
    await page.getByText(`${n * 50} and more, the last changed first.`).waitFor();
    more.push(performance.now() - began);
  }
  const last = await size(page);
  console.log(
    `  nineteen pages more: ${ms(middle(more.slice(0, 5)))} each at ` +
      `first, ${ms(middle(more.slice(-5)))} at the end; elements ${first.elements} ` +
      `→ ${last.elements}; longest standstill ${ms(await longest(page))}`,
  );
  const keys: number[] = [];
  const find = page.getByRole("searchbox", { name: "Find in jobs" });
  const rare = (await page.locator(".log-lines b").last().innerText()).replace(/^.* order /, "");
  for (const key of rare) {
    began = performance.now();
    await find.press(key);
    await page.evaluate(() => new Promise(requestAnimationFrame));
    keys.push(performance.now() - began);
  }
  await page.locator(".log-lines li:first-child b", { hasText: `order ${rare}` }).waitFor();
  const found = performance.now() - began;
  console.log(
    `  a search as it is typed: ${ms(middle(keys))} a key, the first rows ${ms(found)} after ` +
      `the last key (250 of them are the rest after typing); longest standstill ${ms(await longest(page))}`,
  );
  began = performance.now();
  const title = await page.locator(".log-lines b").first().innerText();
  await page.locator(".log-lines button").first().click();
  await page.locator(".job-record").getByRole("heading", { name: title }).waitFor();
  console.log(`  one job opened after ${ms(performance.now() - began)}`);
  const before = await size(page);
  for (let n = 0; n < 10; n += 1) {
    await find.fill(n % 2 === 0 ? "tailgate" : "bonnet");
    await page
      .locator(".log-lines b", { hasText: n % 2 === 0 ? "tailgate" : "bonnet" })
      .first()
      .waitFor();
  }
  const after = await size(page);
  console.log(
    `  ten searches more: elements ${before.elements} → ${after.elements}, ` +
      `memory ${before.megabytes} → ${after.megabytes} MB`,
  );
}

async function effect(page: Page): Promise<void> {
  let began = performance.now();
  await page.getByRole("button", { name: "Editions", exact: true }).click();
  await page.getByText(`${editions} sealed.`).waitFor();
  console.log(`  ${editions} editions listed after ${ms(performance.now() - began)}`);
  await page
    .locator(".editions-field", { hasText: /^This/ })
    .locator("select")
    .selectOption(`sealed ${newer}`);
  await page
    .locator(".editions-field", { hasText: /^Held against/ })
    .locator("select")
    .selectOption(`sealed ${older}`);
  await page.getByText("All are weighed.").waitFor();
  await longest(page);
  began = performance.now();
  await page.getByLabel("Jobs from the log").selectOption({ label: "all" });
  await page.getByText("Working the same jobs by both.").waitFor();
  const fetched = performance.now() - began;
  const inFetching = await longest(page);
  await page.getByRole("progressbar", { name: "Jobs weighed" }).waitFor();
  // Stopped and gone on, as a hand would.
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  const asked = performance.now();
  await page.getByText("Stopped. What is weighed stays.").waitFor();
  const stopped = performance.now() - asked;
  await page.getByRole("button", { name: "Go on", exact: true }).click();
  await page.getByText("All are weighed.").waitFor();
  const took = performance.now() - began - fetched;
  console.log(
    `  all jobs fetched in ${ms(fetched)} (longest standstill ${ms(inFetching)}), ` +
      `stopped ${ms(stopped)} after the press and gone on, weighed ` +
      `in ${(took / 1000).toFixed(1)} s, ${(took / jobs).toFixed(2)} ms a job; longest ` +
      `standstill of the page ${ms(await longest(page))}`,
  );
  console.log(`  ${await page.locator(".weighed-counts").innerText()}`);
}

/**
 * In this process: what a weighing costs, beside the plain way, which writes out every job in full by the two
 * books and by each change made alone and left out.
 */
function engineAlone(all: readonly Readonly<Record<string, string>>[]): void {
  const [before, after] = [readBook(roadEdition(older)), readBook(roadEdition(newer))];
  const logged = all.slice(0, 1000).map((answers, n) => ({ name: `${n}`, answers }));
  const weighing = compareBooks(before, after, { logged, spread: 0 });
  weighing.advance(300);
  const view = weighing.view();
  let cpu = process.cpuUsage();
  while (!weighing.advance(50));
  const own = process.cpuUsage(cpu).user / (weighing.view().settled - view.settled);
  const times = 2 + 2 * view.groups.length;
  for (const one of logged.slice(0, 200)) showJob(workJob(after, one.answers));
  cpu = process.cpuUsage();
  for (const one of logged)
    for (const book of Array.from({ length: times }, (_, n) => (n % 2 === 0 ? before : after)))
      showJob(workJob(book, one.answers));
  const plain = process.cpuUsage(cpu).user / logged.length;
  console.log(
    `\nThe engine alone, ${view.groups.length} changes: ${(own / 1000).toFixed(2)} ms of work a ` +
      `job; every job in full ${times} times ${(plain / 1000).toFixed(2)} ` +
      `ms, ${(plain / own).toFixed(1)} times as much`,
  );
}

async function terminal(all: readonly Readonly<Record<string, string>>[]): Promise<void> {
  writeFileSync(join(data, "old.bevel"), roadEdition(older));
  writeFileSync(join(data, "new.bevel"), roadEdition(newer));
  writeFileSync(
    join(data, "jobs.json"),
    JSON.stringify(all.map((answers, n) => ({ name: `job ${n}`, answers }))),
  );
  const start = performance.now();
  const child = spawn(
    process.execPath,
    [
      fileURLToPath(new URL("../../editor/terminal/bevelbook.mjs", import.meta.url)),
      "weigh",
      "old.bevel",
      "new.bevel",
      "--jobs",
      "jobs.json",
    ],
    { cwd: data },
  );
  let [out, err] = ["", ""];
  child.stdout.on("data", (chunk: Buffer) => {
    out += chunk.toString();
  });
  child.stderr.on("data", (chunk: Buffer) => {
    err += chunk.toString();
  });
  const code = await new Promise((resolve) => {
    child.on("close", resolve);
  });
  const told = err.split("\n").filter((line) => /^weighed \d+ of \d+ jobs$/.test(line)).length;
  console.log(
    `In the terminal: ${((performance.now() - start) / 1000).toFixed(1)} s, ${told} lines of ` +
      `progress, ` +
      `exit ${String(code)};${/\n {2}logged jobs: .*/.exec(out)?.[0].trimEnd() ?? " no logged jobs told"}`,
  );
}

/** The longest standstill since the last look, in milliseconds; 0 where none was over 50. */
function longest(page: Page): Promise<number> {
  return page.evaluate(() => {
    const { seen } = window as unknown as { seen: Watched };
    const found = seen.longest;
    seen.longest = 0;
    return found;
  });
}

async function size(page: Page): Promise<{ readonly elements: number; readonly megabytes: number }> {
  const session = await page.context().newCDPSession(page);
  await session.send("HeapProfiler.collectGarbage");
  const { usedSize } = await session.send("Runtime.getHeapUsage");
  await session.detach();
  return { elements: await page.locator("*").count(), megabytes: Math.round(usedSize / 1e5) / 10 };
}

function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? 0;
}
function ms(time: number): string {
  return `${Math.round(time)} ms`;
}
