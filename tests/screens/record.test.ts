// A technician does a job from the first question to the sign-off: mixing, timers, lots and photographs,
// without a network, with the page loaded again in between; the signed job is worked again and cannot be
// changed; what was entered is delivered once when a host is there.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateSync } from "node:zlib";
import type { Page } from "playwright-core";
import { expect, inject, test } from "vitest";
import type { JobEntry } from "../../core/record.ts";
import { jobEntries } from "../../core/schemas/record.ts";
import { openHost } from "../../editor/host/host.ts";
import { inBrowser, until } from "./support/bench.ts";
import { answerAll, openJob, question, smallChip, doTheRest } from "./support/job.ts";

const browser = inBrowser();

/** A picture of stripes, `width` by `height`, as a camera's file would be. */
function picture(width: number, height: number): Buffer {
  const rows = Buffer.alloc((width * 3 + 1) * height);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      rows.writeUIntBE((x >> 5) % 2 === 0 ? 0xb03a1f : 0xf5f3ec, y * (width * 3 + 1) + 1 + x * 3, 3);
  const part = (name: string, content: Buffer): Buffer => {
    const head = Buffer.alloc(8);
    head.writeUInt32BE(content.length, 0);
    head.write(name, 4, "latin1");
    const sum = Buffer.alloc(4);
    sum.writeUInt32BE(crc(Buffer.concat([head.subarray(4), content])), 0);
    return Buffer.concat([head, content, sum]);
  };
  const size = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 8, 2, 0, 0, 0]);
  size.writeUInt32BE(width, 0);
  size.writeUInt32BE(height, 4);
  return Buffer.concat([
    Buffer.from("\x89PNG\r\n\x1a\n", "latin1"),
    part("IHDR", size),
    part("IDAT", deflateSync(rows)),
    part("IEND", Buffer.alloc(0)),
  ]);
}
function crc(bytes: Buffer): number {
  let sum = ~0;
  for (const byte of bytes) {
    sum ^= byte;
    for (let n = 0; n < 8; n += 1) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return ~sum >>> 0;
}

const strip = (page: Page) => page.getByRole("complementary", { name: "Timers" });
const digits = async (page: Page, nth = 0): Promise<number> =>
  (await strip(page).locator(".timer-digits").nth(nth).innerText())
    .split(":")
    .reduce((sum, part) => sum * 60 + Number(part), 0);
const mix = (page: Page) => page.locator(".mix", { hasText: "Filler" });

test("a job from its questions to the sign-off, without a network and over a reload", async () => {
  const context = await browser.profile(820, 1180);
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("pageerror", (fault) => faults.push(fault.message));
  await openJob(page);
  await page.getByRole("textbox", { name: "Name of this job" }).fill("Invented van, left sill");
  await answerAll(page, smallChip);
  await page.getByRole("heading", { name: "At the panel" }).waitFor();

  // The network goes; everything goes on.
  await context.setOffline(true);
  // 10 g of filler wants 0.2 g of cream by the card; 25 g really in the cup want 0.5 g.
  await mix(page).getByLabel("In the cup: filler").fill("25");
  await until(
    () => mix(page).locator(".mix-figure").first().innerText(),
    (says) => says === "0.5 g",
  );
  await mix(page)
    .getByRole("radio", { name: /hardener is in already/ })
    .check();
  await mix(page).getByLabel("In the cup: hardener").fill("1");
  await mix(page).getByLabel("And in the cup, if any: filler").fill("25");
  await until(
    () => mix(page).locator(".mix-reads").innerText(),
    (says) => says.includes("Add 25 g") && says.includes("the label decides"),
  );
  await mix(page)
    .getByRole("button", { name: /use within 5 min/ })
    .click();
  await page
    .getByRole("button", { name: /^Start the wait: .* step/ })
    .first()
    .click();
  expect(await strip(page).locator(".timer").count()).toBe(2);
  await page.getByRole("button", { name: /^Enter ?: Filler: filler/ }).click();
  expect(await page.getByLabel("Amount", { exact: true }).inputValue()).toBe("10 g");
  await page.getByLabel("Lot number").fill("F-0421");
  await page.getByRole("button", { name: "Enter it" }).first().click();
  await page.locator(".used-row", { hasText: "F-0421" }).waitFor();
  await page
    .getByLabel("Choose pictures")
    .setInputFiles({ name: "sill.png", mimeType: "image/png", buffer: picture(2600, 1300) });
  const photo = page.locator(".photo-row img");
  await photo.waitFor();
  expect(await photo.evaluate((image: HTMLImageElement) => image.naturalWidth)).toBe(320);
  await page.getByLabel("Words to the picture").fill("Chip before");
  await page
    .getByLabel("Choose pictures")
    .setInputFiles({ name: "notes.txt", mimeType: "image/png", buffer: Buffer.from("no picture") });
  await page.getByRole("alert").getByText("notes.txt is not a picture").waitFor();
  await page.getByLabel("Write a note").fill("Sill was filled before");
  await page.getByRole("button", { name: "Enter it" }).last().click();
  await page.getByRole("checkbox", { name: /^Step 1 done/ }).check();

  // The page is loaded again: all of it is there, and the timers have gone on.
  const before = await digits(page);
  await context.setOffline(false);
  await page.reload();
  await strip(page).locator(".timer").nth(1).waitFor();
  const after = await digits(page);
  expect(after).toBeLessThan(before);
  expect(after).toBeGreaterThan(before - 120);
  expect(await page.getByRole("textbox", { name: "Name of this job" }).inputValue()).toBe(
    "Invented van, left sill",
  );
  await page.locator(".used-row", { hasText: "F-0421" }).waitFor();
  await page.locator(".photo-row img").waitFor();
  expect(await page.getByLabel("Words to the picture").inputValue()).toBe("Chip before");
  expect(await page.getByRole("checkbox", { name: /^Step 1 done/ }).isChecked()).toBe(true);
  expect(await page.locator(".record-kept").innerText()).toContain("Kept on this device");

  // Nothing can be signed while a step is neither done nor left out with a reason, or a timer runs.
  expect(await page.locator(".sign-left li").allInnerTexts()).toEqual(
    expect.arrayContaining([
      expect.stringMatching(/^Step 2 is neither done nor left out/),
      expect.stringMatching(/^A timer runs/),
    ]),
  );
  expect(
    (await page.locator(".sign-left li").allInnerTexts()).some((says) => says.startsWith("Step 1 ")),
  ).toBe(false);
  expect(await page.getByRole("button", { name: "Sign and lock" }).count()).toBe(0);
  await page.getByRole("button", { name: /^Not done … ?: Step 2 / }).click();
  const form = page.getByRole("form", { name: "Step 2 is not done" });
  await form.getByRole("button", { name: "Enter it" }).click();
  await form.getByRole("alert").getByText("Write the reason").waitFor();
  await form.getByRole("radio", { name: "Not applicable" }).check();
  await form.getByLabel("Reason").fill("Bare panel, no paint on it");
  await form.getByRole("button", { name: "Enter it" }).click();
  await page.locator(".step-left", { hasText: "Not applicable Bare panel" }).waitFor();
  await doTheRest(page);
  await page.getByLabel("Your name").fill("N. Invented");
  await page.getByLabel("Note to the sign-off").fill("The late turn goes on");
  await page.getByRole("button", { name: "Sign and lock" }).click();
  await page.getByRole("button", { name: /^Press again: nothing/ }).click();

  // Signed: worked again, the same; nothing can be changed any more.
  await page.getByText("Worked again: the same numbers.").waitFor();
  // The page is shorter than it was where the press was; what it did is in sight.
  await expect
    .poll(() =>
      page.locator(".signed-head").evaluate((head) => {
        const { top, bottom } = head.getBoundingClientRect();
        return top >= 0 && bottom <= innerHeight;
      }),
    )
    .toBe(true);
  expect(await page.getByRole("checkbox", { name: /^Step 2 done/ }).isDisabled()).toBe(true);
  expect(await page.getByRole("button", { name: /^Change/ }).count()).toBe(0);
  expect(await page.getByRole("button", { name: "Sign and lock" }).count()).toBe(0);
  const card = page.getByRole("region", { name: "Job card" });
  for (const part of [
    "F-0421",
    "Sill was filled before",
    "Signed by N. Invented",
    "The late turn goes on",
    "Bare panel, no paint on it",
    "1 photograph is kept",
  ])
    expect(await card.innerText()).toContain(part);
  // On paper the sign-off stands in place of the line for a hand, and what belongs to the screen is gone.
  await page.emulateMedia({ media: "print" });
  expect(await page.locator(".card-record-signed").isVisible()).toBe(true);
  expect(await card.locator(".card-state").innerText()).toContain("Signed by N. Invented");
  expect(await page.locator(".card-record table").isVisible()).toBe(true);
  expect(await page.locator(".card-signed").count()).toBe(0);
  for (const off of [".at-panel", ".timer-strip", ".record-bar", ".signed-head"])
    for (const part of await page.locator(off).all()) expect(await part.isVisible(), off).toBe(false);
  await page.emulateMedia({ media: null });

  // Another job beside it, and back by its lot number.
  await page.getByRole("button", { name: /^Jobs on this device/ }).click();
  await page.getByRole("dialog").getByRole("button", { name: "Begin a new job" }).click();
  await until(
    () => question(page),
    (says) => says === "What does the part do?",
  );
  await page.getByRole("button", { name: /^Jobs on this device/ }).click();
  await page.getByRole("searchbox").fill("f-0421");
  expect(await page.locator(".job-list-row").count()).toBe(1);
  await page.getByRole("searchbox").fill("no such lot");
  await page.getByText("No job is like that.").waitFor();
  await page.getByRole("searchbox").fill("invented van");
  await page.locator(".job-list-row").click();
  await page.getByText("Worked again: the same numbers.").waitFor();
  expect(faults).toEqual([]);
});

test("a timer that ends is told, and put away by a press; a reload brings it not back", async () => {
  const context = await browser.profile(390, 844);
  const page = await context.newPage();
  await page.clock.install();
  await openJob(page);
  await answerAll(page, smallChip);
  // 75 % of the 7 min that the filler works at 20 °C are 5.25 min; it counts down from whole minutes.
  await page.getByRole("button", { name: /use within 5 min/ }).click();
  await until(
    () => digits(page),
    (left) => left > 280 && left <= 300,
  );
  await page.clock.fastForward("04:00");
  await until(
    () => digits(page),
    (left) => left > 40 && left <= 60,
  );
  await page.clock.fastForward("01:10");
  await page.locator(".timer.is-over").waitFor();
  expect(await page.locator(".cups").innerText()).toContain("Its time was over at");
  await page.getByRole("button", { name: /^Seen/ }).click();
  await strip(page).waitFor({ state: "detached" });
  await page.reload();
  await page.getByRole("heading", { name: "At the panel" }).waitFor();
  expect(await strip(page).count()).toBe(0);
});

test("entries, texts and photographs reach a host, each once, after it was away", async () => {
  const context = await browser.profile(1280, 900);
  const page = await context.newPage();
  const taken = new Map<string, JobEntry>();
  const twice: string[] = [];
  const photos = new Map<string, number>();
  const texts: string[] = [];
  let up = false;
  await page.route("**/api/**", async (route) => {
    const request = route.request();
    if (!up) {
      await route.abort();
      return;
    }
    // What the page asks of the shelf is not what is tried here.
    if (request.method() === "GET") {
      await route.fulfill({ status: 404, json: {} });
      return;
    }
    const [, kind, print] = /\/api\/(photos|texts)\/([0-9a-f]{64})$/.exec(request.url()) ?? [];
    if (kind === "photos") photos.set(print!, request.postDataBuffer()?.length ?? 0);
    else if (kind === "texts") texts.push(String((request.postDataJSON() as { text: string }).text));
    else {
      const entries = jobEntries.parse((request.postDataJSON() as { entries: unknown }).entries);
      for (const entry of entries) {
        if (taken.has(entry.id)) twice.push(entry.id);
        taken.set(entry.id, entry);
      }
      await route.fulfill({ json: { taken: entries.map((entry) => entry.id), known: [], refused: [] } });
      return;
    }
    await route.fulfill({ json: { known: true } });
  });
  await openJob(page);
  await answerAll(page, smallChip);
  await page
    .getByLabel("Choose pictures")
    .setInputFiles({ name: "sill.png", mimeType: "image/png", buffer: picture(400, 300) });
  await page.locator(".photo-row img").waitFor();
  await until(
    () => page.locator(".record-kept").innerText(),
    (says) => /\d+ entries wait/.test(says),
  );
  up = true;
  // The pause after failures is cut short by a fresh load, as a technician would see it the next morning.
  await page.reload();
  await until(
    () => page.locator(".record-kept").innerText(),
    (says) => says.includes("delivered just now"),
  );
  expect(twice).toEqual([]);
  expect([...taken.values()].filter((entry) => entry.does === "answer").length).toBe(
    await page.locator(".card-rests dt").count(),
  );
  expect(
    [...taken.values()]
      .filter((entry) => entry.does === "photo")
      .map((entry) => (entry.does === "photo" ? entry.photo : "")),
  ).toEqual([...photos.keys()]);
  expect([...photos.values()][0]).toBeGreaterThan(300);
  expect(texts.length).toBe(1);
  expect(texts[0]).toContain("book road-panels");
  const count = taken.size;
  await page.getByRole("checkbox", { name: /^Step 1 done/ }).check();
  await until(
    async () => taken.size,
    (size) => size === count + 1,
  );
});

test("answers that an earlier page kept by themselves become a job", async () => {
  const context = await browser.profile(820, 1180);
  const page = await context.newPage();
  await openJob(page);
  await page.evaluate(async () => {
    const opening = indexedDB.open("bevelbook");
    await new Promise((done) => {
      opening.onsuccess = done;
    });
    const writing = opening.result.transaction("answers", "readwrite");
    writing
      .objectStore("answers")
      .put({ answers: { use: "body", thickness: "3 mm" }, units: "us", ticked: {} }, "road-panels");
    await new Promise((done) => {
      writing.oncomplete = done;
    });
  });
  await page.reload();
  await until(
    () => page.locator(".ask-row.is-answered").count(),
    (count) => count >= 2,
  );
  await until(
    () => page.locator(".record-count").innerText(),
    (says) => says === "1",
  );
  await page.reload();
  await until(
    () => page.locator(".ask-row.is-answered").count(),
    (count) => count >= 2,
  );
  expect(await page.locator(".record-count").innerText()).toBe("1");
});

/**
 * Changes what the browser keeps in one store, as an earlier program or another engine would have left it.
 */
const rewrite = (page: Page, base: string, store: string, change: string): Promise<void> =>
  page.evaluate(
    async ([name, of, how]) => {
      const opening = indexedDB.open(name!);
      await new Promise((done) => {
        opening.onsuccess = done;
      });
      const writing = opening.result.transaction(of!, "readwrite");
      const all = writing.objectStore(of!).getAll();
      await new Promise((done) => {
        all.onsuccess = done;
      });
      for (const one of all.result as Record<string, unknown>[]) {
        if (how === "card" && one["does"] === "sign") {
          const card = one["card"] as { engine: string; values: { name: string; text: string }[] };
          card.engine = "0.0.1";
          card.values.find((value) => value.name === "bevel-width")!.text = "99 mm";
          writing.objectStore(of!).put(one);
        }
        if (how === "book") writing.objectStore(of!).delete(one["print"] as string);
      }
      await new Promise((done) => {
        writing.oncomplete = done;
      });
      opening.result.close();
    },
    [base, store, change],
  );

async function sign(page: Page): Promise<void> {
  await doTheRest(page);
  await page.getByLabel("Your name").fill("N. Invented");
  await page.getByLabel("Note to the sign-off").fill("Trial");
  await page.getByRole("button", { name: "Sign and lock" }).click();
  await page.getByRole("button", { name: /^Press again: nothing/ }).click();
}

test(
  "a card that comes out otherwise says exactly what differs, and by which engine; without its " +
    "book it is shown as it was signed",
  async () => {
    const page = await (await browser.profile(820, 1180)).newPage();
    await openJob(page);
    await answerAll(page, smallChip);
    await sign(page);
    await page.getByText("Worked again: the same numbers.").waitFor();
    await rewrite(page, "bevelbook jobs", "entries", "card");
    await page.reload();
    await page.getByText("Worked again, 1 thing comes out otherwise:").waitFor();
    const again = await page.locator(".worked-again").innerText();
    for (const part of ["bevel-width", "signed: 99 mm", "now: 15 mm", "Signed with engine 0.0.1"])
      expect(again).toContain(part);
    // The book that it was made by is neither what is open here nor kept.
    await rewrite(page, "bevelbook jobs", "books", "book");
    await page.evaluate(async () => {
      const opening = indexedDB.open("bevelbook");
      await new Promise((done) => {
        opening.onsuccess = done;
      });
      const writing = opening.result.transaction(["books", "notes"], "readwrite");
      const text =
        'book sill-covers, edition 2\n    "Sill covers"\nask depth in mm, 0 to 10\n    "How ' +
        'deep?"\nstep grind "Grind {depth}"\n';
      writing.objectStore("books").put({
        key: "road-panels",
        title: "Sill covers",
        text,
        accepted: text,
        jobs: [],
        units: "book",
        history: { done: [], undone: [] },
        at: Date.now(),
      });
      await new Promise((done) => {
        writing.oncomplete = done;
      });
    });
    await page.reload();
    await page.getByText("It cannot be worked again here").waitFor();
    expect(await page.locator(".without-book .card").innerText()).toContain("Signed by N. Invented");
  },
);

test(
  "a job goes on by the book that it was begun by; the changed one can be taken for a new job " +
    "with the same answers",
  async () => {
    const page = await (await browser.profile(820, 1180)).newPage();
    await openJob(page);
    await answerAll(page, smallChip);
    const width = () => page.locator(".card-step", { hasText: "Grind the bevel" }).innerText();
    expect(await width()).toContain("15 mm");
    await page.evaluate(async () => {
      const jobs = indexedDB.open("bevelbook jobs");
      await new Promise((done) => {
        jobs.onsuccess = done;
      });
      const reading = jobs.result.transaction("books").objectStore("books").getAll();
      await new Promise((done) => {
        reading.onsuccess = done;
      });
      const text = (reading.result[0] as { text: string }).text.replace(
        "dial house-taper = 1:10,",
        "dial house-taper = 1:14,",
      );
      jobs.result.close();
      const opening = indexedDB.open("bevelbook");
      await new Promise((done) => {
        opening.onsuccess = done;
      });
      const writing = opening.result.transaction("books", "readwrite");
      writing.objectStore("books").put({
        key: "road-panels",
        title: "Changed",
        text,
        accepted: text,
        jobs: [],
        units: "book",
        history: { done: [], undone: [] },
        at: Date.now(),
      });
      await new Promise((done) => {
        writing.oncomplete = done;
      });
    });
    await page.reload();
    await page.getByText("This job goes on by the book that it was begun by.").waitFor();
    expect(await width()).toContain("15 mm");
    await page.getByRole("button", { name: /^Begin anew by the changed book/ }).click();
    // 1.2 mm at 1:14 runs out 16.8 mm, the next 5 mm is 20 mm.
    await until(width, (says) => says.includes("20 mm"));
    expect(await page.locator(".record-count").innerText()).toBe("2");
    // Each says by which book it was begun, so that either can be worked again.
    const begun = await page.evaluate(async () => {
      const opening = indexedDB.open("bevelbook jobs");
      await new Promise((done) => {
        opening.onsuccess = done;
      });
      const reading = opening.result.transaction("entries").objectStore("entries").getAll();
      await new Promise((done) => {
        reading.onsuccess = done;
      });
      opening.result.close();
      return (reading.result as { does: string; book?: { name: string; print: string } }[]).flatMap((one) =>
        one.does === "begin" ? [one.book] : [],
      );
    });
    expect([begun.map((book) => book?.name), new Set(begun.map((book) => book?.print)).size]).toEqual([
      ["road-panels", "road-panels"],
      2,
    ]);
  },
);

test("the shop's host takes a signed job with its photograph and works it again: the same", async () => {
  const data = mkdtempSync(join(tmpdir(), "bevelbook-shelf-"));
  const host = await openHost(inject("folder"), { host: "127.0.0.1", port: 0 }, { data, proofSeconds: 0 });
  if ("failed" in host) throw new Error(host.failed);
  try {
    const page = await (await browser.profile(820, 1180)).newPage();
    await page.goto(`${host.address}job.html?book=road-panels`);
    await page.locator(".job-state").waitFor();
    await answerAll(page, smallChip);
    await page.getByRole("button", { name: /^Enter ?: Filler: filler/ }).click();
    await page.getByLabel("Lot number").fill("F-0900");
    await page.getByRole("button", { name: "Enter it" }).first().click();
    await page
      .getByLabel("Choose pictures")
      .setInputFiles({ name: "sill.png", mimeType: "image/png", buffer: picture(400, 300) });
    await page.locator(".photo-row img").waitFor();
    await sign(page);
    await until(
      () => page.locator(".record-kept").innerText(),
      (says) => says.includes("delivered just now"),
    );
    const asked = async (path: string) =>
      (await (await page.request.get(`${host.address}api/${path}`)).json()) as {
        jobs?: { id: string; state: string }[];
        says?: string;
        missingPhotos?: string[];
      };
    await expect
      .poll(async () => ((await asked("jobs?search=F-0900")).jobs ?? []).map((job) => job.state), {
        timeout: 20_000,
      })
      .toEqual(["signed"]);
    const { jobs = [] } = await asked("jobs?search=F-0900");
    expect((await asked(`jobs/${jobs[0]!.id}`)).missingPhotos).toEqual([]);
    expect((await asked(`jobs/${jobs[0]!.id}/again`)).says).toBe("same");
  } finally {
    await host.close();
    rmSync(data, { recursive: true, force: true });
  }
});
