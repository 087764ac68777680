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
import { canSign, isInTheWay, openPoints } from "../../../editor/technician/record/open-points.ts";
import { fitted, longestSide } from "../../../editor/technician/record/photo-files.ts";
import { keptLine } from "../../../editor/technician/record/record-bar.tsx";
import { RecordOnCard } from "../../../editor/technician/record/record-on-card.tsx";
import { justOver, shownTimers } from "../../../editor/technician/record/running-timers.ts";
import { lotsOf } from "../../../editor/technician/record/used.tsx";
import type { Delivery } from "../../../editor/technician/store/deliver.ts";
import { openDeviceJobs } from "../../../editor/technician/store/device-jobs.ts";
import { newId, hashText } from "../../../editor/client/storage/hash-text.ts";
import type { KeptText } from "../../../editor/technician/store/record-storage.ts";
import { settle, shelfOf } from "./support/shelf.ts";
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
    expect(
      openPoints(job, view, 1000)
        .filter(isInTheWay)
        .map((point) => point.is),
    ).toEqual(["unticked", "timer"]);
  });
  it("takes a step left out, as long as the step keeps its words; a tick comes in its place", () => {
    const left = {
      does: "leave",
      step: "step b",
      text: "Do step b",
      how: "skipped",
      reason: "No dust",
    } as const;
    const stillOpen = (...deeds: readonly Deed[]) =>
      openPoints(made("j", { does: "tick", step: "step a", text: "Do step a" }, ...deeds), view, 0)
        .filter(isInTheWay)
        .map((point) => point.id);
    expect(stillOpen(left)).toEqual([]);
    expect(stillOpen({ ...left, text: "Other words" })).toEqual(["step b"]);
    expect(stillOpen(left, { does: "leave", step: "step b" })).toEqual(["step b"]);
    const ticked = made("j", left, { does: "tick", step: "step b", text: "Do step b" });
    expect([ticked.left, ticked.ticked]).toEqual([{}, { "step b": "Do step b" }]);
    const gone = made("j", { does: "tick", step: "step b", text: "Do step b" }, left);
    expect([gone.left, gone.ticked]).toEqual([
      { "step b": { text: "Do step b", how: "skipped", reason: "No dust" } },
      {},
    ]);
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
  it("kept, delivered some time ago, or so many that wait; and that the device's clock is wrong", () => {
    expect(at({ last: 420_000 })).toBe("Kept on this device; delivered 3 min ago");
    expect(at({ waiting: 4, host: "away" })).toBe("Kept on this device; 4 entries wait");
    // Also where no host was ever there: what waits is never hidden.
    for (const host of ["none", "unknown", "refused"] as const)
      expect(at({ waiting: 4, host })).toContain("4 entries wait");
    expect(at({ last: 600_000, skew: -3_600_000 })).toContain("differ by 60 min");
    expect(at({ last: 600_000, skew: 5000 })).not.toContain("differ");
    expect(at({}, true)).toContain("keeps nothing");
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
