// A host that serves a network over an encrypted line, and browsers at it: known to it by a session on its
// shelf, or strangers.
import { createHash, randomBytes, randomUUID } from "node:crypto";
import type { Browser, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, inject } from "vitest";
import type { Role } from "../../../core/schemas/host.ts";
import { type Host, openHost } from "../../../editor/host/host.ts";
import { hashPassword } from "../../../editor/host/people/passwords.ts";
import { nameKeyOf } from "../../../editor/host/people/name-key.ts";
import { nameless, phrase, selfMade } from "../../editor/host/support/network.ts";
import { freshFolder } from "../../editor/host/support/places.ts";
import { theBrowser } from "./browser.ts";

interface Device {
  readonly width?: number;
  readonly height?: number;
  readonly locale?: string;
}
export interface NetworkShop {
  readonly host: Host;
  readonly address: string;
  /** What pages reported as broken: errors, dialogs, and what the content policy refused. */
  readonly faults: string[];
  /** A browser that the host does not know. */
  stranger(device?: Device): Promise<Page>;
  /** A browser of this person, who is made if need be, with a session and the password `phrase`. */
  person(name: string, role: Role, device?: Device): Promise<Page>;
  /** Ends all sessions of the person on the host, as time or a lead does. */
  endSessions(name: string): Promise<void>;
}

/** One host for the file. */
// biome-ignore lint/complexity/noExcessiveLinesPerFunction: the set-up of a file of tests, in its order.
export function inNetworkShop(): NetworkShop {
  let browser: Browser;
  let host: Host;
  const open: Page[] = [];
  const faults: string[] = [];
  beforeAll(async () => {
    const opened = await openHost(
      inject("folder"),
      { host: "0.0.0.0", port: 0, tls: selfMade() },
      { data: freshFolder(), proofSeconds: 0 },
    );
    if ("failed" in opened) throw new Error(opened.failed);
    host = opened;
    browser = await theBrowser();
  });
  afterEach(async () => {
    faults.length = 0;
    await Promise.all(open.splice(0).map((page) => page.context().close()));
  });
  afterAll(async () => {
    await host?.close();
  });
  const shop: NetworkShop = {
    get host() {
      return host;
    },
    get address() {
      return `https://localhost:${host.port}`;
    },
    faults,
    stranger: async ({ width = 1280, height = 900, locale = "en-US" } = {}) => {
      const context = await browser.newContext({
        ignoreHTTPSErrors: true,
        baseURL: shop.address,
        locale,
        viewport: { width, height },
      });
      context.setDefaultTimeout(20_000);
      await context.addInitScript(() => {
        document.addEventListener("securitypolicyviolation", (event) =>
          console.error(`policy: ${event.effectiveDirective} ${event.blockedURI}`),
        );
      });
      const page = await context.newPage();
      page.on("dialog", (dialog) => {
        faults.push(`dialog: ${dialog.message()}`);
        void dialog.dismiss();
      });
      page.on("pageerror", (error) => faults.push(String(error)));
      // The browser's own report as well: it also comes from workers.
      context.on("console", (line) => {
        if (/^policy: |Content Security Policy/.test(line.text())) faults.push(line.text());
      });
      open.push(page);
      return page;
    },
    person: async (name, role, device) => {
      const token = randomBytes(32).toString("base64url");
      const password = await hashPassword(phrase);
      await host.database.write("a test", async (tx, _tell, at) => {
        await tx
          .insertInto("people")
          .values({ id: randomUUID(), name, name_key: nameKeyOf(name), role, password, made: at })
          .onConflict((on) => on.column("name_key").doNothing())
          .execute();
        const { id } = await tx
          .selectFrom("people")
          .select("id")
          .where("name_key", "=", nameKeyOf(name))
          .executeTakeFirstOrThrow();
        await tx
          .insertInto("sessions")
          .values({
            token: createHash("sha256").update(token).digest("hex"),
            person: id,
            begun: at,
            seen: at,
            device: "",
          })
          .execute();
      });
      const page = await shop.stranger(device);
      await page.context().addCookies([
        {
          name: nameless,
          value: token,
          domain: "localhost",
          path: "/",
          httpOnly: true,
          secure: true,
          sameSite: "Strict",
        },
      ]);
      return page;
    },
    endSessions: async (name) => {
      await host.database.write("a test", async (tx) =>
        tx
          .deleteFrom("sessions")
          .where("person", "in", tx.selectFrom("people").select("id").where("name_key", "=", nameKeyOf(name)))
          .execute(),
      );
    },
  };
  return shop;
}
