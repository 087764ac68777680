// The sign-in and people pages at three widths in two languages, without serious faults by the axe rules; and
// the content policy in a real browser on every page (OWASP Top 10, 2021, A05): nothing of the pages goes
// against it, and no text is run as a script.
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { invitationPath, invite } from "../../editor/host/people/accounts.ts";
import { smallBook } from "../editor/host/support/books.ts";
import { pageFaults } from "./support/axe.ts";
import { face, openText } from "./support/bench.ts";
import { answerOne, openJob } from "./support/job.ts";
import { inNetworkShop } from "./support/network-shop.ts";
import { openBook } from "./support/shop.ts";

const shop = inNetworkShop();
const shot = async (page: Page, name: string): Promise<void> => {
  if (process.env["BEVELBOOK_SHOTS"])
    await page.screenshot({ path: `${process.env["BEVELBOOK_SHOTS"]}/${name}.png`, fullPage: true });
};
const widths = [1280, 820, 390] as const;
const languages = ["en-US", "es-MX"] as const;

test.each(widths.flatMap((width) => languages.map((locale) => [width, locale] as const)))(
  "signing in, an invitation, the own password and the people of the shop at %i px in %s",
  async (width, locale) => {
    const device = { width, height: 900, locale };
    const es = locale === "es-MX";
    const name = (what: string): string => `${what}-${width}-${locale}`;
    const stranger = await shop.stranger(device);
    await stranger.goto("/job.html");
    await stranger.locator("form").waitFor();
    expect(await stranger.locator("html").getAttribute("lang")).toBe(es ? "es" : "en");
    expect(await pageFaults(stranger), "sign in").toEqual([]);
    await stranger.getByRole("textbox", { name: es ? "Nombre" : "Name" }).fill(`Nobody ${width} ${locale}`);
    await stranger.getByLabel(es ? "Contraseña" : "Password").fill("wrong wrong wrong");
    await stranger.getByRole("button").click();
    await stranger
      .getByRole("alert")
      .getByText(
        es ? "El nombre o la contraseña no son correctos." : "The name or the password is not right.",
      )
      .waitFor();
    expect(await pageFaults(stranger), "refused").toEqual([]);
    await shot(stranger, name("refused"));
    // Invitations opened in the tab where the page stands already: one that is over, one that is open.
    await stranger.goto("/sign-in.html");
    await stranger.goto(`/${invitationPath("a".repeat(43))}`);
    await stranger
      .getByRole("alert")
      .getByText(es ? "Esta invitación ya se usó" : "This invitation was used")
      .waitFor();
    await stranger.goto(
      `/${invitationPath((await invite(shop.host.database, "a test", "technician")).token)}`,
    );
    await stranger.getByRole("heading", { name: es ? "Tiene una invitación" : "You are invited" }).waitFor();
    const invited = await shop.stranger(device);
    await invited.goto(
      `/${invitationPath((await invite(shop.host.database, "a test", "technician")).token)}`,
    );
    await invited.locator("#rule").waitFor();
    expect(await pageFaults(invited), "invitation").toEqual([]);
    await shot(invited, name("invited"));

    const lead = await shop.person("Ilse Marrow", "lead", device);
    await shop.person("Maximiliana Vandenbrouck-Oyelaran of the second yard", "technician", device);
    await lead.goto("/people.html");
    await lead.locator(".people-list").first().waitFor();
    await lead.getByRole("button", { name: es ? "Hacer una invitación" : "Make an invitation" }).click();
    await lead.locator(".people-link").waitFor();
    await lead.locator(".people-list").nth(1).waitFor();
    expect(await pageFaults(lead), "people").toEqual([]);
    await shot(lead, name("people"));
    // The last lead is told in words, and stays.
    await lead.getByRole("combobox", { name: /Ilse Marrow/ }).selectOption("viewer");
    await lead
      .getByRole("alert")
      .getByText(es ? "Es el último responsable." : "This is the last lead.")
      .waitFor();
    expect(await lead.getByRole("combobox", { name: /Ilse Marrow/ }).inputValue()).toBe("lead");
    await lead.goto("/sign-in.html");
    await lead.locator("#rule").waitFor();
    expect(await pageFaults(lead), "own password").toEqual([]);
    await shot(lead, name("own"));

    const viewer = await shop.person("V. Invented", "viewer", device);
    await viewer.goto("/people.html");
    await viewer
      .getByRole("alert")
      .getByText(es ? "Solo un responsable se ocupa de las personas." : "Only a lead looks after people.")
      .waitFor();
    expect(await viewer.getByRole("link").count()).toBe(2);
    expect(await pageFaults(viewer), "not for a viewer").toEqual([]);
    await shot(viewer, name("viewer"));
    expect(shop.faults).toEqual([]);
  },
  120_000,
);

