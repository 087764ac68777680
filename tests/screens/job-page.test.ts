// The technician's page around its questions: which book, which language, which hand, what lies in reach, how
// far off a measure may be, what words mean, and a reason in three depths.
import { expect, test } from "vitest";
import { allKept, inBrowser, openBench, until } from "./support/bench.ts";
import { answerAll, answerOne, openJob, question, hullHole, smallChip } from "./support/job.ts";

const browser = inBrowser();
const own =
  'book sill-covers, edition 2\n    "Sill covers"\npart "Measures"\nask size in mm, 0 to ' +
  '10\n    "How deep is the mark on the cover?"\nstep rub "Rub it down {size}"\n';

test(
  "with more than one book the page asks which, remembers it, and goes over to another " + "with a new job",
  async () => {
    const context = await browser.profile(820, 1180);
    const bench = await context.newPage();
    await openBench(bench);
    await bench
      .getByLabel("A book's file")
      .setInputFiles({ name: "sill-covers.bevel", mimeType: "text/plain", buffer: Buffer.from(own) });
    await bench.locator('[data-row="ask size"]').waitFor();
    await allKept(bench);
    const page = await context.newPage();
    await page.goto("/job.html");
    await page.getByRole("heading", { name: "Which book does this job go by?" }).waitFor();
    await page.getByRole("button", { name: /Sill covers/ }).click();
    await until(
      () => question(page),
      (says) => says === "How deep is the mark on the cover?",
    );
    await answerOne(page, { number: "4" });
    await page.locator(".card-step").first().waitFor();
    await page.reload();
    await page.locator(".card-step", { hasText: "Rub it down 4 mm" }).waitFor();
    await page.getByRole("button", { name: "Another book" }).click();
    await page.getByRole("button", { name: /Reinforced-plastic panels/ }).click();
    await until(
      () => question(page),
      (says) => says === "What does the part do?",
    );
  },
);

test(
  "the language is one press away and remembered; what the app says is in it, the " + "book's words stay",
  async () => {
    const page = await browser.page(820, 1180);
    await openJob(page);
    await page.getByRole("button", { name: "Español" }).click();
    await until(
      () => page.locator(".job-state").innerText(),
      (says) => says.includes("En espera"),
    );
    expect(await page.locator("html").getAttribute("lang")).toBe("es");
    expect(await page.title()).toBe("Hoja de trabajo");
    expect(await question(page)).toBe("What does the part do?");
    await page.reload();
    await page.getByRole("button", { name: "No se sabe" }).waitFor();
    await answerAll(page, smallChip);
    const card = page.getByRole("region", { name: "Hoja de trabajo" });
    expect(await card.innerText()).toMatch(/Listo[\s\S]*Cuidado[\s\S]*Trabajo en \d+ pasos/);
    await page.getByRole("button", { name: "English" }).click();
    await page.getByRole("region", { name: "Job card" }).waitFor();
  },
);

test.each([
  [820, 1180],
  [390, 844],
] as const)(
  "at %i px what is pressed last lies at the lower edge, on the side of the hand, and is large",
  async (width, height) => {
    const page = await browser.page(width, height);
    await openJob(page);
    await answerAll(page, smallChip, "Panel thickness");
    const take = page.getByRole("button", { name: "Take this answer" });
    const box = (await take.boundingBox())!;
    // Nothing that is filled in before lies under it or above the screen.
    for (const field of [
      page.locator(".quantity-number"),
      page.locator(".quantity-line .pick-one-stop").last(),
    ]) {
      const at = (await field.boundingBox())!;
      expect(at.y).toBeGreaterThanOrEqual(0);
      expect(at.y + at.height).toBeLessThanOrEqual(box.y);
    }
    // The lower third of the screen, above the bar along its edge.
    expect(box.y).toBeGreaterThan(height * 0.6);
    expect(box.y + box.height).toBeLessThanOrEqual(height);
    const see = page.getByRole("button", { name: "See the card" });
    expect((await see.boundingBox())!.x).toBeGreaterThan(width / 2);
    await page.getByRole("button", { name: "Settings" }).click();
    await page.getByRole("radio", { name: "Left" }).check();
    expect((await see.boundingBox())!.x).toBeLessThan(width / 2);
    await page.reload();
    await see.waitFor();
    expect((await see.boundingBox())!.x).toBeLessThan(width / 2);
    // Everything that is pressed to answer is at least 48 px high (44 is the least of WCAG 2.2, 2.5.5).
    for (const button of await page.locator(".question button, .job-jump, .page-head button").all())
      if (await button.isVisible()) expect((await button.boundingBox())!.height).toBeGreaterThanOrEqual(48);
  },
);

