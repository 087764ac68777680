// Nothing is lost: what was typed a moment ago, the jobs, the answers and the way back survive a reload; undo
// runs across both faces; a book goes to a file and comes back; what is no book is refused; two tabs do not
// write over each other.
import { expect, test } from "vitest";
import {
  allKept,
  cell,
  face,
  findRow,
  findings,
  inBrowser,
  jobCell,
  jobsWorked,
  openBench,
  openText,
  savedText,
  until,
} from "./support/bench.ts";
import { answerAll, openJob, question, smallChip } from "./support/job.ts";

const browser = inBrowser();

test("text typed just before a reload is there after it, and can be undone", async () => {
  const page = await browser.page();
  await openBench(page);
  await openText(page);
  await page.keyboard.press("Control+End");
  await page.keyboard.type("\n-- kept to the last letter");
  await page.reload();
  await jobsWorked(page);
  expect(await savedText(page)).toMatch(/\n-- kept to the last letter\s*$/);
  await page.getByRole("button", { name: "Undo", exact: true }).click();
  await until(
    () => savedText(page),
    (text) => !text.includes("kept to the last letter"),
  );
});

test("jobs laid alongside and their answers survive a reload", async () => {
  const page = await browser.page();
  await openBench(page);
  await page.getByRole("button", { name: "Lay a job alongside" }).click();
  await page.getByRole("button", { name: "A blank job" }).click();
  await page.getByLabel("Name", { exact: true }).fill("Left sill cover");
  await page.keyboard.press("Enter");
  await findRow(page, "ask thickness", "thickness");
  await jobCell(page, "ask thickness", "j4").click();
  await page.keyboard.type("1/4 inch");
  await page.keyboard.press("Enter");
  await until(
    () => jobCell(page, "ask thickness", "j4").innerText(),
    (says) => says.includes("1/4 inch"),
  );
  await page.reload();
  await jobsWorked(page);
  expect(await page.locator(".hung-name").allInnerTexts()).toContainEqual(
    expect.stringContaining("Left sill cover"),
  );
  await findRow(page, "ask thickness", "thickness");
  expect(await jobCell(page, "ask thickness", "j4").innerText()).toContain("1/4 inch");
});

test("the technician's answers, what is half typed and the ticks survive a reload", async () => {
  const page = await browser.page(820, 1180);
  await openJob(page);
  await answerAll(page, smallChip, "Panel thickness");
  await page.locator(".quantity-number").pressSequentially("3.");
  await page.reload();
  await until(
    () => question(page),
    (says) => says.startsWith("Panel thickness"),
  );
  expect(await page.locator(".quantity-number").inputValue()).toBe("3.");
  expect(await page.locator(".ask-row.is-answered").count()).toBeGreaterThanOrEqual(2);
  await page.locator(".quantity-number").fill("");
  await answerAll(page, smallChip);
  await page.getByRole("checkbox", { name: /^Step 1 done/ }).check();
  await page.reload();
  await page.getByRole("checkbox", { name: /^Step 1 done/ }).waitFor();
  expect(await page.getByRole("checkbox", { name: /^Step 1 done/ }).isChecked()).toBe(true);
  expect(await page.getByRole("checkbox", { name: /^Step 2 done/ }).isChecked()).toBe(false);
  // A new job wants two presses.
  await page.getByRole("button", { name: "Begin a new job" }).click();
  await page.getByRole("button", { name: "Press again: this job stays in the list" }).click();
  await page.locator(".question-text").waitFor();
  expect(await page.locator(".ask-row.is-answered").count()).toBe(0);
});

