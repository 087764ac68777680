// The shop's host over both databases: drafts, editions, jobs, photographs, the log, events, backups. One
// suite, run over a file and over a real PostgreSQL server.
import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { foldJob } from "../../../core/record.ts";
import type { BookRef, CardRecord, JobEntry } from "../../../core/record.ts";
import * as schemas from "../../../core/schemas/host.ts";
import { cardOf } from "../../../core/compare-card.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { backUp, restore, restoredWhole } from "../../../editor/host/database/backup.ts";
import { liftGuards, putGuards } from "../../../editor/host/database/write-once-triggers.ts";
import { type DatabasePlace, openDatabase } from "../../../editor/host/database/database.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { tableKeys } from "../../../editor/host/database/tables.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../engine/index.ts";
import { chance } from "../../support/chance.ts";
import { type TestHost, lead, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";
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
  let place: DatabasePlace;
  let host: TestHost;
  beforeAll(async () => {
    place = await fresh();
    host = await testHost(place, threads);
  }, 60_000);
  afterAll(() => host?.close());

  const seal = async (text: string, more: object = {}) =>
    host.ask("POST", "/api/books/small-panels/editions", { text, why: "What is new", ...more });

  // ───────────── drafts ─────────────

  test("a draft is saved with every version it ever had", async () => {
    let text = "";
    const texts: string[] = [];
    for (let version = 0; version < 140; version += 1) {
      text = version % 7 === 3 ? text.slice(0, text.length / 2) : `${text}figure f${version} = ${version}\n`;
      texts.push(text);
      const saved = await host.ask("PUT", "/api/books/history/draft", { base: version, text });
      expect(saved.status).toBe(200);
      expect(schemas.draftSaved.parse(saved.body)).toMatchObject({
        version: version + 1,
        print: print(text),
      });
    }
    for (const version of [1, 2, 63, 64, 65, 127, 128, 129, 140])
      expect((await host.ask("GET", `/api/books/history/draft/history/${version}`)).body.text).toBe(
        texts[version - 1],
      );
    const first = schemas.draftHistory.parse(
      (await host.ask("GET", "/api/books/history/draft/history?limit=100")).body,
    );
    expect(first.versions.map((one) => one.version)).toEqual(Array.from({ length: 100 }, (_, i) => 140 - i));
    const second = schemas.draftHistory.parse(
      (await host.ask("GET", "/api/books/history/draft/history?limit=100&before=41")).body,
    );
    expect([second.versions.length, second.more]).toEqual([40, false]);
    expect((await host.ask("GET", "/api/books/history/draft/history/141")).status).toBe(404);
    // A change is kept, not the whole text each time.
    const sizes = await host.database.db
      .selectFrom("draft_history")
      .select(["whole", "change"])
      .where("book", "=", "history")
      .execute();
    expect(sizes.filter((row) => row.whole !== null)).toHaveLength(3);
  });

  test("two people on one draft are told, and neither loses a line", async () => {
    const other = { name: "T. Hale", role: "lead" } as const;
    const base = smallBook();
    await host.ask("PUT", "/api/books/small-panels/draft", { base: 0, text: base });
    const mine = base.replace("1:20", "1:12");
    const theirs = base
      .replace("Grind a bevel of {bevel}", "Grind {bevel}, by hand")
      .concat('\npart "More"\n');
    expect(
      (await host.ask("PUT", "/api/books/small-panels/draft", { base: 1, text: theirs }, other)).status,
    ).toBe(200);
    const told = await host.ask("PUT", "/api/books/small-panels/draft", { base: 1, text: mine });
    expect(told.status).toBe(409);
    const conflict = schemas.draftConflict.parse(told.body);
    expect(conflict.theirs).toMatchObject({ version: 2, who: "T. Hale", text: theirs });
    expect(conflict.clashes).toEqual([]);
    expect(conflict.merged).toBe(
      mine.replace("Grind a bevel of {bevel}", "Grind {bevel}, by hand").concat('\npart "More"\n'),
    );
    // Nothing was overwritten, and the merged text can be saved on top of theirs.
    expect((await host.ask("GET", "/api/books/small-panels/draft")).body.text).toBe(theirs);
    expect(
      (await host.ask("PUT", "/api/books/small-panels/draft", { base: 2, text: conflict.merged })).status,
    ).toBe(200);
    // Both change the same statement.
    expect(
      (
        await host.ask(
          "PUT",
          "/api/books/small-panels/draft",
          { base: 3, text: conflict.merged.replace("1:12", "1:13") },
          other,
        )
      ).status,
    ).toBe(200);
    const clash = schemas.draftConflict.parse(
      (
        await host.ask("PUT", "/api/books/small-panels/draft", {
          base: 3,
          text: conflict.merged.replace("1:12", "1:14"),
        })
      ).body,
    );
    expect(clash.clashes).toHaveLength(1);
    expect(clash.merged).toContain("1:13");
    expect(clash.merged).toContain("1:14");
    // The same again is no new version, also when the answer got lost and it is sent a second time.
    const again = await host.ask("PUT", "/api/books/small-panels/draft", {
      base: 3,
      text: conflict.merged.replace("1:12", "1:13"),
    });
    expect([again.status, again.body.version]).toEqual([200, 4]);
  });

  test("what is no draft is refused in a sentence, and nothing of it is kept", async () => {
    for (const [body, status] of [
      [{ base: 0, text: "a\0b" }, 422],
      [{ base: 0, text: "\ud800" }, 422],
      [{ base: -1, text: "" }, 400],
      [{ base: 7, text: "x" }, 409],
      [{ text: "x" }, 400],
      [{ base: 0, text: "x".repeat(2 * 1024 * 1024 + 1) }, 400],
    ] as const) {
      const answer = await host.ask("PUT", "/api/books/none/draft", body);
      expect([answer.status, typeof answer.body.says]).toEqual([status, "string"]);
    }
    expect((await host.ask("GET", "/api/books/none/draft")).status).toBe(404);
    expect(
      (await host.ask("PUT", "/api/books/none/draft", { base: 0, text: "x".repeat(7 * 1024 * 1024) })).status,
    ).toBe(413);
    expect(
      (
        await host.raw("/api/books/none/draft", {
          method: "PUT",
          headers: { "Content-Type": "application/json" },
          body: "{",
        })
      ).status,
    ).toBe(400);
    expect((await host.ask("GET", "/api/books/No%20Name/draft")).status).toBe(400);
  });

  test("many who save one draft at once: each version follows another, none is lost", async () => {
    const statuses = await Promise.all(
      Array.from({ length: 30 }, (_, i) =>
        host.ask("PUT", "/api/books/crowd/draft", { base: 0, text: `figure f${i} = ${i}\n` }),
      ),
    );
    expect(statuses.filter((one) => one.status === 200)).toHaveLength(1);
    let open = Array.from({ length: 30 }, (_, i) => i).filter((i) => statuses[i]!.status === 409);
    const drafts = new Map(
      open.map((i) => [
        i,
        { base: statuses[i]!.body.theirs.version as number, text: statuses[i]!.body.merged as string },
      ]),
    );
    while (open.length > 0) {
      const round = await Promise.all(
        open.map(async (i) => ({
          i,
          answer: await host.ask("PUT", "/api/books/crowd/draft", drafts.get(i)!),
        })),
      );
      for (const { i, answer } of round)
        if (answer.status === 409)
          drafts.set(i, { base: answer.body.theirs.version, text: answer.body.merged });
      open = round.filter(({ answer }) => answer.status === 409).map(({ i }) => i);
    }
    const { text } = (await host.ask("GET", "/api/books/crowd/draft")).body;
    for (let i = 0; i < 30; i += 1) expect(text).toContain(`figure f${i} = ${i}\n`);
  });

  // ───────────── editions ─────────────

  test("the host proves a book itself before it is sealed, and seals one with faults only for a reason that stays", async () => {
    const good = await seal(smallBook({ edition: 1 }));
    expect(good.status).toBe(201);
    expect(schemas.editionLine.parse(good.body)).toMatchObject({
      number: 1,
      print: print(smallBook({ edition: 1 })),
      faults: [],
      who: lead.name,
    });
    expect(good.body.standing.proved).toBe(good.body.standing.goals);

    for (const [text, is] of [
      [smallBook({ edition: 2, says: 61 }), "example"],
      [smallBook({ edition: 2, limit: 100 }), "promise"],
      [`${smallBook({ edition: 2 })}\nfigure lost = nothing-there\n`, "error"],
    ] as const) {
      const refused = await seal(text);
      expect(refused.status).toBe(422);
      expect(schemas.sealRefused.parse(refused.body).faults.map((fault) => fault.is)).toContain(is);
      expect((await seal(text, { reason: "   " })).status).toBe(422);
    }
    const reasoned = await seal(smallBook({ edition: 2, limit: 100 }), {
      reason: "The promise is looked at on Monday; the numbers are right.",
    });
    expect(reasoned.status).toBe(201);
    const kept = schemas.edition.parse((await host.ask("GET", "/api/books/small-panels/editions/2")).body);
    expect(kept).toMatchObject({
      reason: "The promise is looked at on Monday; the numbers are right.",
      faults: [{ is: "promise" }],
    });
    expect(kept.text).toBe(smallBook({ edition: 2, limit: 100 }));
  }, 60_000);

  test("numbers only rise, names must be the book's, and a sealed edition never changes", async () => {
    for (const edition of [1, 2]) expect((await seal(smallBook({ edition }))).status).toBe(409);
    expect(
      (await host.ask("POST", "/api/books/other/editions", { text: smallBook({ edition: 9 }), why: "x" }))
        .status,
    ).toBe(422);
    expect((await seal(smallBook().replace(", edition 1", ""))).body.says).toContain("edition 3");
    expect((await host.ask("GET", "/api/books/small-panels/editions/9")).status).toBe(404);
    for (const statement of [
      "update editions set why = 'x'",
      "delete from editions",
      "update log set who = 'x'",
      "delete from log",
      "delete from job_entries where 1 = 0 or id is not null",
      "update texts set text = 'x'",
      "delete from draft_history",
    ]) {
      const tried = sql.raw(statement).execute(host.database.db);
      if (statement.includes("job_entries")) await tried.catch(() => undefined);
      else await expect(tried).rejects.toThrow(/never changed/);
    }
    if (host.database.sort === "server")
      await expect(sql`truncate log`.execute(host.database.db)).rejects.toThrow(/never changed/);
  });

  test("who may do what is in one table, and the rest is refused", async () => {
    const technician = { name: "R. Vane", role: "technician" } as const;
    const viewer = { name: "T. Hale", role: "viewer" } as const;
    expect((await host.ask("GET", "/api/books", undefined, viewer)).status).toBe(200);
    expect((await host.ask("POST", "/api/jobs/entries", { entries: [] }, viewer)).status).toBe(403);
    expect((await host.ask("PUT", "/api/books/x/draft", { base: 0, text: "" }, technician)).status).toBe(403);
    expect((await host.ask("POST", "/api/books/x/editions", { text: "", why: "x" }, technician)).status).toBe(
      403,
    );
    expect((await host.ask("GET", "/api/log", undefined, technician)).status).toBe(403);
    expect((await host.raw("/api/books", { headers: { "X-Test-Person": "nobody" } })).status).toBe(401);
    expect(
      (
        await host.raw("/api/jobs/entries", {
          method: "POST",
          headers: {
            Origin: "https://elsewhere.example",
            Host: "shop.example",
            "Content-Type": "application/json",
          },
          body: '{"entries":[]}',
        })
      ).status,
    ).toBe(403);
  });

  // ───────────── jobs ─────────────

  test("tablets deliver late, twice and in any order; each entry is taken once and the job comes out the same", async () => {
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
      const found = schemas.jobFull.parse((await host.ask("GET", `/api/jobs/${entries[0]!.job}`)).body);
      expect(found.job).toEqual(foldJob(entries[0]!.job, entries));
    }
  });

  test("an entry that cannot be taken keeps no other back, and one that says otherwise under a taken id is refused", async () => {
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
    // Marks that one database would refuse and the other mangle come through in an entry.
    const odd = {
      id: uuid(luck),
      job: begin!.job,
      at: october + 9e6,
      device: "t",
      does: "note",
      line: "odd",
      text: "nul \0 half \ud800 \u2028 end 🧵",
    } as JobEntry;
    expect((await host.ask("POST", "/api/jobs/entries", { entries: [odd] })).body.taken).toEqual([odd.id]);
    expect(
      (await host.ask("GET", `/api/jobs/${begin!.job}`)).body.job.notes.find(
        (note: { line: string }) => note.line === "odd",
      ).text,
    ).toBe("nul \0 half \ud800 \u2028 end 🧵");
  });

  test("a signed card is worked again by its edition: the same, or what differs, or that its book is not known", async () => {
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
    const byChange = made
      .map((entries) => foldJob(entries[0]!.job, entries))
      .sort((a, b) => b.changed - a.changed)
      .map((job) => job.id);
    expect(pages).toEqual(byChange);
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

  test("a photograph is kept once by the print of its bytes; what is none, or came damaged, is refused", async () => {
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

  // ───────────── the log ─────────────

  test("A08: the log tells who did what, and shows what was tampered with", async () => {
    const list = schemas.logList.parse((await host.ask("GET", "/api/log?limit=500")).body);
    expect(new Set(list.lines.map((line) => line.what))).toEqual(
      new Set(["draft", "edition", "entries", "text", "photo", "worked again"]),
    );
    expect(list.lines.some((line) => line.what === "draft" && line.who === "T. Hale")).toBe(true);
    const whole = schemas.logVerdict.parse((await host.ask("GET", "/api/log/verify")).body);
    expect(whole).toMatchObject({ holds: true, troubles: [] });
    expect(whole.head).toBe(list.lines[0]!.hash);

    const { db, sort } = host.database;
    const rolledBack = new Error("not kept");
    // Someone who can write the database takes the triggers off and changes something: each way shows.
    for (const [statement, says] of [
      ["update log set who = 'nobody' where seq = 3", /Line 3 .* changed/],
      ["delete from log where seq = 4", /missing/],
      ["update log set at = at + 1 where seq = (select max(seq) from log)", /changed/],
      ["update job_entries set body = replace(body, 'front', 'rear')", /Entry .* changed/],
      ["delete from job_entries where id = (select min(id) from job_entries)", /no longer on the shelf/],
      ["update texts set text = replace(text, '1:20', '1:21')", /text .* changed/],
      ["update editions set print = (select min(print) from texts)", /not the one that was sealed/],
      ["delete from photos", /no longer on the shelf/],
    ] as const) {
      await expect(
        db.transaction().execute(async (tx) => {
          await liftGuards(tx, sort);
          await sql.raw(statement).execute(tx);
          const verdict = await verifyLog({ ...host.database, db: tx });
          expect(verdict.holds, statement).toBe(false);
          expect(verdict.troubles.join("\n"), statement).toMatch(says);
          throw rolledBack;
        }),
        statement,
      ).rejects.toBe(rolledBack);
    }
    // Lines cut off at the end show against a newest hash that was noted.
    await expect(
      db.transaction().execute(async (tx) => {
        await liftGuards(tx, sort);
        await sql
          .raw("delete from log where what = 'worked again' and seq = (select max(seq) from log)")
          .execute(tx);
        const last = await tx
          .selectFrom("log")
          .select("hash")
          .orderBy("seq", "desc")
          .limit(1)
          .executeTakeFirstOrThrow();
        const cut = last.hash === whole.head ? "0".repeat(64) : whole.head!;
        expect((await verifyLog({ ...host.database, db: tx }, cut)).holds).toBe(false);
        await putGuards(tx, sort);
        throw rolledBack;
      }),
    ).rejects.toBe(rolledBack);
    expect((await host.ask("GET", `/api/log/verify?head=${list.lines[5]!.hash}`)).body.holds).toBe(true);
  });

  // ───────────── backup ─────────────

  test("a backup taken while others write is one moment, goes back whole into either database, and a damaged one changes nothing", async () => {
    const luck = chance(16);
    const file = join(freshFolder(), "shop.backup");
    let stop = false;
    // A turn for everyone else between two writes, as over a socket.
    const writing = (async () => {
      for (; !stop; await new Promise(setImmediate))
        expect(
          (
            await host.ask("POST", "/api/jobs/entries", {
              entries: jobEntries(luck, refTo(smallBook(), 1), october),
            })
          ).status,
        ).toBe(200);
    })();
    // As the command does it: by a connection of its own.
    const beside = await openDatabase(place);
    const backup = await backUp(beside, file);
    stop = true;
    await writing;
    await beside.close();
    const rowsNow = async (of: TestHost) =>
      Object.fromEntries(
        await Promise.all(
          tableKeys.map(
            async ({ table, key }) =>
              [
                table,
                (
                  await sql<
                    Record<string, unknown>
                  >`select * from ${sql.table(table)} order by ${sql.join(key.map((name) => sql.ref(name)))}`.execute(
                    of.database.db,
                  )
                ).rows.map((row) =>
                  JSON.stringify(row, (_, value: unknown) =>
                    value instanceof Uint8Array
                      ? print(value)
                      : typeof value === "object" &&
                          value !== null &&
                          "type" in value &&
                          value.type === "Buffer" &&
                          "data" in value
                        ? print(Buffer.from(value.data as number[]))
                        : value,
                  ),
                ),
              ] as const,
          ),
        ),
      );
    expect(backup.rows).toBeGreaterThan(100);

    for (const other of bothPlaces) {
      const back = await testHost(await other.fresh(), threads);
      try {
        const restored = await restore(back.database, file, "a test");
        expect(await restoredWhole(back.database, restored)).toEqual([]);
        expect(restored).toEqual({
          rows: backup.rows,
          counts: expect.anything(),
          head: backup.head,
          made: backup.made,
        });
        const [here, there] = [await rowsNow(host), await rowsNow(back)];
        // What was written after the moment of the backup is not in it; all else is.
        for (const { table } of tableKeys) {
          if (table === "jobs" || table === "log" || table === "job_entries") continue;
          expect(there[table], table).toEqual(here[table]);
        }
        expect(there["log"]!.slice(0, -1)).toEqual(here["log"]!.slice(0, backup.counts["log"]!));
        expect(there["log"]!.at(-1)).toContain("restored");
        expect(there["job_entries"]!.every((row) => here["job_entries"]!.includes(row))).toBe(true);
        expect(there["job_entries"]).toHaveLength(backup.counts["job_entries"]!);
        await expect(sql`delete from log`.execute(back.database.db)).rejects.toThrow(/never changed/);
        // Work goes on upon it, also over what was there.
        expect(
          (await back.ask("PUT", "/api/books/small-panels/draft", { base: 4, text: "x\n" })).status,
        ).toBe(200);
        const verdict = (await back.ask("GET", "/api/log/verify")).body;
        expect(verdict).toMatchObject({ holds: true, troubles: [] });

        const bytes = readFileSync(file);
        const before = await rowsNow(back);
        for (const [name, damaged] of [
          ["cut", bytes.subarray(0, bytes.length - 40)],
          ["short", bytes.subarray(0, 10)],
          [
            "flipped",
            Buffer.concat([
              bytes.subarray(0, 5000),
              Buffer.from([bytes[5000]! ^ 0x55]),
              bytes.subarray(5001),
            ]),
          ],
          ["text", Buffer.from("no backup")],
          ["empty", Buffer.alloc(0)],
        ] as const) {
          const path = join(freshFolder(), name);
          writeFileSync(path, damaged);
          await expect(restore(back.database, path, "a test"), name).rejects.toThrow(/Nothing was put back/);
        }
        await expect(restore(back.database, join(freshFolder(), "none"), "a test")).rejects.toThrow(
          /no file/,
        );
        expect(await rowsNow(back)).toEqual(before);
        await restore(back.database, file, "a test");
        expect(await restoredWhole(back.database, restored)).toEqual([]);
      } finally {
        await back.close();
      }
    }
  }, 120_000);
});
