// Sessions in a real browser: one that ends while a draft or a job is being worked on loses nothing; a
// technician on a phone, in Spanish, from the invitation to the first job delivered; a viewer, who is told in
// words what is not a viewer's.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { invitationPath, invite } from "../../editor/host/people/accounts.ts";
import { smallBook } from "../editor/host/support/books.ts";
import { phrase } from "../editor/host/support/network.ts";
import { pageFaults } from "./support/axe.ts";
import { cell, findRow } from "./support/bench.ts";
import { answerAll, answerOne, doTheRest, openJob, smallChip } from "./support/job.ts";
import { inNetworkShop } from "./support/network-shop.ts";
import { openBook } from "./support/shop.ts";

const shop = inNetworkShop();
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png` });
};
const patience = 40_000;

async function setTaper(page: Page, to: string): Promise<void> {
  await findRow(page, "dial house-taper", "house-taper");
  await cell(page, "dial house-taper", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of house-taper" });
  await field.fill((await field.inputValue()).replace(/1:\d+/, to));
  await field.press("Enter");
}
const kept = (page: Page) => page.locator(".tb-does .label");
const draftOf = async (book: string): Promise<string> =>
  (
    await shop.host.database.db
      .selectFrom("drafts")
      .select("text")
      .where("book", "=", book)
      .executeTakeFirst()
  )?.text ?? "";
const entries = async () =>
  shop.host.database.db.selectFrom("job_entries").select(["id", "delivered_by"]).execute();
async function signIn(page: Page, name: string): Promise<void> {
  await page.locator("input[name=name]").fill(name);
  await page.locator("input[name=password]").fill(phrase);
  await page.locator("form button[type=submit]").click();
}

test.each([1280, 820, 390])(
  "a draft that is being typed when the session ends is kept at the bench, which leads to the " +
    "sign-in and back, at %i px",
  async (width) => {
    const lead = await shop.person("Ilse Marrow", "lead", { width });
    const book = `small-panels-${width}`;
    const draft = (): Promise<string> => draftOf(book);
    await openBook(lead, smallBook().replace("small-panels", book), book);
    await setTaper(lead, "1:21");
    await kept(lead)
      .getByText(/Kept on the host, version \d+/)
      .waitFor();
    await shop.endSessions("Ilse Marrow");
    await setTaper(lead, "1:22");
    await lead
      .getByRole("alert")
      .getByText("You are not signed in at the shop’s host. What you type is kept in this browser")
      .waitFor({ timeout: patience });
    await kept(lead).getByText("Kept in this browser; sign in to keep it on the host").waitFor();
    expect(await pageFaults(lead)).toEqual([]);
    await shot(lead, `ended-${width}`);
    // Typed on, and the way to the sign-in taken at once.
    await setTaper(lead, "1:23");
    await lead.getByRole("alert").getByRole("link", { name: "Sign in" }).click();
    await lead.waitForURL("**/sign-in.html?back=%2F");
    expect(await draft()).toContain("1:21");
    await signIn(lead, "Ilse Marrow");
    await lead.waitForURL(`${shop.address}/`);
    await lead.locator(".tb-book b", { hasText: book }).waitFor();
    await expect.poll(draft, { timeout: patience }).toContain("1:23");
    await kept(lead)
      .getByText(/Kept on the host, version \d+/)
      .waitFor();

    // The other way: someone signs in at another tab, and this one goes on by itself.
    await shop.endSessions("Ilse Marrow");
    await setTaper(lead, "1:24");
    await lead.getByRole("alert").getByText("You are not signed in").waitFor({ timeout: patience });
    const tab = await lead.context().newPage();
    await tab.goto("/sign-in.html");
    await signIn(tab, "Ilse Marrow");
    await tab.waitForURL(`${shop.address}/`);
    await tab.close();
    await lead.bringToFront();
    await lead.evaluate(() => window.dispatchEvent(new Event("focus")));
    await expect.poll(draft, { timeout: patience }).toContain("1:24");
    await expect.poll(() => lead.getByText("You are not signed in").count()).toBe(0);
    // The panel of books says who sits here, and leads to the password and to the people.
    await lead.locator(".tb-book").click();
    await lead.locator(".signed-in-as").getByText("You are Ilse Marrow, lead.").waitFor();
    expect(
      await lead
        .locator(".signed-in-as a")
        .evaluateAll((links) => links.map((link) => link.getAttribute("href"))),
    ).toEqual(["/sign-in.html", "/people.html"]);
    await shot(lead, `books-${width}`);
    expect(shop.faults).toEqual([]);
  },
  180_000,
);

test("on a phone in Spanish: from the invitation to the first job delivered; a session that ends in " +
  "between keeps what waits and delivers it", async () => {
  const name = "Inventada Ruiz";
  const phone = await shop.stranger({ width: 390, height: 844, locale: "es-MX" });
  await phone.goto(`/${invitationPath((await invite(shop.host.database, "a test", "technician")).token)}`);
  await phone.getByText("Entra como técnico.").waitFor();
  await phone.getByLabel("Nombre").fill("<b>");
  await phone.getByLabel("Contraseña").fill(phrase);
  await phone.getByRole("button", { name: "Entrar" }).click();
  await phone.getByRole("alert").getByText("Un nombre tiene de 1 a 80 caracteres").waitFor();
  await phone.getByLabel("Nombre").fill(name);
  await phone.getByLabel("Contraseña").fill("1234567890");
  await phone.getByRole("button", { name: "Entrar" }).click();
  await phone.getByRole("alert").getByText("Esta contraseña es de las primeras que se prueban.").waitFor();
  await shot(phone, "phone-invited");
  await phone.getByLabel("Contraseña").fill(phrase);
  await phone.getByRole("button", { name: "Entrar" }).click();
  await phone.waitForURL("**/job.html");
  await openJob(phone);
  await answerAll(phone, smallChip, "Damage at its longest");
  await expect
    .poll(async () => (await entries()).map((one) => one.delivered_by), { timeout: patience })
    .toContain(name);

  await shop.endSessions(name);
  await answerAll(phone, smallChip, "From the damage to the nearest edge");
  await phone
    .getByText("para entregar, tiene que entrar un técnico o un responsable")
    .waitFor({ timeout: patience });
  const before = (await entries()).length;
  expect(await pageFaults(phone)).toEqual([]);
  await shot(phone, "phone-ended");
  await phone.getByRole("link", { name: "Entrar" }).click();
  await phone.waitForURL(/sign-in\.html\?back=%2Fjob\.html/);
  await signIn(phone, name);
  await phone.waitForURL(/\/job\.html/);
  await expect.poll(async () => (await entries()).length, { timeout: patience }).toBeGreaterThan(before);

  // The job goes on where it stood, to the sign-off.
  await phone.getByText("From the damage to the nearest edge").first().waitFor();
  await shot(phone, "phone-back");
  await answerAll(phone, smallChip);
  await doTheRest(phone);
  // Who signs is who is signed in.
  expect(await phone.locator(".sign-name input").inputValue()).toBe(name);
  expect(await phone.locator(".sign-name input").isEditable()).toBe(false);
  await phone.locator(".sign-note textarea").fill("Inventado");
  await phone.locator(".sign-press").click();
  await phone.locator(".sign-press").click();
  await phone.locator(".signed-head").waitFor();
  const signed = () => shop.host.database.db.selectFrom("jobs").select("state").execute();
  await expect
    .poll(async () => (await signed()).map((one) => one.state), { timeout: patience })
    .toContain("signed");
  await phone.getByText(/entregado/).waitFor({ timeout: patience });
  await shot(phone, "phone-signed");
  expect(await pageFaults(phone)).toEqual([]);

  // What is a lead's is said in words.
  await phone.goto("/people.html");
  await phone.getByRole("alert").getByText("Solo un responsable se ocupa de las personas.").waitFor();
  expect(shop.faults).toEqual([]);
}, 240_000);

test("a viewer reads all but the log, and is told in words what is not a viewer's", async () => {
  const viewer = await shop.person("V. Invented", "viewer");
  await openBook(viewer, smallBook(), "small-panels");
  await kept(viewer).getByText("Kept in this browser; only a lead saves to the host").waitFor();
  await viewer.getByRole("button", { name: "Editions", exact: true }).click();
  await viewer.getByText("Only a lead seals.").waitFor();
  expect(await viewer.getByRole("button", { name: "Seal the next edition" }).count()).toBe(0);
  await shot(viewer, "viewer-editions");
  await viewer.getByRole("button", { name: "Log", exact: true }).click();
  await viewer.locator(".log-face").waitFor();
  expect(await viewer.getByRole("button", { name: "Who did what" }).count()).toBe(0);
  await shot(viewer, "viewer-log");
  await viewer.locator(".tb-book").click();
  expect(
    await viewer
      .locator(".signed-in-as a")
      .evaluateAll((links) => links.map((link) => link.getAttribute("href"))),
  ).toEqual(["/sign-in.html"]);
  // On the job page a viewer may try what a book says; it is kept here and not delivered.
  const before = (await entries()).length;
  await openJob(viewer);
  await answerOne(viewer, { pick: "body" });
  await viewer
    .getByText("to be delivered, a technician or lead has to sign in")
    .waitFor({ timeout: patience });
  await shot(viewer, "viewer-job");
  expect((await entries()).length).toBe(before);
  expect(shop.faults).toEqual([]);
}, 120_000);
