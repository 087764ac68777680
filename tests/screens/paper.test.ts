// The card on paper, read back from the printed sheets: A4 and Letter, in both languages. The work is one
// sheet with its head, every step whole and lines to sign; the drawings follow; nothing runs past the
// margins.
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { inBrowser } from "./support/bench.ts";
import { answerAll, hullHole, openJob, smallChip } from "./support/job.ts";

const browser = inBrowser();

/**
 * ISO 216 A4 is 210 mm by 297 mm, ANSI/ASME Y14.1 Letter (size A) 8.5 inch by 11 inch; in points of 1/72
 * inch.
 */
const sheets = { A4: [595.28, 841.89], Letter: [612, 792] } as const;
/** The least margin that is left white, in points: 8 mm. Common practice for office printers, no source. */
const margin = (8 / 25.4) * 72;
/** The least type that is set, in points. Common practice for what is read at arm's length, no source. */
const leastType = 7;

interface Sheet {
  readonly size: readonly [number, number];
  /** Each piece of text with its box: left, bottom, right, top. */
  readonly pieces: readonly {
    readonly text: string;
    readonly box: readonly [number, number, number, number];
  }[];
}

async function printed(page: Page, format: keyof typeof sheets): Promise<readonly Sheet[]> {
  const task = getDocument({ data: new Uint8Array(await page.pdf({ format })), verbosity: 0 });
  const paper = await task.promise;
  const found: Sheet[] = [];
  for (let n = 1; n <= paper.numPages; n += 1) {
    const sheet = await paper.getPage(n);
    const [left = 0, bottom = 0, right = 0, top = 0] = sheet.view;
    const { items } = await sheet.getTextContent();
    const pieces = items.flatMap((item) => {
      if (!("str" in item) || item.str.trim() === "") return [];
      const [, , , , x, y] = item.transform as readonly number[];
      return [{ text: item.str, box: [x!, y!, x! + item.width, y! + item.height] as const }];
    });
    found.push({ size: [right - left, top - bottom], pieces });
  }
  await task.destroy();
  return found;
}

const plain = (text: string): string => text.replace(/\s+/g, "");
/**
 * What stands beside the numbers of the steps, from each number down to the next: the last one down to the
 * sum of the times, the last one of a sheet down to its foot. `sheet` is the one it stands on.
 */
function besideNumbers(paper: readonly Sheet[], count: number) {
  let on = 0;
  const found = Array.from({ length: count }, (_, n) => {
    const of = (sheet: Sheet | undefined) =>
      sheet?.pieces.find((piece) => piece.text.trim() === String(n + 1) && piece.box[0] < margin + 50)
        ?.box[3];
    if (of(paper[on]) === undefined && of(paper[on + 1]) !== undefined) on += 1;
    return { sheet: on, top: of(paper[on]) ?? Number.NaN };
  });
  return found.map(({ sheet, top }, n) => {
    const next = found[n + 1];
    const end = next === undefined ? top - 60 : next.sheet === sheet ? next.top : 0;
    const says = plain(
      paper[sheet]!.pieces.filter((piece) => piece.box[1] < top + 3 && piece.box[1] >= end + 1)
        .sort((a, b) => (Math.abs(a.box[1] - b.box[1]) > 3 ? b.box[1] - a.box[1] : a.box[0] - b.box[0]))
        .map((piece) => piece.text)
        .join(""),
    );
    return { sheet, says };
  });
}

const textOf = (sheet: Sheet): string => plain(sheet.pieces.map((piece) => piece.text).join(""));

/** What each step says on the screen, without what can only be pressed. */
const stepTexts = (page: Page): Promise<readonly string[]> =>
  page.locator(".card-step .card-step-says > .card-says").allInnerTexts();

/** A hole of some size: the longest card of the shipped book. */
const hole = {
  ...smallChip,
  "How far does the damage go?": { pick: "through" },
  "Damage at its longest": { number: "140" },
  "Damage at its widest": { number: "80" },
  "Damage at its deepest": { number: "3" },
};

