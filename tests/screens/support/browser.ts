// The browser that the screens are tried in: one that the machine has, or one that is fetched. A machine on
// which neither works fails the tests with a sentence; nothing is skipped in silence.
import { execFileSync } from "node:child_process";
import { accessSync, constants, existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser } from "playwright-core";
import { chromium } from "playwright-core";

const flags = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

let shared: Promise<Browser> | undefined;

/**
 * One browser for all files that a worker of the test runner takes on; it ends with the worker. What one test
 * leaves in it no other sees: each takes a profile of its own.
 */
export const theBrowser = (): Promise<Browser> => (shared ??= openBrowser());

/** A browser of one's own, to be closed by who opened it. */
export async function openBrowser(): Promise<Browser> {
  const path = findBrowser();
  if (path === undefined)
    throw new Error("No browser was found. Install Chromium, or name one in BEVELBOOK_BROWSER.");
  return chromium.launch({ executablePath: path, args: flags });
}

/** Makes sure that there is a browser, and says where it is; fetches one where there is none. */
export function fetchBrowser(): string {
  const found = findBrowser();
  if (found !== undefined) return found;
  const tried: string[] = [];
  for (const [how, fetch] of ways) {
    console.log(`The screens are tried in a real browser, and there is none: getting Chromium from ${how}.`);
    try {
      fetch();
    } catch (cause) {
      tried.push(`${how}: ${cause instanceof Error ? cause.message.split("\n")[0] : "failed"}`);
    }
    const got = findBrowser();
    if (got !== undefined) return got;
  }
  throw new Error(
    `The screens are tried in a real browser, and none could be found or fetched. Install ` +
      `Chromium, or name a browser in BEVELBOOK_BROWSER. (${tried.join("; ")})`,
  );
}

/** A browser of the machine, or the one fetched before; undefined if there is none. */
export function findBrowser(): string | undefined {
  const named = process.env["BEVELBOOK_BROWSER"];
  if (named) {
    if (runs(named)) return named;
    throw new Error(`BEVELBOOK_BROWSER names ${named}, and that is no program.`);
  }
  const places = [
    // The same browser without a window's parts: it takes less than half the processor time.
    "/usr/bin/chromium-headless-shell",
    "/usr/bin/chromium",
    "/usr/bin/chromium-browser",
    ...onPath(
      "chromium-headless-shell",
      "chromium",
      "chromium-browser",
      "google-chrome",
      "google-chrome-stable",
    ),
    chromium.executablePath(),
  ];
  return places.find(runs);
}

const ways: readonly (readonly [how: string, fetch: () => void])[] = [
  [
    "the system's packages",
    () => {
      if (process.getuid?.() !== 0 || onPath("apt-get").length === 0)
        throw new Error("need an administrator and apt-get");
      const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
      execFileSync("apt-get", ["update"], { stdio: "ignore", env });
      const install = ["install", "-y", "--no-install-recommends"];
      for (const name of ["chromium-headless-shell", "chromium"]) {
        try {
          execFileSync("apt-get", [...install, name], { stdio: "ignore", env });
          return;
        } catch (cause) {
          // Older systems have only the whole browser.
          if (name === "chromium") throw cause;
        }
      }
    },
  ],
  [
    "Playwright's download",
    () => {
      execFileSync(
        process.execPath,
        [
          fileURLToPath(new URL("../../../node_modules/playwright-core/cli.js", import.meta.url)),
          "install",
          "chromium",
        ],
        { stdio: "ignore" },
      );
    },
  ],
];

const onPath = (...names: readonly string[]): string[] =>
  names
    .flatMap((name) =>
      (process.env["PATH"] ?? "")
        .split(delimiter)
        .filter((folder) => folder !== "")
        .map((folder) => join(folder, name)),
    )
    .filter((path) => existsSync(path));

function runs(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
