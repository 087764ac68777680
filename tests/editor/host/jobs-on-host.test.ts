// Jobs and photographs that tablets deliver to the shop's host: over a file and over a real PostgreSQL
// server.
import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { foldJob } from "../../../core/record.ts";
import type { BookRef, CardRecord, JobEntry, KeptEntry } from "../../../core/record.ts";
import * as schemas from "../../../core/schemas/host.ts";
import { cardOf } from "../../../core/compare-card.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../engine/index.ts";
import { chance } from "../../support/chance.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces } from "./support/places.ts";
import { jobEntries, shuffled, uuid } from "./support/records.ts";

const print = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");
const cardFor = (text: string, answers: Record<string, string>): CardRecord =>
  cardOf(showJob(workJob(readBook(text), answers)), engineVersion);
const refTo = (text: string, edition: number): BookRef => ({
  name: "small-panels",
  edition,
  print: print(text),
  sealed: true,
});
const october = Date.UTC(2026, 9, 1);

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let host: TestHost;
  beforeAll(async () => {
    host = await testHost(await fresh(), threads);
    // The book that the jobs are worked by.
    await host.ask("POST", "/api/books/small-panels/editions", {
      text: smallBook({ edition: 1 }),
      why: "What is new",
    });
  }, 60_000);
  afterAll(() => host?.close());

  test("tablets deliver late, twice and in any order; each entry is taken once", async () => {
    const luck = chance(11);
    const book = refTo(smallBook({ edition: 1 }), 1);
    const answers = { thickness: "3 mm" };
    const jobs = Array.from({ length: 12 }, () =>
      jobEntries(
        luck,
        book,
        october,
        luck.odds(0.5) ? cardFor(smallBook({ edition: 1 }), answers) : undefined,
        answers,
      ),
    );
    const all = jobs.flat();
    const twice = shuffled(luck, [...all, ...all.filter(() => luck.odds(0.5))]);
    const taken = new Set<string>();
    let next = 0;
    while (next < twice.length) {
      const from = next;
      next += 1 + luck.whole(20);
      const part = twice.slice(from, next);
      // Deliveries that cross each other, and one whose answer got lost.
      const answersTo = await Promise.all(
        [part, part.slice(0, luck.whole(part.length + 1))].map((entries) =>
          host.ask("POST", "/api/jobs/entries", { entries }),
        ),
      );
      for (const answer of answersTo)
        for (const id of schemas.delivered.parse(answer.body).taken) {
          expect(taken.has(id)).toBe(false);
          taken.add(id);
        }
    }
    expect(taken).toEqual(new Set(all.map((entry) => entry.id)));
    for (const entries of jobs) {
      const { job } = entries[0]!;
      const kept = schemas.entryList.parse((await host.ask("GET", `/api/jobs/${job}/entries`)).body);
      expect(kept.entries.map(({ id }) => id).sort()).toEqual(entries.map(({ id }) => id).sort());
      const found = schemas.jobFull.parse((await host.ask("GET", `/api/jobs/${job}`)).body);
      expect(found.job).toEqual(foldJob(job, kept.entries as KeptEntry[]));
    }
  });

  test("a refused entry keeps no other back, and a changed one under a taken id is refused", async () => {
    const luck = chance(12);
    const [begin, ...rest] = jobEntries(luck, refTo(smallBook(), 1), october);
    const bad = { ...rest[0]!, at: -4 };
    const told = schemas.delivered.parse(
      (
        await host.ask("POST", "/api/jobs/entries", {
          entries: [begin, bad, "nothing", null, ...rest.slice(1)],
        })
      ).body,
    );
    expect(told.taken).toHaveLength(rest.length);
    expect(told.refused.map((one) => one.place)).toEqual([1, 2, 3]);
    const changed = { ...begin!, title: "another" } as JobEntry;
    const again = schemas.delivered.parse(
      (await host.ask("POST", "/api/jobs/entries", { entries: [begin, changed] })).body,
    );
    expect(again.known).toEqual([begin!.id]);
    const alone = schemas.delivered.parse(
      (await host.ask("POST", "/api/jobs/entries", { entries: [changed] })).body,
    );
    expect([alone.taken, alone.refused.length]).toEqual([[], 1]);
    expect(
      (await host.ask("POST", "/api/jobs/entries", { entries: Array.from({ length: 501 }, () => begin) }))
        .status,
    ).toBe(400);
    expect((await host.ask("GET", `/api/jobs/${uuid(luck)}`)).status).toBe(404);
    // Marks that one database would refuse and the other mangle are refused by both, and by themselves.
    const odd = (text: string) =>
      ({
        id: uuid(luck),
        job: begin!.job,
        at: october + 9e6,
        device: "t",
        does: "note",
        line: "odd",
        text,
      }) as JobEntry;
    const plain = odd("tab\t line\n \u2028 end 🧵");
    const { body } = await host.ask("POST", "/api/jobs/entries", {
      entries: [odd("nul \0"), plain, odd("half \ud800"), odd("bell \u0007")],
    });
    expect(body.taken).toEqual([plain.id]);
    expect(body.refused.map((one: { place: number }) => one.place)).toEqual([0, 2, 3]);
    expect(body.refused[0].says).toMatch(/not plain text.*\(in text\)/);
    expect(
      (await host.ask("GET", `/api/jobs/${begin!.job}`)).body.job.notes.find(
        (note: { line: string }) => note.line === "odd",
      ).text,
    ).toBe("tab\t line\n \u2028 end 🧵");
  });

  test("a signed card is worked again: the same, what differs, or that its book is unknown", async () => {
    const luck = chance(13);
    const text = smallBook({ edition: 1 });
    const answers = { thickness: "4 mm" };
    const right = cardFor(text, answers);
    const wrong = {
      ...right,
      engine: "0.0.1",
      values: right.values.map((value) => (value.name === "bevel" ? { ...value, text: "75 mm" } : value)),
    };
    const fromFile = smallBook({ edition: 77 });
    const made = [
      jobEntries(luck, refTo(text, 1), october, right, answers),
      jobEntries(luck, refTo(text, 1), october, wrong, answers),
      jobEntries(
        luck,
        { ...refTo(fromFile, 77), sealed: false },
        october,
        cardFor(fromFile, answers),
        answers,
      ),
    ];
    for (const entries of made) await host.ask("POST", "/api/jobs/entries", { entries });
    await host.rework.idle();
    const [same, differs, unknown] = await Promise.all(
      made.map(async (entries) => ({
        listed: (await host.ask("GET", `/api/jobs/${entries[0]!.job}`)).body.agreement,
        again: schemas.agreement.parse((await host.ask("GET", `/api/jobs/${entries[0]!.job}/again`)).body),
      })),
    );
    expect(same).toEqual({
      listed: "same",
      again: { says: "same", then: engineVersion, now: engineVersion, differences: [] },
    });
    expect(differs!.listed).toBe("differs");
    expect(differs!.again).toEqual({
      says: "differs",
      then: "0.0.1",
      now: engineVersion,
      differences: [{ of: "value", name: "bevel", then: "75 mm", now: "80 mm" }],
    });
    expect(unknown!.listed).toBe("book unknown");
    // Delivered later, the text settles it.
    const id = made[2]![0]!.job;
    expect((await host.ask("PUT", `/api/texts/${print(fromFile)}`, { text: `${fromFile} ` })).status).toBe(
      422,
    );
    expect((await host.ask("PUT", `/api/texts/${print(fromFile)}`, { text: fromFile })).status).toBe(200);
    await host.rework.idle();
    expect((await host.ask("GET", `/api/jobs/${id}`)).body.agreement).toBe("same");
    const trace = schemas.jobTrace.parse((await host.ask("GET", `/api/jobs/${id}/trace`)).body);
    expect(trace.traces.find((one) => one.of === "bevel")!.steps.map((step) => step["name"])).toEqual(
      expect.arrayContaining(["bevel", "thickness"]),
    );
    // What is recorded after the signing is told and changes nothing of it.
    await host.ask("POST", "/api/jobs/entries", {
      entries: [
        {
          id: uuid(luck),
          job: id,
          at: october + 9e7,
          device: "t",
          does: "note",
          line: "late",
          text: "came back for polish",
        },
      ],
    });
    const full = schemas.jobFull.parse((await host.ask("GET", `/api/jobs/${id}`)).body);
    expect([
      full.agreement,
      full.job.after.length,
      full.job.notes.some((note) => note.line === "late"),
    ]).toEqual(["same", 1, false]);
  }, 60_000);

  test("jobs are found by what is written on them, page by page", async () => {
    const luck = chance(14);
    const made: JobEntry[][] = [];
    for (let i = 0; i < 23; i += 1)
      made.push([
        ...jobEntries(
          luck,
          { name: "listed", edition: 3, print: print("x"), sealed: true },
          october + i * 1e6,
        ),
        ...(i % 5 === 0
          ? [
              {
                id: uuid(luck),
                job: "",
                at: october + i * 1e6 + 1,
                device: "t",
                does: "used" as const,
                line: "z",
                what: "resin",
                lot: "50%_A\\7",
              },
            ]
          : []),
      ]);
    for (const entries of made)
      for (const entry of entries) if (entry.job === "") Object.assign(entry, { job: entries[0]!.job });
    for (const entries of made) await host.ask("POST", "/api/jobs/entries", { entries });
    const pages: string[] = [];
    for (let before = ""; ; ) {
      const page = schemas.jobList.parse(
        (await host.ask("GET", `/api/jobs?book=listed&limit=5${before}`)).body,
      );
      pages.push(...page.jobs.map((job) => job.id));
      if (page.next === undefined) break;
      before = `&before=${page.next}`;
    }
    // By when the host received them, and at one moment by id.
    const lines = schemas.jobList.parse((await host.ask("GET", "/api/jobs?book=listed&limit=100")).body).jobs;
    expect(pages).toEqual(
      [...lines].sort((a, b) => b.changed - a.changed || (a.id < b.id ? 1 : -1)).map((job) => job.id),
    );
    expect(new Set(pages)).toEqual(new Set(made.map((entries) => entries[0]!.job)));
    const search = async (text: string) =>
      schemas.jobList
        .parse((await host.ask("GET", `/api/jobs?search=${encodeURIComponent(text)}`)).body)
        .jobs.map((job) => job.id);
    expect((await search("50%_a\\7")).sort()).toEqual(
      made
        .filter((_, i) => i % 5 === 0)
        .map((entries) => entries[0]!.job)
        .sort(),
    );
    expect(await search("50%xa")).toEqual([]);
    const title = (made[4]![0] as { title: string }).title;
    expect(await search(title.toUpperCase())).toContain(made[4]![0]!.job);
    expect((await host.ask("GET", "/api/jobs?before=nonsense")).status).toBe(400);
    expect(
      schemas.jobList.parse((await host.ask("GET", "/api/jobs?book=listed&state=signed")).body).jobs,
    ).toEqual([]);
  });

  test("a photograph is kept once by the hash of its bytes; what is none or damaged is refused", async () => {
    const bytes = new Uint8Array([
      0x89,
      0x50,
      0x4e,
      0x47,
      0x0d,
      0x0a,
      0x1a,
      0x0a,
      0,
      0,
      0,
      13,
      0x49,
      0x48,
      0x44,
      0x52,
      0,
      0,
      2,
      0,
      0,
      0,
      1,
      0,
      ...Array.from({ length: 500_000 }, (_, i) => (i * 31) % 256),
    ]);
    const put = (name: string, content: Uint8Array<ArrayBuffer>) =>
      host.raw(`/api/photos/${name}`, {
        method: "PUT",
        headers: { "Content-Type": "image/png" },
        body: content,
      });
    expect((await put(print("x"), bytes)).status).toBe(422);
    expect((await put(print("text"), new TextEncoder().encode("text"))).status).toBe(422);
    expect((await put(print("text"), new Uint8Array(21_000_000))).status).toBe(413);
    expect(await (await put(print(bytes), bytes)).json()).toMatchObject({
      known: false,
      bytes: bytes.length,
    });
    expect(await (await put(print(bytes), bytes)).json()).toMatchObject({ known: true });
    const back = await host.raw(`/api/photos/${print(bytes)}`);
    expect(back.headers.get("content-type")).toBe("image/png");
    expect(Buffer.compare(Buffer.from(await back.arrayBuffer()), bytes)).toBe(0);
    const luck = chance(15);
    const [begin] = jobEntries(luck, refTo(smallBook(), 1), october);
    const photo = (of: string, at: number) => ({
      id: uuid(luck),
      job: begin!.job,
      at: october + at,
      device: "t",
      does: "photo",
      photo: of,
      type: "image/png",
      bytes: 7,
      shows: "before",
    });
    await host.ask("POST", "/api/jobs/entries", {
      entries: [begin, photo(print(bytes), 1e7), photo(print("not here"), 2e7)],
    });
    expect(
      schemas.jobFull.parse((await host.ask("GET", `/api/jobs/${begin!.job}`)).body).missingPhotos,
    ).toEqual([print("not here")]);
  });
});