test("undo runs across both faces", async () => {
  const page = await browser.page(1700);
  await openBench(page);
  const first = await savedText(page);
  await findRow(page, "dial small-damage", "small-damage");
  await cell(page, "dial small-damage", "rule").click();
  await page.keyboard.press("Enter");
  const field = page.getByRole("textbox", { name: "Rule of small-damage" });
  await field.fill((await field.inputValue()).replace("25 mm", "30 mm"));
  await field.press("Enter");
  await until(
    () => cell(page, "dial small-damage", "rule").innerText(),
    (says) => says.includes("30 mm"),
  );
  const second = await savedText(page);
  await openText(page, "Both");
  await page.keyboard.press("Control+End");
  await page.keyboard.type("-- a word from the other side");
  const third = await savedText(page);
  expect(third).not.toBe(second);
  // From the text: its own typing goes first, then the edit made in the sheet.
  await until(
    async () => {
      await page.keyboard.press("Control+z");
      return savedText(page);
    },
    (text) => text === second,
  );
  await page.keyboard.press("Control+z");
  await until(
    () => savedText(page),
    (text) => text === first,
  );
  await until(
    () => cell(page, "dial small-damage", "rule").innerText(),
    (says) => !says.includes("30 mm"),
  );
  // From the sheet: both come again.
  await cell(page, "dial small-damage", "rule").click();
  await until(
    async () => {
      await page.keyboard.press("Control+Shift+z");
      return savedText(page);
    },
    (text) => text === third,
  );
});

test("a book opens from a file and saves to one, letter for letter", async () => {
  const page = await browser.page();
  await openBench(page);
  const own =
    'book sill-covers, edition 2\n    "Sill covers"\n\n-- ours\npart "Measures"\nask depth in ' +
    'mm, 0 to 10\n    "How deep?"\nfigure twice in mm = 2 * depth   -- spaced as we like\n';
  await page.getByLabel("A book's file").setInputFiles({
    name: "sill-covers.bevel",
    mimeType: "text/plain",
    buffer: Buffer.from(own.replaceAll("\n", "\r\n")),
  });
  await page.locator(".tb-book", { hasText: "sill-covers" }).waitFor();
  await page.locator('[data-row="figure twice"]').waitFor();
  expect(await savedText(page)).toBe(own);
});

test("what is no book is refused in one sentence, and the book that is open stays", async () => {
  const page = await browser.page();
  await openBench(page);
  const wrong: readonly (readonly [string, Buffer, RegExp])[] = [
    [
      "photo.jpg",
      Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0x00, 0x10]),
      /photo\.jpg is not .*Nothing was opened/,
    ],
    ["wide.bevel", Buffer.from("\ufeffbook", "utf16le"), /wide\.bevel is written in UTF-16/],
    ["nothing.bevel", Buffer.from(""), /nothing\.bevel is empty/],
    ["huge.bevel", Buffer.alloc(2 * 1024 * 1024 + 1, "-"), /huge\.bevel is 2\.0 MiB.*at most 2 MiB/],
  ];
  for (const [name, buffer, says] of wrong) {
    await page.getByLabel("A book's file").setInputFiles({ name, mimeType: "text/plain", buffer });
    await page.locator(".notice.trouble", { hasText: says }).waitFor();
  }
  expect(await page.locator(".tb-book b").innerText()).toBe("road-panels");
  expect(await findings(page).innerText()).toBe("none");
});

test("a second tab is told, and may take the book over with all that the first has typed", async () => {
  const profile = await browser.profile();
  const one = await profile.newPage();
  await openBench(one);
  await allKept(one);
  const two = await profile.newPage();
  await two.goto("/");
  await jobsWorked(two);
  await two.getByText("being edited in another tab").waitFor();
  await one.bringToFront();
  await openText(one);
  await one.keyboard.press("Control+End");
  await one.keyboard.type("-- from the first tab");
  await two.bringToFront();
  await two.getByRole("button", { name: "Edit it here instead" }).click();
  await two.getByText("being edited in another tab").waitFor({ state: "detached" });
  expect(await savedText(two)).toContain("-- from the first tab");
  await one.bringToFront();
  await one.getByText("being edited in another tab").waitFor();
  await face(one, "Sheet");
});
