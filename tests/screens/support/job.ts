// The technician's page as a person uses it: one question at a time, each answered in its own way.
import type { Page } from "playwright-core";
import { expect } from "vitest";

export type Given =
  | { readonly pick: string }
  | { readonly number: string; readonly unit?: string }
  /** Sixteenths tapped on the drawn inch, after the unit. */
  | { readonly tap: string };

/**
 * The answers of a small chip in the face of a hand-laid panel, as a technician with an inch rule and a
 * metric gauge would give them.
 */
export const smallChip: Readonly<Record<string, Given>> = {
  "How far does the damage go?": { pick: "surface" },
  "Damage at its longest": { tap: "3/4 inch" },
  "Damage at its widest": { number: "3/8", unit: "inch" },
  "Panel thickness at the break": { number: "1/8", unit: "inch" },
  "Damage at its deepest": { number: "1,2" },
  "From the damage to the nearest edge": { number: "60" },
  "Does the spot flex or shake": { pick: "no" },
  "Can you reach the back": { pick: "yes" },
  "What does the part do?": { pick: "body" },
  "What lies behind the damage": { pick: "clear" },
  "What shows in the broken edge": { pick: "glass-fibre" },
  "How does the back of the panel feel": { pick: "rough" },
  "What do the strands in the broken edge look like": { pick: "layered" },
  "Air at the panel": { number: "68", unit: "°F" },
  "Coldest temperature": { number: "15" },
  "Least liquid peroxide": { number: "1" },
  "Most liquid peroxide": { number: "2" },
  "The panel itself": { number: "20" },
  "Relative humidity": { number: "50" },
};

/**
 * The answers of a hole in the topside of a small boat, 6 mm solid laminate in a shed at 14 °C, by the book
 * small-craft.
 */
export const hullHole: Readonly<Record<string, Given>> = {
  "What does the damaged part do?": { pick: "plain" },
  "Where is the damage?": { pick: "topside" },
  "What shows in the broken edge": { pick: "glass" },
  "How far does the damage go": { pick: "through" },
  "Is the panel solid or a sandwich": { pick: "single" },
  "Damage that the eye sees, at its longest": { number: "80" },
  "Damage that the eye sees, square": { number: "45" },
  "How far past it": { number: "10" },
  "Thickness of the skin": { number: "6" },
  "From the damage to the nearest": { number: "600" },
  "Can you reach the inside": { pick: "yes" },
  "What resin is the boat built with": { pick: "ester-built" },
  "What is the outer face": { pick: "gel-coat" },
  "Moisture meter": { number: "8" },
  "Air at the damage": { number: "14" },
  "Coldest temperature": { number: "10" },
  "Least liquid peroxide": { number: "1" },
  "Most liquid peroxide": { number: "2" },
  "Hardener to 100 parts of the epoxy": { number: "25" },
  "The laminate itself": { number: "14" },
  "Relative humidity": { number: "55" },
  "Can you tent the damage": { pick: "yes" },
};

export async function openJob(page: Page): Promise<void> {
  await page.goto("/job.html?book=road-panels");
  await page.locator(".job-state").waitFor();
}

export const question = (page: Page): Promise<string> => page.locator(".question-text").innerText();

/**
 * Answers what is asked until nothing is left to ask, or until the question that begins with `upTo` is asked.
 */
export async function answerAll(
  page: Page,
  given: Readonly<Record<string, Given>>,
  upTo?: string,
): Promise<void> {
  for (let n = 0; n < 40; n += 1) {
    if (await page.locator(".job.is-settled").isVisible()) return;
    const asked = await question(page);
    if (upTo !== undefined && asked.startsWith(upTo)) return;
    const found = Object.entries(given).find(([begins]) => asked.startsWith(begins));
    expect(found, `an answer to “${asked}”`).toBeDefined();
    await answerOne(page, found![1]);
    // The next question, or the card, once the answer has been worked.
    await page.waitForFunction(
      (was) =>
        document.querySelector(".job.is-settled") !== null ||
        document.querySelector(".question-text")?.textContent !== was,
      asked,
    );
  }
}

export async function answerOne(page: Page, given: Given): Promise<void> {
  if ("pick" in given) {
    await page
      .locator(".question .choice", {
        has: page.getByText(given.pick === "yes" ? /^(yes|sí)$/ : given.pick, { exact: true }),
      })
      .click();
    return;
  }
  if ("tap" in given) {
    await page.getByRole("radio", { name: "inch", exact: true }).check();
    await page.getByRole("button", { name: given.tap, exact: true }).click();
  } else {
    if (given.unit !== undefined) await page.getByRole("radio", { name: given.unit, exact: true }).check();
    await page.locator(".quantity-number").pressSequentially(given.number);
  }
  await page.locator(".question-reach [type=submit]").click();
}

/** Ticks every step that is neither done nor left out, and puts away the timers that run. */
export async function doTheRest(page: Page): Promise<void> {
  await page.locator(".card-tick input").first().waitFor();
  await page.evaluate(async () => {
    const drawn = (): Promise<unknown> => new Promise((done) => requestAnimationFrame(done));
    for (const step of document.querySelectorAll(".card-step")) {
      const tick = step.querySelector<HTMLInputElement>(".card-tick input")!;
      if (tick.checked || step.querySelector(".step-left > b") !== null) continue;
      tick.click();
      // Each tick is kept before the next is made, as a hand would.
      while (!step.classList.contains("is-done")) await drawn();
    }
    for (const button of document.querySelectorAll<HTMLButtonElement>(".timer .button")) button.click();
  });
  await page.locator(".sign-press").waitFor();
}