/** Tries to run texts as scripts from a script of the host's own, as one that was smuggled into it would. */
async function runsTexts(page: Page): Promise<readonly string[]> {
  await page.route("**/probe.js", (route) =>
    route.fulfill({
      contentType: "text/javascript",
      body: `
    window.ran = [];
    try { window.eval("window.ran.push('eval')"); } catch {}
    try { new Function("window.ran.push('Function')")(); } catch {}
    try { setTimeout("window.ran.push('setTimeout')", 0); } catch {}
    const inline = document.createElement("script");
    inline.textContent = "window.ran.push('inline')";
    document.body.append(inline);
    const pressed = document.createElement("button");
    pressed.setAttribute("onclick", "window.ran.push('onclick')");
    document.body.append(pressed);
    pressed.click();
    pressed.remove();
    const data = document.createElement("script");
    data.src = "data:text/javascript,window.ran.push('data')";
    document.body.append(data);
    const frame = document.createElement("iframe");
    frame.srcdoc = "<script>parent.ran.push('frame')</script>";
    document.body.append(frame);`,
    }),
  );
  await page.evaluate(
    () =>
      new Promise((resolve, reject) => {
        const script = document.createElement("script");
        Object.assign(script, { src: "/probe.js", onload: () => setTimeout(resolve, 500), onerror: reject });
        document.body.append(script);
      }),
  );
  return page.evaluate(() => (window as unknown as { ran: string[] }).ran);
}

test("A05: the content policy: no page goes against it in anything that it does, and on none is a " +
  "text run as a script", async () => {
  const page = await shop.person("Ilse Marrow", "lead");
  const quiet = (where: string): void => {
    expect(shop.faults, where).toEqual([]);
  };
  /**
   * After a page was gone through: texts are not run there, in its workers neither, and the browser says so,
   * which shows that it would have said so before.
   */
  const refuses = async (where: string): Promise<void> => {
    quiet(where);
    expect(await runsTexts(page), where).toEqual([]);
    await expect
      .poll(() => shop.faults.filter((one) => one.startsWith("policy: script-src")).length)
      .toBeGreaterThan(3);
    for (const worker of page.workers())
      expect(
        await worker.evaluate(
          () =>
            new Promise<boolean>((resolve) => {
              setTimeout(() => {
                try {
                  resolve((self as unknown as Record<string, (text: string) => number>)["eval"]!("1") === 1);
                } catch {
                  resolve(false);
                }
              }, 0);
            }),
        ),
        `${where}: ${worker.url()}`,
      ).toBe(false);
    shop.faults.length = 0;
  };
  await openBook(page, smallBook(), "small-panels");
  await openText(page);
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\nfigure tried in mm = th");
  await page.locator(".suggest-widget.visible, .squiggly-error").first().waitFor();
  await page.keyboard.press("Escape");
  for (let n = 0; n < "\nfigure tried in mm = th".length; n += 1) await page.keyboard.press("Backspace");
  quiet("the bench's text");
  for (const [name, part] of [
    ["Both", ".floor-sheet"],
    ["Card", ".floor-card"],
    ["Standing", ".floor-standing .record"],
    ["Editions", ".floor-editions .record"],
    ["Log", ".floor-editions .log-face"],
  ] as const) {
    if (name === "Both" || name === "Card") await face(page, name);
    else await page.getByRole("button", { name, exact: true }).click();
    await page.locator(part).first().waitFor();
    quiet(`the bench's ${name}`);
  }
  expect(page.workers().length).toBeGreaterThan(1);
  await refuses("the bench");

  await openJob(page);
  await answerOne(page, { pick: "body" });
  await page.locator(".page-head-line button").last().click();
  await page.locator(".page-settings").waitFor();
  expect(page.workers().length).toBeGreaterThan(0);
  await refuses("the job page");
  await page.goto("/people.html");
  await page.locator(".people-list").first().waitFor();
  await refuses("people");
  await page.goto("/sign-in.html");
  await page.locator("#rule").waitFor();
  await refuses("the own password");
  await shop.endSessions("Ilse Marrow");
  await page.goto("/sign-in.html");
  await page.getByLabel("Password").waitFor();
  await refuses("sign in");
}, 180_000);
