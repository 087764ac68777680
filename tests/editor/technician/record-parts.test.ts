// The parts of the record apart from a browser: timers by the clock, searching, what is open at the sign-off,
// words of keeping, delivery that brings each thing once, and the desk of a device.
import "../../../editor/ui/words/all-words.ts";
import fc from "fast-check";
import { createElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { foldJob } from "../../../core/record.ts";
import type { Deed, JobEntry, JobRecord } from "../../../core/record.ts";
import type { CardLine, JobView } from "../../../core/view.ts";
import { countdown, timeOfDay } from "../../../editor/technician/record/clock.ts";
import { findJobs } from "../../../editor/technician/record/finding.ts";
import { canSign, openPoints } from "../../../editor/technician/record/open-points.ts";
import { fitted, longestSide } from "../../../editor/technician/record/photo-files.ts";
import { keptLine } from "../../../editor/technician/record/record-bar.tsx";
import { RecordOnCard } from "../../../editor/technician/record/record-on-card.tsx";
import { justOver, shownTimers } from "../../../editor/technician/record/running-timers.ts";
import { lotsOf } from "../../../editor/technician/record/used.tsx";
import { pauseAfter, startDelivery } from "../../../editor/technician/store/deliver.ts";
import type { Delivery } from "../../../editor/technician/store/deliver.ts";
import { openDeviceJobs } from "../../../editor/technician/store/device-jobs.ts";
import { newId, hashText } from "../../../editor/client/storage/hash-text.ts";
import type { KeptPhoto, KeptText, RecordStorage } from "../../../editor/technician/store/record-storage.ts";
import { wordsIn } from "../../../editor/ui/words/words.ts";

const say = wordsIn("en");
let clock = 1000;
const made = (job: string, ...deeds: readonly Deed[]): JobRecord =>
  foldJob(
    job,
    deeds.map((deed): JobEntry => {
      clock += 1;
      return { ...deed, id: newId(), job, at: clock, device: "d" };
    }),
  );
const line = (id: string): CardLine => ({ id, text: `Do ${id}`, pieces: [] });
const view: JobView = {
  state: "ready",
  values: [],
  steps: [line("step a"), line("step b")],
  cautions: [],
  stops: [],
  waiting: [],
  findings: [],
  broken: [{ id: "p1", says: "The patch covers the hole" }],
};

/** A shelf in memory. */
function shelfOf(): RecordStorage & { readonly kept: Map<string, JobEntry>; readonly out: Set<string> } {
  const kept = new Map<string, JobEntry>();
  const out = new Set<string>();
  const photos = new Map<string, KeptPhoto>();
  const books = new Map<string, KeptText>();
  const notes = new Map<string, unknown>();
  const of = (kind: string) =>
    [...out].filter((key) => key.startsWith(kind)).map((key) => key.slice(kind.length));
  return {
    device: "d",
    kept,
    out,
    all: async () => [...kept.values()],
    add: async (entries) => {
      for (const entry of entries) {
        kept.set(entry.id, entry);
        out.add(`entry ${entry.id}`);
      }
    },
    photo: async (photo) => photos.get(photo),
    addPhoto: async (photo) => {
      photos.set(photo.photo, photo);
      out.add(`photo ${photo.photo}`);
    },
    book: async (print) => books.get(print),
    addBook: async (book) => {
      books.set(book.print, book);
      out.add(`text ${book.print}`);
    },
    note: async (name) => notes.get(name),
    setNote: async (name, value) => {
      notes.set(name, value);
    },
    waiting: async () => ({ entries: of("entry "), photos: of("photo "), texts: of("text ") }),
    entries: async (ids) => ids.flatMap((id) => kept.get(id) ?? []),
    delivered: async ({ entries = [], photos: done = [], texts = [] }) => {
      for (const key of [
        ...entries.map((id) => `entry ${id}`),
        ...done.map((id) => `photo ${id}`),
        ...texts.map((id) => `text ${id}`),
      ])
        out.delete(key);
    },
  };
}
const answerOf = (body: unknown, status = 200): Response => new Response(JSON.stringify(body), { status });
const settle = async (): Promise<void> => {
  for (let n = 0; n < 400; n += 1) await Promise.resolve();
};
const entry = (n: number): JobEntry => ({
  id: newId(),
  job: "j",
  at: n,
  device: "d",
  does: "note",
  line: String(n),
  text: "x",
});

describe("timers", () => {
  it("are counted from the clock: a device that slept shows what is left when it wakes", () => {
    const job = made("j", { does: "timer", timer: "t", says: "Wait", ends: 10_000 });
    expect(shownTimers([job], 4000)[0]).toMatchObject({ over: false });
    expect(shownTimers([job], 3_600_000)[0]).toMatchObject({ over: true });
    expect(justOver(shownTimers([job], 3_600_000), 4000, 3_600_000)).toHaveLength(1);
    expect(justOver(shownTimers([job], 3_700_000), 3_600_000, 3_700_000)).toHaveLength(0);
  });
  it("of all jobs stand together, the next to end in front, and one that was stopped is gone", () => {
    const one = made(
      "a",
      { does: "timer", timer: "t", says: "", ends: 900 },
      { does: "timer", timer: "u", says: "", ends: 300 },
    );
    const two = made(
      "b",
      { does: "timer", timer: "t", says: "", ends: 600 },
      { does: "timer", timer: "v", says: "", ends: 1 },
      { does: "timer", timer: "v" },
    );
    expect(shownTimers([one, two], 0).map((timer) => timer.ends)).toEqual([300, 600, 900]);
  });
  it("show hours, minutes and seconds, and 0:00 only when they are over", () => {
    expect([7_384_000, 59_001, 1, 0, -5].map(countdown)).toEqual(["2:03:04", "1:00", "0:01", "0:00", "0:00"]);
    const noon = new Date(2026, 2, 5, 14, 32).getTime();
    expect(timeOfDay(noon, noon)).toBe("14:32");
    expect(timeOfDay(noon, noon + 86_400_000)).toBe("2026-03-05 14:32");
  });
});

describe("the list of jobs", () => {
  const jobs = [
    made(
      "a",
      { does: "begin", book: { name: "panels", print: "", sealed: false }, title: "Grey van, left sill" },
      { does: "used", line: "l", what: "Epoxy", amount: "40 g", lot: "KX-20 7" },
    ),
    made(
      "b",
      { does: "begin", book: { name: "panels", print: "", sealed: false }, title: "Autobús, puerta" },
      {
        does: "sign",
        name: "Ines Vale",
        card: { state: "ready", engine: "1", values: [], stops: [], cautions: [], steps: [] },
      },
    ),
  ];
  it("finds by any word: title, lot, signer; capitals and accents do not matter", () => {
    const found = (typed: string, which: "all" | "open" | "signed" = "all") =>
      findJobs(jobs, typed, which).map((job) => job.id);
    expect([
      found(""),
      found("kx-20"),
      found("SILL grey"),
      found("autobus"),
      found("vale"),
      found("grey door"),
    ]).toEqual([["a", "b"], ["a"], ["a"], ["b"], ["b"], []]);
    expect([found("", "open"), found("", "signed"), found("autobus", "open")]).toEqual([["a"], ["b"], []]);
  });
  it("offers lot numbers that were entered for the same material", () => {
    expect([lotsOf(jobs, "Epoxy"), lotsOf(jobs, "Paint")]).toEqual([["KX-20 7"], []]);
  });
});

describe("the sign-off", () => {
  it("tells steps that are not ticked as they stand now, timers that run, promises that are broken", () => {
    const job = made(
      "j",
      { does: "tick", step: "step a", text: "Do step a" },
      { does: "tick", step: "step b", text: "Other words" },
      { does: "timer", timer: "t", says: "Cure", ends: 5000 },
      { does: "timer", timer: "u", says: "Gone", ends: 50 },
    );
    expect(openPoints(job, view, 1000).map((point) => `${point.is} ${point.id}`)).toEqual([
      "unticked step b",
      "timer t",
      "broken p1",
    ]);
    expect(openPoints(job, view, 6000).map((point) => point.is)).toEqual(["unticked", "broken"]);
  });
  it("needs released steps or a stop", () => {
    expect(
      (["ready", "stopped", "waiting", "impossible"] as const).map((state) => canSign({ ...view, state })),
    ).toEqual([true, true, false, false]);
  });
  it("stands on the card with lots and the note, and never as markup", () => {
    const job = made(
      "j",
      { does: "used", line: "l", what: "<b>Resin</b>", amount: "130 g", lot: "A-1" },
      {
        does: "sign",
        name: "N. N.",
        card: { state: "ready", engine: "1", values: [], stops: [], cautions: [], steps: [] },
        note: "Cure overnight",
      },
    );
    const page = renderToStaticMarkup(createElement(RecordOnCard, { record: job }));
    for (const part of ["130 g", "A-1", "N. N.", "Cure overnight", "&lt;b&gt;Resin"])
      expect(page).toContain(part);
    expect(
      renderToStaticMarkup(
        createElement(RecordOnCard, { record: made("k", { does: "used", line: "l", what: "Resin" }) }),
      ),
    ).toContain("is-paper-only");
  });
});

describe("photographs", () => {
  it("fit into the longest side and keep their shape", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20_000 }),
        fc.integer({ min: 1, max: 20_000 }),
        (width, height) => {
          const small = fitted(width, height, longestSide);
          expect(Math.max(small.width, small.height)).toBeLessThanOrEqual(longestSide);
          expect(small.width).toBeLessThanOrEqual(width);
          if (Math.min(small.width, small.height) > 20)
            expect(Math.abs(small.width / small.height / (width / height) - 1)).toBeLessThan(0.05);
        },
      ),
    );
  });
});

