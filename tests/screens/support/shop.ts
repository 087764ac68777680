// A shop's host of its own for a screen test: the built pages with a fresh data folder, and people at it with
// a browser each.
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterEach, beforeAll, inject } from "vitest";
import type { HostClient } from "../../../editor/client/storage/host-client.ts";
import { hostClient } from "../../../editor/client/storage/host-client.ts";
import type { Host } from "../../../editor/host/host.ts";
import { openHost } from "../../../editor/host/host.ts";
import { freshFolder } from "../../editor/host/support/places.ts";
import { theBrowser } from "./browser.ts";

export interface TestShop {
  readonly host: Host;
  readonly client: HostClient;
  person(width?: number, height?: number): Promise<Page>;
  /** Ends the host; its data stays for the next. */
  down(): Promise<void>;
  up(): Promise<void>;
}

/** Opens a host before each test of the file and ends it afterwards. */
export function inShop(proofSeconds = 20): () => TestShop {
  let browser: Browser;
  let shop: TestShop;
  let ended: () => Promise<void>;
  const open: BrowserContext[] = [];
  beforeAll(async () => {
    browser = await theBrowser();
  }, 60_000);
  afterEach(async () => {
    await Promise.all(open.splice(0).map((one) => one.close()));
    await ended?.();
  });
  return () => {
    const data = freshFolder();
    let host: Host | undefined;
    let port = 0;
    const up = async (): Promise<void> => {
      const opened = await openHost(inject("folder"), { host: "127.0.0.1", port }, { data, proofSeconds });
      if ("failed" in opened) throw new Error(opened.failed);
      host = opened;
      port = opened.port;
    };
    const down = async (): Promise<void> => {
      await host?.close();
      host = undefined;
    };
    ended = down;
    let ready: Promise<void> | undefined;
    shop = {
      get host() {
        if (host === undefined) throw new Error("The host is down.");
        return host;
      },
      get client() {
        return hostClient(this.host.address);
      },
      person: async (width = 1280, height = 900) => {
        ready ??= host === undefined ? up() : Promise.resolve();
        await ready;
        const context = await browser.newContext({
          viewport: { width, height },
          locale: "en-US",
          baseURL: shop.host.address,
          acceptDownloads: true,
        });
        context.setDefaultTimeout(20_000);
        open.push(context);
        return context.newPage();
      },
      down,
      up,
    };
    return shop;
  };
}

/** Opens a text on the bench as a file would. */
export async function openBook(page: Page, text: string, name: string): Promise<void> {
  await page.goto("/");
  await page.locator(".hung-tag .state-mark").first().waitFor();
  await page
    .getByLabel("A book's file")
    .setInputFiles({ name: `${name}.bevel`, mimeType: "text/plain", buffer: Buffer.from(text) });
  await page.locator(".tb-book b", { hasText: name }).waitFor();
  await page.locator(".hung-tag .state-mark").first().waitFor();
}