test.each([
  ["a filler job", smallChip, "en-US"],
  ["a hole", hole, "en-US"],
  ["a hole", hole, "es-MX"],
] as const)(
  "%s prints whole (%#)",
  async (_what, given, locale) => {
    const context = await browser.profile(820, 1180, locale);
    const page = await context.newPage();
    await openJob(page);
    await answerAll(page, given);
    await page.locator(".card-step").first().waitFor();
    const steps = await stepTexts(page);
    expect(steps.length).toBeGreaterThanOrEqual(8);
    for (const format of ["A4", "Letter"] as const) {
      const paper = await printed(page, format);
      // Numbers that can be asked why are written after the words around them, so a step is read word by word
      // beside its number.
      const beside = besideNumbers(paper, steps.length);
      // The work takes as many sheets as it needs, and none for its foot alone. Drawings follow.
      const last = beside.at(-1)!.sheet;
      const text = paper
        .slice(0, last + 1)
        .map(textOf)
        .join("");
      for (const [n, step] of steps.entries())
        for (const word of step.split(/\s+/))
          expect(beside[n]!.says, `step ${n + 1} on ${format}`).toContain(word.replace(/^[(]|[),.:]+$/g, ""));
      const words =
        locale === "en-US"
          ? [
              "Job card",
              "edition 1",
              "Date",
              "Done by",
              "Checked by",
              "Its print is",
              "come before this card",
            ]
          : [
              "Hoja de trabajo",
              "edición 1",
              "Fecha",
              "Hecho por",
              "Revisado por",
              "Su huella es",
              "van antes que esta hoja",
            ];
      for (const word of words) expect(text, word).toContain(plain(word));
      expect(text).not.toContain(plain(locale === "en-US" ? "Begin a new job" : "Empezar otro trabajo"));
      for (const [n, sheet] of paper.entries()) {
        // The browser cuts sheets to whole pixels of 1/96 inch.
        expect(Math.abs(sheet.size[0] - sheets[format][0])).toBeLessThan(1);
        expect(Math.abs(sheet.size[1] - sheets[format][1])).toBeLessThan(1);
        // A sheet is never empty, and nothing on it lies in the margins. The number of the sheet stands in
        // the lower one.
        expect(sheet.pieces.length, `sheet ${n + 1}`).toBeGreaterThan(1);
        for (const { text: piece, box } of sheet.pieces) {
          const foot = /\d/.test(piece) && box[1] < margin + 12;
          const where = `“${piece}” on sheet ${n + 1} of ${format}`;
          expect(box[0], where).toBeGreaterThanOrEqual(margin - 0.5);
          expect(box[2], where).toBeLessThanOrEqual(sheet.size[0] - margin + 0.5);
          expect(box[1], where).toBeGreaterThanOrEqual(foot ? 6 : margin - 0.5);
          // A box stands a whole type size above its base line; its letters end below that.
          expect(box[3], where).toBeLessThanOrEqual(sheet.size[1] - margin + 1);
          expect(box[3] - box[1], where).toBeGreaterThanOrEqual(leastType);
        }
      }
    }
  },
  90_000,
);

test("a value that is a whole sentence runs on in its line: no line begins with the " +
  "mark after it", async () => {
  const page = await browser.page(820, 1180);
  await page.goto("/job.html?book=small-craft");
  await page.locator(".job-state").waitFor();
  await answerAll(page, hullHole);
  const sheetsOf = await printed(page, "A4");
  const marks = sheetsOf.flatMap((sheet) =>
    sheet.pieces.filter((piece) => /^[.,;]/.test(piece.text)).map((piece) => ({ sheet, piece })),
  );
  expect(marks.length).toBeGreaterThan(3);
  for (const { sheet, piece } of marks)
    expect(
      sheet.pieces.some(
        (other) => Math.abs(other.box[1] - piece.box[1]) < 2 && Math.abs(other.box[2] - piece.box[0]) < 3,
      ),
      piece.text,
    ).toBe(true);
}, 90_000);

test("a stopped job prints its stop, without steps", async () => {
  const page = await browser.page(820, 1180);
  await openJob(page);
  await page.locator(".question .choice", { has: page.getByText("load-bearing", { exact: true }) }).click();
  await page.locator(".card-stops").waitFor();
  const [first] = await printed(page, "A4");
  expect(textOf(first!)).toContain(plain("The steps are withheld."));
  expect(textOf(first!)).not.toMatch(/Workin/);
});
