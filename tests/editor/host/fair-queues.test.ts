// Nobody waits for somebody else: turns by person, one answer for equal questions, an end for whoever has
// gone, and a sentence where it is too much.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { randomUUID } from "node:crypto";
import type { JobEntry } from "../../../core/record.ts";
import { titleIn } from "../../../core/title-in.ts";
import { MAX_JOB_ENTRIES } from "../../../core/limits.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { type Asker, fairQueue, mostWaiting } from "../../../editor/host/engine-threads/fair-queue.ts";
import { saveDraft } from "../../../editor/host/database/draft-versions.ts";
import { openDatabase } from "../../../editor/host/database/database.ts";
import { sha256 } from "../../../editor/host/database/log-chain.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";

const asker = (who: string): Asker => ({ who, resolve: () => undefined, reject: () => undefined });

describe("the queue", () => {
  test("people take turns, whoever has asked how much", () => {
    const queue = fairQueue<string>();
    for (let n = 0; n < 5; n += 1) queue.put(`a${n}`, `a${n}`, asker("Anna"));
    queue.put("b0", "b0", asker("Bo"));
    queue.put("c0", "c0", asker("Cem"));
    queue.put("b1", "b1", asker("Bo"));
    const order: string[] = [];
    for (let one = queue.next(); one !== undefined; one = queue.next()) order.push(one.asked);
    expect(order).toEqual(["a0", "b0", "c0", "a1", "b1", "a2", "a3", "a4"]);
  });
  test("equal questions are one, and come with the first turn of either", () => {
    const queue = fairQueue<string>();
    for (const key of ["x", "y", "same"]) queue.put(key, key, asker("Anna"));
    queue.put("same", "same", asker("Bo"));
    const [first, second, third] = [queue.next(), queue.next(), queue.next()];
    expect([first, second, third].map((one) => one?.asked)).toEqual(["x", "same", "y"]);
    expect([...second!.askers].map((one) => one.who)).toEqual(["Anna", "Bo"]);
    expect(queue.next()).toBeUndefined();
  });
  test("too many of one are refused with a sentence, and the others go on", () => {
    const queue = fairQueue<string>();
    for (let n = 0; n < mostWaiting.person; n += 1) queue.put(`a${n}`, "", asker("Anna"));
    expect(() => queue.put("more", "", asker("Anna"))).toThrow(
      /of your questions to the engine wait already/,
    );
    queue.put("b", "", asker("Bo"));
    for (let n = 0; n < mostWaiting.all - mostWaiting.person - 1; n += 1)
      queue.put(`p${n}`, "", asker(`p${n}`));
    expect(() => queue.put("last", "", asker("Zoe"))).toThrow(/too much to do just now/);
  });
});

describe("the engine's threads", () => {
  let threads: EngineThreads;
  beforeAll(() => {
    threads = startEngineThreads();
  });
  afterAll(() => threads.close());
  const check = (n: number) => ({ asks: "check" as const, text: smallBook({ edition: n }), under: [] });

  test("whoever has gone is not waited for, and the others get their answers", async () => {
    const gone = new AbortController();
    const by = { who: "Anna", signal: gone.signal };
    const left = [1, 2, 3].map((n) => threads.ask(check(n), by));
    const shared = threads.ask(check(3), { who: "Bo" });
    gone.abort();
    for (const one of left) await expect(one).rejects.toThrow("Nobody waits for this any more");
    expect((await shared).edition).toBe(3);
  });
  test("a small question of another comes before the rest of many", async () => {
    const done: string[] = [];
    const asked = [1, 2, 3, 4, 5, 6].map((n) =>
      threads.ask(check(n), { who: "Anna" }).then(() => done.push(`a${n}`)),
    );
    asked.push(threads.ask(check(9), { who: "Bo" }).then(() => done.push("b")));
    await Promise.all(asked);
    expect(done.indexOf("b")).toBeLessThan(3);
  });
});

