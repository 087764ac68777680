// People of a host that serves a network, over both databases: the first lead, invitations, passwords,
// sessions, roles, failed tries. Beside each test the item of the OWASP Top 10 (2021) that it belongs to.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { waitAfter } from "../../../editor/host/people/attempts.ts";
import { isPassword } from "../../../editor/host/people/passwords.ts";
import { changeRole, idle, inviteFirst, invite, longest } from "../../../editor/host/people/accounts.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import type { DatabasePlace } from "../../../editor/host/database/database.ts";
import { type NetworkHost, nameless, networkHost, phrase } from "./support/network.ts";
import { chance } from "../../support/chance.ts";
import { bothPlaces } from "./support/places.ts";
import { jobEntries } from "./support/records.ts";

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let place: DatabasePlace;
  let host: NetworkHost;
  let lead = "";
  beforeAll(async () => {
    place = await fresh();
    host = await networkHost(place, threads);
  }, 60_000);
  afterAll(() => host?.close());
  const enter = (name: string, password = phrase, token?: string) =>
    host.ask("POST", "/api/sign-in", { name, password }, token);
  const forget = () => host.database.write("a test", (tx) => tx.deleteFrom("attempts").execute());
  const join = async (role: "lead" | "technician" | "viewer", name: string, password = phrase) =>
    host.ask("POST", "/api/invitations/take", {
      token: (await invite(host.database, "a test", role)).token,
      name,
      password,
    });

  test("A07: the first lead comes in by an invitation that works once, without a password", async () => {
    for (const name of ["admin", "lead", "this desk"]) expect((await enter(name, "admin")).status).toBe(401);
    await forget();
    const first = (await inviteFirst(host.database))!;
    const second = (await inviteFirst(host.database))!;
    // A new start takes the place of the invitation before.
    expect((await host.ask("POST", "/api/invitations/look", { token: first.token })).status).toBe(404);
    expect((await host.ask("POST", "/api/invitations/look", { token: second.token })).body).toEqual({
      role: "lead",
      ends: second.ends,
    });
    const wish = (more: object) =>
      host.ask("POST", "/api/invitations/take", {
        token: second.token,
        name: "Ilse Marrow",
        password: phrase,
        ...more,
      });
    for (const password of [
      "too short",
      "password123",
      "1234567890",
      "aaaaaaaaaaaa",
      "Ilse Marrow",
      "x".repeat(100) + "y".repeat(101),
    ])
      expect([password, (await wish({ password })).status]).toEqual([password, 422]);
    for (const name of ["", "a\u0000b", "a\nb", "<b>", "the host"])
      expect([400, 422]).toContain((await wish({ name })).status);
    const taken = await wish({});
    expect([taken.status, taken.body.you]).toEqual([200, { name: "Ilse Marrow", role: "lead" }]);
    expect((await wish({ name: "Another" })).status).toBe(404);
    expect(await inviteFirst(host.database)).toBeUndefined();
    lead = taken.token!;
    expect((await host.ask("GET", "/api/hello", undefined, lead)).body.you).toEqual({
      name: "Ilse Marrow",
      role: "lead",
    });
  }, 60_000);

  test("A07: hosts that start together leave one way in for the first lead, then none", async () => {
    const empty = await fresh();
    const one = await networkHost(empty, threads);
    // Two hosts share a server; two on one file belong in two processes.
    const hosts = [one, empty.database === undefined ? one : await networkHost(empty, threads)] as const;
    const look = async (token: string) => hosts[0].ask("POST", "/api/invitations/look", { token });
    const come = async (on: NetworkHost, token: string, name: string) =>
      on.ask("POST", "/api/invitations/take", { token, name, password: phrase });
    try {
      const made = await Promise.all(
        [...hosts, ...hosts, ...hosts].map((each) => inviteFirst(each.database)),
      );
      const open: string[] = [];
      for (const each of made) if ((await look(each!.token)).status === 200) open.push(each!.token);
      expect(open).toHaveLength(1);
      expect((await look("a".repeat(43))).body.says).toMatch(/There is no lead yet: start the host again/);
      // An hour, and no more.
      const [row] = await hosts[0].database.db.selectFrom("invitations").selectAll().execute();
      expect(row!.ends - row!.made).toBe(3600_000);
      await hosts[0].database.write("a test", (tx) =>
        tx
          .updateTable("invitations")
          .set({ ends: Date.now() - 1 })
          .execute(),
      );
      expect((await come(hosts[1], open[0]!, "Too Late")).status).toBe(404);
      // One comes in at the terminal's invitation: the host's own is over. Two at one address: one of them.
      const own = (await inviteFirst(hosts[0].database))!;
      const atTerminal = await invite(hosts[0].database, "the terminal", "lead");
      const both = await Promise.all([
        come(hosts[0], atTerminal.token, "Ilse Marrow"),
        come(hosts[1], atTerminal.token, "Odo Penn"),
      ]);
      expect(both.map((each) => each.status).sort()).toEqual([200, 404]);
      expect((await come(hosts[1], own.token, "Second First")).status).toBe(404);
      expect(await Promise.all(hosts.map((each) => inviteFirst(each.database)))).toEqual([
        undefined,
        undefined,
      ]);
      expect(await hosts[0].database.db.selectFrom("people").select("role").execute()).toEqual([
        { role: "lead" },
      ]);
    } finally {
      for (const each of new Set(hosts)) await each.close();
    }
  }, 60_000);

  test("A02: passwords are kept by Argon2id, tokens by hash; cookies are for this host only", async () => {
    const { password } = await host.database.db
      .selectFrom("people")
      .select("password")
      .executeTakeFirstOrThrow();
    // OWASP Password Storage Cheat Sheet: Argon2id with at least 19 MiB, 2 passes, 1 lane.
    expect(password).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$[\w+/]{20,}\$[\w+/]{40,}$/);
    const { token: open } = await invite(host.database, "a test", "viewer");
    const kept = JSON.stringify([
      await host.database.db.selectFrom("sessions").selectAll().execute(),
      await host.database.db.selectFrom("invitations").selectAll().execute(),
      await host.database.db.selectFrom("log").selectAll().execute(),
    ]);
    for (const secret of [lead, open, phrase]) expect(kept).not.toContain(secret);
    const cookie = (await enter("ILSE  marrow ")).headers.get("set-cookie")!;
    // RFC 6265bis 4.1.3.2: the prefix asks for Secure, Path=/ and no Domain.
    for (const part of [/^__Host-bevelbook=/, /; HttpOnly/, /; Secure/, /; SameSite=Strict/, /; Path=\//])
      expect(cookie).toMatch(part);
    expect(cookie).not.toMatch(/domain/i);
  });

  test("A07: an invitation ends; one for a new password ends the sessions and keeps the name", async () => {
    const old = await invite(host.database, "a test", "viewer");
    await host.database.write("a test", (tx) => tx.updateTable("invitations").set({ ends: 1 }).execute());
    expect(
      (await host.ask("POST", "/api/invitations/take", { token: old.token, name: "Late", password: phrase }))
        .status,
    ).toBe(404);
    const joined = await join("technician", "T. Hale");
    const { people } = (await host.ask("GET", "/api/people", undefined, lead)).body as {
      people: { id: string; name: string }[];
    };
    const hale = people.find((one) => one.name === "T. Hale")!;
    const anew = await invite(host.database, "the terminal", "technician", hale);
    const taken = await host.ask("POST", "/api/invitations/take", {
      token: anew.token,
      name: "Someone Else",
      password: "another phrase of words",
    });
    expect(taken.body.you).toEqual({ name: "T. Hale", role: "technician" });
    expect((await host.ask("GET", "/api/hello", undefined, joined.token)).status).toBe(401);
    expect([
      (await enter("t. hale")).status,
      (await enter("t. hale", "another phrase of words")).status,
    ]).toEqual([401, 200]);
    await forget();
    expect((await join("viewer", "t.  HALE")).status).toBe(422);
  }, 60_000);

  test("A07: a session is new at each sign-in, and ends in five ways", async () => {
    // Fixation: a token that a browser brings along is not taken over.
    const brought = "A".repeat(43);
    const one = await enter("Ilse Marrow", phrase, brought);
    expect(one.token).not.toBe(brought);
    expect((await host.ask("GET", "/api/hello", undefined, brought)).status).toBe(401);
    const two = await enter("Ilse Marrow", phrase, one.token);
    expect((await host.ask("GET", "/api/hello", undefined, one.token)).status).toBe(401);
    await host.ask("POST", "/api/sign-out", undefined, two.token);
    expect((await host.ask("GET", "/api/hello", undefined, two.token)).status).toBe(401);
    for (const past of [{ seen: Date.now() - idle - 1000 }, { begun: Date.now() - longest - 1000 }]) {
      const { token } = await enter("Ilse Marrow");
      expect((await host.ask("GET", "/api/hello", undefined, token)).status).toBe(200);
      await host.database.write("a test", (tx) => tx.updateTable("sessions").set(past).execute());
      expect((await host.ask("GET", "/api/hello", undefined, token)).status).toBe(401);
    }
    const [here, there] = [await enter("Ilse Marrow"), await enter("Ilse Marrow")];
    expect(
      (
        await host.ask(
          "PUT",
          "/api/password",
          { old: "not the one it is", password: `${phrase}, two` },
          here.token,
        )
      ).status,
    ).toBe(422);
    const changed = await host.ask(
      "PUT",
      "/api/password",
      { old: phrase, password: `${phrase}, two` },
      here.token,
    );
    expect(changed.status).toBe(200);
    for (const token of [here.token, there.token])
      expect((await host.ask("GET", "/api/hello", undefined, token)).status).toBe(401);
    expect((await host.ask("GET", "/api/hello", undefined, changed.token)).status).toBe(200);
    expect(
      (await host.ask("PUT", "/api/password", { old: `${phrase}, two`, password: phrase }, changed.token))
        .status,
    ).toBe(200);
    await forget();
    lead = (await enter("Ilse Marrow")).token!;
  }, 60_000);

  test("A01: a role that is taken away is gone with the next question; the last lead stays", async () => {
    const { token } = await join("lead", "Second Lead");
    const find = async (name: string) =>
      (
        (await host.ask("GET", "/api/people", undefined, lead)).body.people as { id: string; name: string }[]
      ).find((one) => one.name === name)!.id;
    const [second, first] = [await find("Second Lead"), await find("Ilse Marrow")];
    expect((await host.ask("GET", "/api/log", undefined, token)).status).toBe(200);
    expect((await host.ask("PUT", `/api/people/${second}`, { role: "viewer" }, lead)).status).toBe(200);
    expect((await host.ask("GET", "/api/log", undefined, token)).status).toBe(403);
    for (const [method, body] of [
      ["PUT", { role: "viewer" }],
      ["DELETE", undefined],
    ] as const)
      expect((await host.ask(method, `/api/people/${first}`, body, lead)).status).toBe(422);
    expect((await host.ask("DELETE", `/api/people/${second}/sessions`, undefined, lead)).status).toBe(200);
    expect((await host.ask("GET", "/api/hello", undefined, token)).status).toBe(401);
    // Two leads who take each other's role, or remove each other, at the same moment, over a server on two
    // hosts: one stays.
    const beside = place.database === undefined ? host : await networkHost(place, threads);
    try {
      const bothLead = async (): Promise<void> => {
        for (const id of [first, second]) await changeRole(host.database, "a test", id, "lead");
      };
      for (let i = 0; i < 10; i += 1) {
        await bothLead();
        await Promise.allSettled([
          changeRole(host.database, "a test", first, "viewer"),
          i % 2 === 0
            ? changeRole(beside.database, "a test", second, "technician")
            : changeRole(host.database, "a test", second, "viewer"),
        ]);
        expect(
          await host.database.db.selectFrom("people").select("id").where("role", "=", "lead").execute(),
        ).toHaveLength(1);
      }
      await bothLead();
    } finally {
      if (beside !== host) await beside.close();
    }
    expect((await host.ask("DELETE", `/api/people/${second}`, undefined, lead)).status).toBe(200);
    expect((await enter("Second Lead")).status).toBe(401);
    const made = await host.ask("POST", "/api/people/invitations", { role: "viewer" }, lead);
    const token2 = (made.body.path as string).split("invited=")[1]!;
    const { invitations } = (await host.ask("GET", "/api/people", undefined, lead)).body as {
      invitations: { id: string; role: string }[];
    };
    for (const { id } of invitations)
      expect((await host.ask("DELETE", `/api/people/invitations/${id}`, undefined, lead)).status).toBe(200);
    expect((await host.ask("POST", "/api/invitations/look", { token: token2 })).status).toBe(404);
    await forget();
  }, 60_000);

  test("A04, A07: failed tries are limited by name and address, also at once and after a start", async () => {
    const unknown = await enter("Nobody Here", "wrong wrong wrong");
    const known = await enter("Ilse Marrow", "wrong wrong wrong");
    expect([unknown.status, unknown.body]).toEqual([known.status, known.body]);
    await forget();
    const burst = await Promise.all(
      Array.from({ length: 12 }, (_, i) => enter("Ilse Marrow", `guess number ${i}`)),
    );
    expect(burst.filter((one) => one.status === 401).length).toBeLessThanOrEqual(5);
    expect(burst.filter((one) => one.status === 429).length).toBeGreaterThanOrEqual(7);
    // The right one has to wait as well: else the wait would tell.
    expect((await enter("Ilse Marrow")).status).toBe(429);
    await host.close();
    host = await networkHost(place, threads);
    await host.database.write("a test", (tx) =>
      tx
        .updateTable("attempts")
        .set({ until: Date.now() + 60_000 })
        .where("key", "like", "name %")
        .execute(),
    );
    const { says, code, values } = (await enter("Ilse Marrow")).body;
    expect([code, says]).toEqual(["sign-in-wait", expect.stringMatching(/Wait \d+ seconds/)]);
    expect(values.seconds).toBeGreaterThan(0);
    expect(values.seconds).toBeLessThanOrEqual(60);
    // A name that is not there is limited in the same way.
    const strangers = await Promise.all(
      Array.from({ length: 8 }, () => enter("Stranger", "wrong wrong wrong")),
    );
    expect(strangers.some((one) => one.status === 429)).toBe(true);
    // One address that tries many names.
    await forget();
    const many: number[] = [];
    for (let i = 0; i < 33; i += 1)
      many.push(
        (await host.ask("POST", "/api/invitations/look", { token: String(i).padStart(43, "a") })).status,
      );
    expect(many.slice(0, 30)).toEqual(Array.from({ length: 30 }, () => 404));
    expect(many.at(-1)).toBe(429);
    await forget();
    expect((await enter("Ilse Marrow")).status).toBe(200);
  }, 120_000);

  test("A09: sign-ins, failures, invitations and roles are in the log; what was typed is not", async () => {
    await enter("my password typed as a name", "x");
    const lines = (await host.ask("GET", "/api/log?limit=200", undefined, lead)).body.lines as {
      what: string;
      who: string;
      body: object;
    }[];
    const said = new Set(lines.map((line) => line.what));
    for (const what of [
      "invited",
      "joined",
      "signed in",
      "signed out",
      "sign-in failed",
      "password changed",
      "password set anew",
      "role changed",
      "sessions ended",
      "removed",
      "invitation taken back",
    ])
      expect(said).toContain(what);
    expect(JSON.stringify(lines)).not.toContain("typed as a name");
    expect(await verifyLog(host.database)).toMatchObject({ holds: true, troubles: [] });
    // Failures without end do not fill it.
    await host.database.write("a test", (tx) =>
      tx.updateTable("attempts").set({ failures: 1000, until: 0 }).execute(),
    );
    const before = lines.length;
    await enter("Ilse Marrow", "wrong wrong wrong");
    expect(
      ((await host.ask("GET", "/api/log?limit=200", undefined, lead)).body.lines as unknown[]).length,
    ).toBe(before);
    await forget();
  });

  test("A03: what is typed is data: in names, passwords and searches", async () => {
    for (const name of ["' or '1'='1", "Ilse Marrow'--", "%", "_lse Marrow", '"; drop table people; --'])
      expect((await enter(name)).status).toBe(401);
    await forget();
    const [begin] = jobEntries(
      chance(3),
      { name: "b", edition: 1, print: "0".repeat(64), sealed: true },
      Date.UTC(2026, 9, 1),
    );
    expect((await host.ask("POST", "/api/jobs/entries", { entries: [begin] }, lead)).body.taken).toHaveLength(
      1,
    );
    expect((await host.ask("GET", "/api/jobs?search=order", undefined, lead)).body.jobs).toHaveLength(1);
    for (const search of ["' or 1=1 --", "%", "_", "\\", '"', "); delete from jobs; --"]) {
      const found = await host.ask("GET", `/api/jobs?search=${encodeURIComponent(search)}`, undefined, lead);
      expect([search, found.status, found.body.jobs]).toEqual([search, 200, []]);
      expect(
        (await host.ask("GET", `/api/editions?search=${encodeURIComponent(search)}`, undefined, lead)).status,
      ).toBe(200);
    }
    expect(await host.database.db.selectFrom("people").select("name").execute()).toContainEqual({
      name: "Ilse Marrow",
    });
    expect((await host.raw("/api/hello", { headers: { Cookie: `${nameless}=' or '1'='1` } })).status).toBe(
      401,
    );
  });
});

test("A07: a name that is not there takes as long as one that is", async () => {
  const { hashPassword } = await import("../../../editor/host/people/passwords.ts");
  const kept = await hashPassword(phrase);
  await isPassword(undefined, "warm");
  const time = async (of: string | undefined) => {
    const all: number[] = [];
    for (let i = 0; i < 5; i += 1) {
      const start = performance.now();
      expect(await isPassword(of, "wrong")).toBe(false);
      all.push(performance.now() - start);
    }
    return all.sort((a, b) => a - b)[2]!;
  };
  expect((await time(undefined)) / (await time(kept))).toBeGreaterThan(0.3);
  expect(await isPassword(kept, phrase)).toBe(true);
}, 30_000);

test("A04: waits double and have an end", () => {
  expect([0, 4, 5, 6, 7, 30].map((n) => waitAfter(n, "name"))).toEqual([0, 0, 2000, 4000, 8000, 900_000]);
  expect([29, 30].map((n) => waitAfter(n, "address"))).toEqual([0, 2000]);
});
