// People over an encrypted line in a real browser: the first lead by invitation, a technician who works and
// delivers, a viewer who cannot; and texts of a hostile shop that are shown and not run (OWASP Top 10, 2021,
// A03: stored cross-site scripting).
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, expect, inject, test } from "vitest";
import { type Host, openHost } from "../../editor/host/host.ts";
import { phrase, selfMade } from "../editor/host/support/network.ts";
import { theBrowser } from "./support/browser.ts";
import { openJob } from "./support/job.ts";

let browser: Browser;
let host: Host;
let address = "";
const data = mkdtempSync(join(tmpdir(), "bevelbook-people-"));
beforeAll(async () => {
  const open = await openHost(
    inject("folder"),
    { host: "0.0.0.0", port: 0, tls: selfMade() },
    { data, proofSeconds: 0 },
  );
  if ("failed" in open) throw new Error(open.failed);
  host = open;
  address = `https://localhost:${open.port}`;
  browser = await theBrowser();
});
afterAll(async () => {
  await Promise.all(devices.map((one) => one.close()));
  await host?.close();
  rmSync(data, { recursive: true, force: true });
});

const faults: string[] = [];
const devices: BrowserContext[] = [];
async function device(): Promise<Page> {
  const context = await browser.newContext({
    ignoreHTTPSErrors: true,
    baseURL: address,
    locale: "en-GB",
    viewport: { width: 820, height: 1000 },
  });
  devices.push(context);
  const page = await context.newPage();
  page.on("dialog", (dialog) => {
    faults.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on("pageerror", (error) => faults.push(String(error)));
  return page;
}
const come = async (page: Page, name: string): Promise<void> => {
  await page.getByLabel("Password").waitFor();
  if (await page.getByLabel("Name").isVisible()) await page.getByLabel("Name").fill(name);
  await page.getByLabel("Password").fill(phrase);
  await page.getByRole("button", { name: /Come in|Sign in/ }).click();
};
const status = (page: Page, method: string, path: string, body?: unknown): Promise<number> =>
  page.evaluate(
    async ([how, where, what]) =>
      (
        await fetch(where!, {
          method: how!,
          ...(what === null ? {} : { headers: { "Content-Type": "application/json" }, body: what! }),
        })
      ).status,
    [method, path, body === undefined ? null : JSON.stringify(body)] as const,
  );

const hostile = 'O\'Hara" onfocus=alert(1) autofocus x="';

test("the first lead comes in by invitation, invites a technician who works and delivers, and a " +
  "viewer who cannot", async () => {
  const lead = await device();
  // Without a session the pages lead here, and back.
  await lead.goto("/people.html");
  await lead.waitForURL("**/sign-in.html?back=%2Fpeople.html");
  await lead.goto(`/${host.firstLead}`);
  await lead.getByText("You come in as lead").waitFor();
  expect(lead.url()).not.toContain("invited");
  await lead.getByLabel("Name").fill(hostile);
  await lead.getByLabel("Password").fill("short");
  await lead.getByRole("button", { name: "Come in" }).click();
  await lead.getByRole("alert").getByText("at least 10 characters").waitFor();
  await come(lead, hostile);
  await lead.waitForURL(`${address}/`);
  await lead.goto("/people.html");
  await lead.getByText(hostile).waitFor();
  const [cookie] = await lead.context().cookies();
  expect(cookie).toMatchObject({
    name: "__Host-bevelbook",
    httpOnly: true,
    secure: true,
    sameSite: "Strict",
  });
  const invite = async (role: string): Promise<string> => {
    await lead.getByLabel("Role", { exact: true }).selectOption(role);
    const before = await lead
      .getByLabel("Address of the invitation")
      .inputValue({ timeout: 100 })
      .catch(() => "");
    await lead.getByRole("button", { name: "Make an invitation" }).click();
    await expect.poll(() => lead.getByLabel("Address of the invitation").inputValue()).not.toBe(before);
    return lead.getByLabel("Address of the invitation").inputValue();
  };
  const [forTechnician, forViewer] = [await invite("technician"), await invite("viewer")];
  if (process.env["BEVELBOOK_PICTURES"])
    await lead.screenshot({ path: join(process.env["BEVELBOOK_PICTURES"], "people.png") });

  const technician = await device();
  await technician.goto("/job.html");
  await technician.waitForURL("**/sign-in.html?back=%2Fjob.html");
  if (process.env["BEVELBOOK_PICTURES"])
    await technician.screenshot({ path: join(process.env["BEVELBOOK_PICTURES"], "sign-in.png") });
  await technician.goto(forTechnician);
  await technician.getByText("You come in as technician").waitFor();
  await come(technician, "R. Invented");
  await technician.waitForURL("**/job.html");
  await openJob(technician);
  await technician.locator(".question .choice").first().click();
  await expect
    .poll(
      async () =>
        (await host.database.db.selectFrom("job_entries").select("delivered_by").execute()).map(
          (row) => row.delivered_by,
        ),
      { timeout: 20_000 },
    )
    .toContain("R. Invented");
  expect([
    await status(technician, "GET", "/api/books"),
    await status(technician, "GET", "/api/people"),
    await status(technician, "PUT", "/api/books/x/draft", { base: 0, text: "x" }),
  ]).toEqual([200, 403, 403]);

  const viewer = await device();
  await viewer.goto(forViewer);
  await viewer.getByText("You come in as viewer").waitFor();
  await come(viewer, "V. Invented");
  await viewer.waitForURL(`${address}/`);
  expect([
    await status(viewer, "GET", "/api/jobs"),
    await status(viewer, "POST", "/api/jobs/entries", { entries: [] }),
    await status(viewer, "GET", "/api/log"),
  ]).toEqual([200, 403, 403]);

  // The session is ended by the lead: what is written goes on, is kept on the tablet, and the page says what
  // to do.
  await lead.reload();
  await lead.getByRole("button", { name: "Sign out everywhere: R. Invented" }).click();
  await expect.poll(() => status(technician, "GET", "/api/hello")).toBe(401);
  const delivered = (await host.database.db.selectFrom("job_entries").select("id").execute()).length;
  await technician.locator(".question .choice").first().click();
  await technician.getByText(/a technician or lead has to sign in/).waitFor({ timeout: 20_000 });
  // The line that says so leads to the sign-in and back.
  await technician.locator(".record-kept").getByRole("link", { name: "Sign in" }).click();
  await technician.waitForURL(/sign-in\.html\?back=%2Fjob\.html/);
  await come(technician, "r. invented");
  await technician.waitForURL(/\/job\.html/);
  await expect
    .poll(async () => (await host.database.db.selectFrom("job_entries").select("id").execute()).length, {
      timeout: 20_000,
    })
    .toBeGreaterThan(delivered);
  expect(faults).toEqual([]);
}, 120_000);

test("A03: texts of a hostile book are shown as they stand and never run", async () => {
  const page = await device();
  await page.goto("/sign-in.html");
  await come(page, hostile);
  await page.waitForURL(`${address}/`);
  const evil = "<img src=x onerror=alert(1)><script>alert(2)</script>";
  const text =
    `book hostile-book, edition 1\n    "Title ${evil}"\n\nask thickness in mm, 2 to 8\n    ` +
    `"Ask ${evil}"\n\nfigure bevel in mm = thickness * 2\n    because "Reason ${evil}"\n    from practice\n`;
  await page.getByLabel("A book's file").setInputFiles({
    name: `${evil}.bevel`.replace(/\//g, ""),
    mimeType: "text/plain",
    buffer: Buffer.from(text),
  });
  await page.getByText("<img src=x onerror=alert(1)>").first().waitFor();
  expect(await page.locator("img[src=x], script:not([src])").count()).toBe(0);
  // And were it put into the page, the content policy would not run it.
  const ran = await page.evaluate(async () => {
    const script = document.createElement("script");
    script.textContent = "window.ranInline = true";
    document.body.append(script);
    const button = document.createElement("button");
    button.setAttribute("onclick", "window.ranInline = true");
    document.body.append(button);
    button.click();
    return (window as { ranInline?: boolean }).ranInline === true;
  });
  expect(ran).toBe(false);
  expect(faults).toEqual([]);
}, 60_000);