test("a hostile first line has its title found in one pass", () => {
  for (const text of [
    `book a, edition 1 "${"\\".repeat(2_000_000)}`,
    `book a ${'"\\'.repeat(500_000)}`,
    `\n${"book ".repeat(400_000)}`,
    `book a\n${"  x\n".repeat(400_000)}`,
  ]) {
    const before = process.cpuUsage();
    titleIn(text);
    expect(process.cpuUsage(before).user).toBeLessThan(500_000);
  }
  expect(titleIn('-- x\nbook a, edition 1\n    "The \\"panels\\""\n"no"')).toBe('The \\"panels\\"');
  expect(titleIn('book a\npart "More"')).toBe("");
  expect(titleIn('rebook a "x"')).toBe("");
});

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let threads: EngineThreads;
  let host: TestHost;
  beforeAll(async () => {
    threads = startEngineThreads();
    host = await testHost(await fresh(), threads);
  }, 60_000);
  afterAll(async () => {
    await host.close();
    await threads.close();
  });
  const print = "ab".repeat(32);
  const entry = (job: string, deed: object): JobEntry =>
    ({ id: randomUUID(), job, at: 1, device: "t", ...deed }) as JobEntry;

  test("long questions of one person are bounded with a sentence", async () => {
    await saveDraft(host.database, "Ilse Marrow", "small-panels", { base: 0, text: smallBook() });
    const answers = await Promise.all(Array.from({ length: 20 }, () => host.ask("GET", "/api/log/verify")));
    expect(answers.filter((one) => one.status === 200)).toHaveLength(8);
    const refused = answers.find((one) => one.status === 429)!;
    expect(refused.body.says).toMatch(/of your questions of this kind run already/);
    // What is over frees its place.
    expect((await host.ask("GET", "/api/log/verify")).status).toBe(200);
  });

  test("a job of more photographs than a statement takes values is read all the same", async () => {
    const job = randomUUID();
    await host.ask("POST", "/api/jobs/entries", {
      entries: [
        entry(job, { does: "begin", book: { name: "b", print, sealed: true }, title: "" }),
        ...Array.from({ length: 499 }, (_, n) =>
          entry(job, { does: "photo", photo: sha256(`p${n}`), type: "image/png", bytes: 1 }),
        ),
      ],
    });
    // The rest straight into the table: a delivery has at most 500.
    await host.database.write("a test", async (tx, log) => {
      const line = await log("entries", { jobs: [job], entries: [] });
      for (let from = 0; from < MAX_JOB_ENTRIES - 1000; from += 500)
        await tx
          .insertInto("job_entries")
          .values(
            Array.from({ length: 500 }, (_, n) => {
              const photo = sha256(`q${from + n}`);
              const one = entry(job, { does: "photo", photo, type: "image/png", bytes: 1 });
              return {
                id: one.id,
                job,
                at: 1,
                device: "t",
                delivered_by: "a test",
                delivered_at: 1,
                print,
                body: JSON.stringify(one),
                line,
                skew: null,
              };
            }),
          )
          .execute();
    });
    const read = await host.ask("GET", `/api/jobs/${job}`);
    expect([read.status, read.body.missingPhotos.length]).toEqual([200, MAX_JOB_ENTRIES - 1000 + 499]);
    // And it does not grow without end.
    const more = Array.from({ length: 500 }, () => entry(job, { does: "note", line: "n", text: "x" }));
    await host.ask("POST", "/api/jobs/entries", { entries: more });
    const last = await host.ask("POST", "/api/jobs/entries", {
      entries: [entry(job, { does: "note", line: "n", text: "y" }), entry(job, { does: "note", line: "n" })],
    });
    expect([last.body.taken.length, last.body.refused[0].says]).toEqual([
      0,
      expect.stringMatching(/is full/),
    ]);
  }, 120_000);

  test("a card is bounded; an entry that is too large keeps no other back", async () => {
    const job = randomUUID();
    const card = {
      state: "ready",
      engine: "1",
      values: Array.from({ length: 400 }, (_, n) => ({ name: `v${n}`, text: "x".repeat(4000) })),
      stops: [],
      cautions: [],
      steps: [],
    };
    const { body } = await host.ask("POST", "/api/jobs/entries", {
      entries: [
        entry(job, { does: "begin", book: { name: "b", print, sealed: true }, title: "" }),
        entry(job, { does: "sign", name: "N. N.", card }),
      ],
    });
    expect([body.taken.length, body.refused[0].says]).toEqual([1, expect.stringMatching(/at most 1 MiB/)]);
  });
});

test("a conflict of two long drafts holds up no other write", async () => {
  const database = await openDatabase({ data: freshFolder() });
  const text = (name: string): string =>
    Array.from({ length: 4000 }, (_, i) => `figure ${name}${i} = ${i}\n`).join("");
  await saveDraft(database, "Anna", "b", { base: 0, text: text("a") });
  await saveDraft(database, "Bo", "b", { base: 1, text: text("b") });
  const order: string[] = [];
  const conflict = saveDraft(database, "Anna", "b", { base: 1, text: text("c") }).then((saved) => {
    order.push(saved.is);
  });
  const other = database.write("Cem", (_tx, log) => log("test", {})).then(() => order.push("other"));
  await Promise.all([conflict, other]);
  expect(order.sort()).toEqual(["conflict", "other"]);
  await database.close();
});
