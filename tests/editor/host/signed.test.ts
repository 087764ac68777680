// Signed is signed: the host's own order closes a job, whatever clock an entry carries, and everything says
// who delivered it and when. Over a file and over a real PostgreSQL server.
import { randomUUID } from "node:crypto";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CardRecord, Deed, JobEntry } from "../../../core/record.ts";
import { revisionsOf } from "../../../core/revisions.ts";
import * as schemas from "../../../core/schemas/host.ts";
import type { Person } from "../../../editor/host/api/who.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { openDatabase } from "../../../editor/host/database/database.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { bothPlaces } from "./support/places.ts";

const print = "ab".repeat(32);
const card: CardRecord = {
  state: "ready",
  engine: "1",
  values: [{ name: "bevel", text: "30 mm" }],
  stops: [],
  cautions: [],
  steps: ["Wash"],
};
const anna: Person = { id: randomUUID(), name: "Anna Vane", role: "technician" };
const bo: Person = { id: randomUUID(), name: "Bo Hale", role: "technician" };
const noon = Date.UTC(2026, 9, 1, 12);
const fiveYears = 5 * 365 * 24 * 3600_000;

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let host: TestHost;
  beforeAll(async () => {
    host = await testHost(await fresh(), threads);
    await host.database.write("a test", async (tx, _log, at) => {
      for (const { id, name, role } of [anna, bo])
        await tx
          .insertInto("people")
          .values({ id: id!, name, name_key: name.toLowerCase(), role, password: "none", made: at })
          .execute();
    });
  }, 60_000);
  afterAll(() => host?.close());

  const entry = (job: string, at: number, deed: Deed, more: object = {}): JobEntry =>
    ({ id: randomUUID(), job, at, device: "tablet 1", ...deed, ...more }) as JobEntry;
  const send = async (by: Person, entries: readonly JobEntry[], sent?: number) =>
    schemas.delivered.parse(
      (await host.ask("POST", "/api/jobs/entries", { entries, ...(sent === undefined ? {} : { sent }) }, by))
        .body,
    );
  const full = async (job: string) =>
    schemas.jobFull.parse((await host.ask("GET", `/api/jobs/${job}`)).body).job;
  const begin = (name = "panels", of = print): Deed => ({
    does: "begin",
    book: { name, print: of, sealed: false },
    title: "front wing",
  });
  const answer = (text: string): Deed => ({ does: "answer", ask: "thickness", text });
  const sign = (name: string): Deed => ({ does: "sign", name, card });
  const signedJob = async (): Promise<string> => {
    const job = randomUUID();
    await send(anna, [
      entry(job, noon, begin()),
      entry(job, noon + 1, answer("6 mm")),
      entry(job, noon + 2, sign("Anna Vane"), { by: "Anna Vane" }),
    ]);
    return job;
  };

  test("a signature dated before the first takes no place; a backdated answer changes nothing", async () => {
    const job = await signedJob();
    await send(bo, [
      entry(job, 0, sign("Bo Hale"), { by: "Bo Hale" }),
      entry(job, 1, answer("2 mm")),
      entry(job, 2, { does: "note", line: "n", text: "thin" }, { by: "Anna Vane" }),
    ]);
    const found = await full(job);
    expect(found.signed).toMatchObject({ name: "Anna Vane", received: { by: "Anna Vane" } });
    expect(found.answers).toEqual({ thickness: "6 mm" });
    expect(found.notes).toEqual([]);
    expect(found.after.map((one) => [one.does, one.received?.by])).toEqual([
      ["sign", "Bo Hale"],
      ["answer", "Bo Hale"],
      ["note", "Bo Hale"],
    ]);
    // A correction shows both.
    expect(revisionsOf(found as never)[1]).toMatchObject({ of: "thickness", was: "6 mm", now: "2 mm" });
    const listed = (await host.ask("GET", "/api/jobs?limit=500")).body.jobs.find(
      (one: { id: string }) => one.id === job,
    );
    expect(listed).toMatchObject({ signedBy: "Anna Vane", closedBy: "Anna Vane", after: 3 });
    expect(Math.abs(listed.closedAt - Date.now())).toBeLessThan(60_000);
  });

  test("a clock that is ahead wins nothing: of two answers the one received later holds", async () => {
    const job = randomUUID();
    await send(anna, [entry(job, noon, begin()), entry(job, noon + fiveYears, answer("9 mm"))]);
    await send(bo, [entry(job, noon + 1, answer("6 mm"))]);
    expect((await full(job)).answers).toEqual({ thickness: "6 mm" });
    await send(anna, [entry(job, noon + 2, sign("Anna Vane"))]);
    await send(bo, [entry(job, noon + 1, answer("3 mm"))]);
    const found = await full(job);
    expect([found.answers, found.after.length]).toEqual([{ thickness: "6 mm" }, 1]);
  });

  test("each entry says who delivered it, when, and how far the device's clock was off", async () => {
    const job = randomUUID();
    const before = Date.now();
    const { at } = await send(anna, [entry(job, noon, begin())], before + fiveYears);
    await send(bo, [entry(job, noon, { does: "note", line: "n", text: "x" }, { by: "Anna Vane" })]);
    expect(at).toBeGreaterThanOrEqual(before);
    const { entries, more } = schemas.entryList.parse(
      (await host.ask("GET", `/api/jobs/${job}/entries?limit=1`)).body,
    );
    expect([entries.length, more, entries[0]!.received!.by]).toEqual([1, true, "Anna Vane"]);
    expect(Math.abs(entries[0]!.received!.skew! - fiveYears)).toBeLessThan(60_000);
    // On a shared tablet: entered as Anna, delivered by Bo, and both are told.
    expect((await full(job)).notes[0]).toMatchObject({ by: "Anna Vane", received: { by: "Bo Hale" } });
    expect((await host.ask("GET", `/api/jobs/${randomUUID()}/entries`)).status).toBe(404);
  });

  test("a signature in the name of somebody else whom the host knows is refused", async () => {
    const job = randomUUID();
    await send(bo, [entry(job, noon, begin())]);
    for (const [deed, more] of [
      [sign("Anna Vane"), {}],
      [sign("ANNA  vane"), {}],
      [sign("Bo Hale"), { by: "Anna Vane" }],
      [sign("Anna Vane"), { by: "Bo Hale" }],
    ] as const) {
      const told = await send(bo, [entry(job, noon + 1, deed, more), entry(job, noon, answer("4 mm"))]);
      expect([told.taken.length, told.refused.length]).toEqual([1, 1]);
      expect(told.refused[0]!.says).toContain("Bo Hale is signed in");
    }
    expect((await full(job)).signed).toBeUndefined();
    // Initials are nobody's name: they are taken, and who delivered them stands beside.
    expect((await send(bo, [entry(job, noon + 1, sign("A. V."))])).refused).toEqual([]);
    expect((await full(job)).signed).toMatchObject({ name: "A. V.", received: { by: "Bo Hale" } });
  });

  test("a job begun by two books says so, and the first that came holds", async () => {
    const job = randomUUID();
    await send(anna, [entry(job, noon, begin("panels"))]);
    await send(bo, [entry(job, 1, begin("other", "cd".repeat(32)))]);
    const found = await full(job);
    expect(found.book?.name).toBe("panels");
    expect(found.otherBooks?.map((one) => one.name)).toEqual(["other"]);
  });

  test("rows of an earlier folding are made anew when the data is opened", async () => {
    const place = await fresh();
    const first = await openDatabase(place);
    const job = randomUUID();
    await first.write("a test", async (tx, log, at) => {
      const line = await log("entries", { jobs: [job], entries: [] });
      const kept = entry(job, noon, begin());
      await tx
        .insertInto("job_entries")
        .values({
          id: kept.id,
          job,
          at: noon,
          device: kept.device,
          delivered_by: "Anna Vane",
          delivered_at: at,
          print,
          body: JSON.stringify(kept),
          line,
          skew: null,
        })
        .execute();
      await tx
        .insertInto("jobs")
        .values({
          id: job,
          title: "of before",
          book: "panels",
          edition: null,
          print,
          state: "open",
          begun: 0,
          changed: 0,
          signed_at: null,
          signed_by: null,
          after_signing: 0,
          search: "",
          agreement: "not signed",
          trace: null,
          closed_at: null,
          closed_by: null,
          fold: 0,
        })
        .execute();
    });
    await first.close();
    const again = await openDatabase(place);
    expect(await again.db.selectFrom("jobs").select("title").execute()).toEqual([{ title: "front wing" }]);
    await again.close();
  });
});