describe("the print of a text", () => {
  it("is SHA-256 (FIPS 180-2, appendix B.1: “abc”)", async () => {
    expect(await hashText("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });
  it("ids are UUIDs of version 4 (RFC 9562)", () => {
    expect(newId()).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
});

describe("what the bar says", () => {
  const job = made("j", { does: "note", line: "n", text: "x" });
  const at = (delivery: Partial<Delivery>, unkept = false) =>
    keptLine(
      say,
      job,
      { delivery: { host: "there", waiting: 0, unwanted: 0, ...delivery }, unkept },
      600_000,
    );
  it("kept, delivered some time ago, or so many that wait; nothing of delivery without a host", () => {
    expect(at({ last: 420_000 })).toBe("Kept on this device; delivered 3 min ago");
    expect(at({ waiting: 4, host: "away" })).toBe("Kept on this device; 4 entries wait");
    expect(at({ waiting: 4, host: "none" })).toBe("Kept on this device");
    expect(at({}, true)).toContain("keeps nothing");
  });
});

describe("delivery", () => {
  const start = (storage: RecordStorage, send: typeof fetch, now: () => number = () => 0) => {
    const said: Delivery[] = [];
    let again = (): void => undefined;
    const deliverer = startDelivery(storage, (state) => said.push(state), {
      send,
      now,
      hear: (hear) => {
        again = hear;
        return () => undefined;
      },
    });
    return { said, deliverer, again: () => again() };
  };
  it("brings each entry once, in portions of at most 500, and is then empty", async () => {
    const shelf = shelfOf();
    const entries = Array.from({ length: 1203 }, (_, n) => entry(n));
    await shelf.add(entries);
    const got: string[] = [];
    const sizes: number[] = [];
    const { said } = start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      sizes.push(sent.length);
      got.push(...sent.map((one) => one.id));
      return answerOf({ taken: sent.map((one) => one.id), known: [], refused: [] });
    });
    await settle();
    expect(got.sort()).toEqual(entries.map((one) => one.id).sort());
    expect(Math.max(...sizes)).toBe(500);
    expect(said.at(-1)).toMatchObject({ host: "there", waiting: 0, last: 0 });
  });
  it("the text of a book goes before the entries that rest on it, photographs after", async () => {
    const shelf = shelfOf();
    await shelf.addPhoto({ photo: "ab", blob: new Blob(["x"], { type: "image/jpeg" }) });
    await shelf.add([entry(1)]);
    await shelf.addBook({ print: "cd", name: "b", title: "", text: "book b, edition 1", at: 1 });
    const asked: string[] = [];
    start(shelf, async (address, request) => {
      asked.push(`${request?.method} ${String(address)}`);
      return answerOf({
        taken: [...shelf.out].filter((key) => key.startsWith("entry ")).map((key) => key.slice(6)),
        known: [],
        refused: [],
      });
    });
    await settle();
    expect(asked).toEqual(["PUT /api/texts/cd", "POST /api/jobs/entries", "PUT /api/photos/ab"]);
    expect(shelf.out.size).toBe(0);
  });
  it("without a host it asks once and is silent until the page is loaded again", async () => {
    const shelf = shelfOf();
    await shelf.add([entry(1)]);
    let asked = 0;
    const { said, deliverer, again } = start(shelf, async () => {
      asked += 1;
      return answerOf("no", 404);
    });
    await settle();
    again();
    deliverer.wake();
    await settle();
    expect(asked).toBe(1);
    expect(said.at(-1)).toMatchObject({ host: "none", waiting: 1 });
    expect(shelf.out.size).toBe(1);
  });
  it("waits longer after each failure, up to ten minutes, and keeps everything meanwhile", async () => {
    const shelf = shelfOf();
    await shelf.add([entry(1)]);
    let now = 0;
    let up = false;
    let asked = 0;
    const { again } = start(
      shelf,
      async (_address, request) => {
        asked += 1;
        if (!up) throw new TypeError("no network");
        return answerOf({
          taken: (JSON.parse(String(request?.body)) as { entries: JobEntry[] }).entries.map((one) => one.id),
          known: [],
          refused: [],
        });
      },
      () => now,
    );
    await settle();
    again();
    await settle();
    expect(asked).toBe(1);
    now = pauseAfter(1);
    up = true;
    again();
    await settle();
    expect(asked).toBe(2);
    expect(shelf.out.size).toBe(0);
    expect([1, 2, 3, 20].map(pauseAfter)).toEqual([5000, 10_000, 20_000, 600_000]);
  });
  it("an entry that the host has is done with; one that it refuses stays, alone", async () => {
    const shelf = shelfOf();
    const [known, bad, fresh] = [entry(1), entry(2), entry(3)] as const;
    await shelf.add([known, bad, fresh]);
    const { said } = start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      return answerOf({
        taken: sent.filter((one) => one.id === fresh.id).map((one) => one.id),
        known: sent.filter((one) => one.id === known.id).map((one) => one.id),
        refused: sent.flatMap((one, place) => (one.id === bad.id ? [{ place, id: one.id, says: "no" }] : [])),
      });
    });
    await settle();
    expect([...shelf.out]).toEqual([`entry ${bad.id}`]);
    expect(said.at(-1)).toMatchObject({ waiting: 0, unwanted: 1 });
  });
  it("a delivery refused as a whole is halved until the one entry is found", async () => {
    const shelf = shelfOf();
    const all = Array.from({ length: 37 }, (_, n) => entry(n));
    await shelf.add(all);
    const bad = all[23]!;
    start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      return sent.some((one) => one.id === bad.id)
        ? answerOf({ says: "no" }, 413)
        : answerOf({ taken: sent.map((one) => one.id), known: [], refused: [] });
    });
    await settle();
    expect([...shelf.out]).toEqual([`entry ${bad.id}`]);
  });
  it("who has to sign in is told so; a page of some other host is no host", async () => {
    for (const [answer, host] of [
      [answerOf({ says: "who?" }, 401), "refused"],
      [new Response("<html>", { status: 200 }), "none"],
    ] as const) {
      const shelf = shelfOf();
      await shelf.add([entry(1)]);
      const { said } = start(shelf, async () => answer);
      await settle();
      expect(said.at(-1)?.host).toBe(host);
      expect(shelf.out.size).toBe(1);
    }
  });
});

