// A first visit to the job page in a profile in which nothing is kept: when the first question stands, and
// what was sent until then.
import { statSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";

export interface Sent {
  /** Path below the address, e.g. `assets/job-1a2b.js`. */
  readonly name: string;
  /** As it was packed on the way: `br`, `gzip`, or "" as it is. */
  readonly packed: string;
  /** Asked for before the first question stood. */
  readonly first: boolean;
}

export interface FirstVisit {
  /** From the start of the visit until the frame after the first question is in the page, milliseconds. */
  readonly took: number;
  readonly sent: readonly Sent[];
}

/**
 * Bytes of what was sent: the host sends the files as the build packed them. (The browser tells no sizes of a
 * worker's files.)
 */
export const bytesOf = (folder: string, sent: readonly Sent[]): number =>
  [...new Map(sent.map((one) => [one.name, one])).values()].reduce(
    (sum, { name, packed }) =>
      sum + statSync(join(folder, name + ({ br: ".br", gzip: ".gz" }[packed] ?? ""))).size,
    0,
  );

export async function firstVisit(browser: Browser, address: string, locale = "en-US"): Promise<FirstVisit> {
  const context = await browser.newContext({
    viewport: { width: 820, height: 1180 },
    locale,
    baseURL: address,
  });
  try {
    const page = await context.newPage();
    const asked: Promise<readonly [start: number, sent: Omit<Sent, "first">] | undefined>[] = [];
    const finished: string[] = [];
    context.on("requestfinished", (request) =>
      asked.push(
        (async () => {
          finished.push(request.url());
          const answer = await request.response();
          return [
            request.timing().startTime,
            {
              name: new URL(request.url()).pathname.slice(1),
              packed: (await answer?.headerValue("content-encoding")) ?? "",
            },
          ] as const;
          // A request that the end of the visit cuts off was not one of the first.
        })().catch(() => undefined),
      ),
    );
    await page.addInitScript(() => {
      const seen = new MutationObserver(() => {
        if (document.querySelector(".question-text") === null) return;
        seen.disconnect();
        const inPage = performance.now();
        requestAnimationFrame(() =>
          Object.assign(window, {
            firstQuestion: { inPage: performance.timeOrigin + inPage, took: performance.now() },
          }),
        );
      });
      seen.observe(document, { childList: true, subtree: true });
    });
    await page.goto("/job.html?book=road-panels");
    const stood = await (
      await page.waitForFunction(
        () => (window as unknown as { firstQuestion?: { inPage: number; took: number } }).firstQuestion,
      )
    ).jsonValue();
    if (stood === undefined) throw new Error("The first question never stood.");
    // What comes later has been asked for as well, or never is.
    const later = [/\/lazy-parts-[\w-]+\.js$/, /\/panel-[\w-]+\.js$/, /\/job-answers-[\w-]+\.js$/];
    for (let n = 0; n < 100 && !later.every((part) => finished.some((address) => part.test(address))); n += 1)
      await page.waitForTimeout(100);
    return {
      took: stood.took,
      sent: (await Promise.all(asked))
        .flatMap((one) => (one === undefined ? [] : [one]))
        .map(([start, sent]) => ({ ...sent, first: start <= stood.inPage })),
    };
  } finally {
    await context.close();
  }
}