test("who is not sure taps how far off it may be, and thirty-seconds of an inch can be tapped", async () => {
  const page = await browser.page(390, 844);
  await openJob(page);
  await answerAll(page, smallChip, "Panel thickness");
  await page.locator(".quantity-number").fill("3,2");
  await page.getByRole("button", { name: "± I am not sure" }).click();
  await page.getByRole("button", { name: "± 0.2 mm" }).click();
  await page.getByRole("button", { name: "Take this answer" }).click();
  await until(
    () => page.locator(".ask-row.is-answered", { hasText: "Panel thickness" }).innerText(),
    (says) => says.includes("3.2 mm"),
  );
  await answerAll(page, smallChip, "Damage at its deepest");
  await page.getByRole("radio", { name: "inch", exact: true }).check();
  await page.getByRole("button", { name: "In 32nds" }).click();
  await page.getByRole("button", { name: "3/32 inch", exact: true }).click();
  expect(await page.locator(".quantity-number").inputValue()).toBe("3/32");
});

test(
  "a word stands with what it means, and a reason goes from a sentence to everything to what " +
    "would change it",
  async () => {
    const page = await browser.page(820, 1180);
    await openJob(page);
    expect(
      await page.locator(".choice", { hasText: "Carries load: floor, frame, roof" }).innerText(),
    ).toContain("load-bearing");
    await answerAll(page, smallChip);
    const card = page.getByRole("region", { name: "Job card" });
    expect(await card.locator(".card-meant").first().innerText()).toContain("smooth face, rough back");
    expect(await card.locator(".card-rests").innerText()).toContain("Pale glass strands");
    await card.getByRole("button", { name: "hand-laid: why?" }).first().click();
    const why = page.getByRole("dialog", { name: "Why skin" });
    await why.locator(".why-sentence").waitFor();
    expect(await why.locator(".why-line").count()).toBe(0);
    await why.getByRole("radio", { name: "Everything" }).check();
    await why.locator(".why-line").first().waitFor();
    await why.getByRole("radio", { name: "What would change it" }).check();
    await why.getByText("skin becomes closed-mould").waitFor();
    expect(await why.innerText()).toContain("As smooth as the front");
    await why.getByRole("button", { name: /How does the back of the panel feel/ }).click();
    await until(
      () => question(page),
      (says) => says.startsWith("How does the back of the panel feel"),
    );
  },
);

test(
  "among the answers that a value follows, one that was never asked is said to be not answered, " +
    "in either language",
  async () => {
    const page = await browser.page(820, 1180);
    await page.goto("/job.html?book=small-craft");
    await page.locator(".job-state").waitFor();
    await answerAll(page, hullHole);
    expect(await page.locator(".job-title").innerText()).toBe("Small fibreglass boats edition 1");
    for (const [language, change, says] of [
      ["English", "What would change it", "not answered"],
      ["Español", "Qué lo cambiaría", "sin contestar"],
    ] as const) {
      if (language === "Español") await page.getByRole("button", { name: language }).click();
      await page
        .getByRole("button", { name: /^75 mm: / })
        .first()
        .click();
      const why = page.getByRole("dialog");
      await why.getByRole("radio", { name: change }).check();
      await until(
        () => why.locator(".what-changes .ask-row", { hasText: "How deep the damage goes" }).innerText(),
        (row) => row.includes(says),
      );
      expect(await why.locator(".what-changes").innerText()).not.toContain("waits for");
      await page.keyboard.press("Escape");
      await why.waitFor({ state: "hidden" });
    }
  },
);