describe("the desk of a device", () => {
  const deliver = () => ({ wake: () => undefined, stop: () => undefined });
  const book: KeptText = {
    print: "ab".repeat(32),
    name: "panels",
    title: "Panels",
    edition: 3,
    text: "book panels, edition 3",
    at: 1,
  };
  it("begins a job with its first deed, keeps every entry, and finds it all again", async () => {
    const shelf = shelfOf();
    const deviceJobs = await openDeviceJobs(shelf, { deliver });
    deviceJobs.begin();
    deviceJobs.setBook(book);
    expect(deviceJobs.state().jobs).toEqual([]);
    deviceJobs.answer({ thickness: "3 mm" });
    deviceJobs.answer({ thickness: "4 mm", air: "20 °C" });
    deviceJobs.answer({ air: "20 °C" });
    deviceJobs.tick({ "step wash": "Wash" });
    deviceJobs.name("Grey van");
    await settle();
    const first = deviceJobs.state().open;
    expect(first).toMatchObject({
      title: "Grey van",
      answers: { air: "20 °C" },
      ticked: { "step wash": "Wash" },
      book: { name: "panels", edition: 3, print: book.print, sealed: false },
    });
    expect([...shelf.kept.values()].map((one) => one.does)).toEqual([
      "begin",
      "answer",
      "answer",
      "answer",
      "answer",
      "tick",
      "begin",
    ]);
    expect(await shelf.book(book.print)).toEqual(book);
    expect((await openDeviceJobs(shelf, { deliver })).state().open).toEqual(first);
  });
  it("what was done later is later, also when the clock was set back", async () => {
    let now = 5000;
    const deviceJobs = await openDeviceJobs(shelfOf(), { deliver, now: () => now });
    deviceJobs.setBook(book);
    deviceJobs.answer({ air: "10 °C" });
    now = 10;
    deviceJobs.answer({ air: "30 °C" });
    expect(deviceJobs.state().open.answers).toEqual({ air: "30 °C" });
  });
  it("a signed job takes nothing more; a new one begins beside it", async () => {
    let now = 0;
    const deviceJobs = await openDeviceJobs(shelfOf(), { deliver, now: () => (now += 1000) });
    deviceJobs.setBook(book);
    deviceJobs.answer({ air: "10 °C" });
    deviceJobs.add({
      does: "sign",
      name: "N. N.",
      card: { state: "ready", engine: "1", values: [], stops: [], cautions: [], steps: [] },
    });
    const signed = deviceJobs.state().open;
    deviceJobs.answer({ air: "30 °C" });
    deviceJobs.addTo(signed.id, { does: "note", line: "n", text: "late" });
    expect(deviceJobs.state().open).toEqual(signed);
    deviceJobs.begin();
    deviceJobs.answer({ air: "25 °C" });
    expect(deviceJobs.state().jobs.map((job) => job.answers["air"])).toEqual(["25 °C", "10 °C"]);
    deviceJobs.openJob(signed.id);
    expect(deviceJobs.state().open.signed?.name).toBe("N. N.");
  });
  it("where the browser keeps nothing it works on and says so", async () => {
    const deviceJobs = await openDeviceJobs(undefined);
    deviceJobs.setBook(book);
    deviceJobs.answer({ air: "10 °C" });
    expect(deviceJobs.state()).toMatchObject({ unkept: true, open: { answers: { air: "10 °C" } } });
  });
});
