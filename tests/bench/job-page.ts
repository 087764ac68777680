// The job page's part of `npm run bench`: builds the pages, weighs what is sent up to the first question and
// later, and times the first question in a browser in which nothing is kept. `npx tsx
// tests/bench/job-page.ts` prints it by itself.
import { loadavg } from "node:os";
import { pathToFileURL } from "node:url";
import type { Weight } from "../../editor/build/page-size.ts";
import { pageSize } from "../../editor/build/page-size.ts";
import { findBrowser, openBrowser } from "../screens/support/browser.ts";
import type { FirstVisit } from "../screens/support/first-visit.ts";
import { bytesOf, firstVisit } from "../screens/support/first-visit.ts";
import { servePages } from "../screens/support/server.ts";

const visits = 7;

const kB = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`.padStart(10);
const aim = (met: boolean, text: string): string => `   aim ${text}: ${met ? "met" : "missed"}`;
const line = (name: string, { brotli, gzip, bytes }: Weight, more = "") =>
  console.log(`  ${name.padEnd(52)}${kB(brotli)}${kB(gzip)}${kB(bytes)}${more}`);

export async function jobPage(): Promise<void> {
  console.log("\nThe job page as built: scripts, styles, the engine's worker");
  const pages = await servePages();
  try {
    weights(pages.folder);
    if (findBrowser() === undefined)
      console.log("  No browser is installed here: the time to the first question is not measured.");
    else await times(pages);
  } finally {
    pages.close();
  }
}

function weights(folder: string): void {
  const size = pageSize(folder, "job.html");
  console.log(`  ${"".padEnd(52)}${"brotli".padStart(10)}${"gzip".padStart(10)}${"unpacked".padStart(10)}`);
  for (const file of [...size.files].sort((a, b) => Number(b.first) - Number(a.first) || b.brotli - a.brotli))
    line(`${file.first ? "first" : "later"}  ${file.name}`, file);
  line("up to the first question", size.first, aim(size.first.brotli < 150_000, "under 150 kB as brotli"));
  line("later, or when needed", size.later);
  line("all together", size.all);
  const editor = size.files.some((file) => /text-view|editor\.worker/.test(file.name));
  console.log(
    `  ${"the text editor library among them".padEnd(52)}` +
      `${(editor ? "yes" : "no").padStart(10)}${aim(!editor, "no")}`,
  );
  console.log(
    "  Browsers take brotli over https and from their own machine; over plain http from " +
      "another machine they are sent gzip.",
  );
}

async function times(pages: { readonly address: string; readonly folder: string }): Promise<void> {
  const browser = await openBrowser();
  try {
    const seen: FirstVisit[] = [];
    for (let n = 0; n < visits; n += 1) seen.push(await firstVisit(browser, pages.address));
    const before = seen[0]!.sent.filter((one) => one.first);
    const files = new Set(before.map((one) => one.name)).size;
    console.log(
      `  ${"sent before the first question, book, fonts, mark too".padEnd(52)}` +
        `${kB(bytesOf(pages.folder, before))}   (${files} files, as the browser asked for them)`,
    );
    const took = seen.map((one) => one.took).sort((a, b) => a - b);
    const median = took[Math.floor(took.length / 2)]!;
    console.log(
      `  ${"first question, new profile, host on this machine".padEnd(52)}` +
        `${median.toFixed(0)} ms`.padStart(10) +
        `   (median of ${visits}, ${took[0]!.toFixed(0)} to ${took.at(-1)!.toFixed(0)} ms, ` +
        `load ${loadavg()[0]!.toFixed(1)})${aim(median < 2000, "under 2 s")}`,
    );
  } finally {
    await browser.close();
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) await jobPage();
