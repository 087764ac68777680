// Drafts and sealed editions on the shop's host, and who may write them: over a file and over a real
// PostgreSQL server.
import { createHash } from "node:crypto";
import { sql } from "kysely";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import * as schemas from "../../../core/schemas/host.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { type TestHost, lead, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces } from "./support/places.ts";

const print = (content: string | Uint8Array): string => createHash("sha256").update(content).digest("hex");

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let host: TestHost;
  beforeAll(async () => {
    host = await testHost(await fresh(), threads);
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

  test("the host proves a book before it is sealed, and seals faults only for a reason", async () => {
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
});
