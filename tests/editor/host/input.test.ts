// What comes in: marks that no keyboard makes get the same answer from both databases, wherever they are;
// passwords of the lists, names of before and look-alike names are refused; no clock stretches a wait; a
// server in front is believed only where it is trusted.
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { Hono } from "hono";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { addressOf, sameOrigin } from "../../../editor/host/api/who.ts";
import { sha256 } from "../../../editor/host/database/log-chain.ts";
import { invite, inviteFirst, removePerson, takeInvitation } from "../../../editor/host/people/accounts.ts";
import { beginAttempt } from "../../../editor/host/people/attempts.ts";
import { checkPassword } from "../../../editor/host/people/passwords.ts";
import { openHost } from "../../../editor/host/host.ts";
import { readSettings } from "../../../editor/host/settings.ts";
import { type NetworkHost, nameless, networkHost, phrase } from "./support/network.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  let host: NetworkHost;
  beforeAll(async () => {
    host = await networkHost(await fresh(), threads);
  }, 60_000);
  afterAll(() => host?.close());

  test("marks that no keyboard makes: 422 wherever they stand, signed in or not", async () => {
    const lead = await host.session("lead");
    for (const mark of ["\0", "\ud800", "\u0007", "\u0085"]) {
      const text = `a${mark}b`;
      const escaped = (body: object): string => JSON.stringify(body);
      const asked: [string, string, string | undefined, string | undefined][] = [
        ["POST", "/api/sign-in", escaped({ name: text, password: "x" }), undefined],
        ["PUT", `/api/texts/${sha256(text)}`, escaped({ text }), lead],
        ["PUT", "/api/books/b/draft", escaped({ base: 0, text }), lead],
        ["PUT", "/api/books/b/draft", escaped({ base: 0, text: "book b", device: text }), lead],
        ["POST", "/api/books/b/editions", escaped({ text: "book b, edition 1", why: text }), lead],
      ];
      if (mark !== "\ud800")
        asked.push(
          ["GET", `/api/jobs?search=${encodeURIComponent(text)}`, undefined, lead],
          ["GET", `/api/events?draft=b&device=${encodeURIComponent(text)}`, undefined, lead],
        );
      for (const [method, path, body, token] of asked) {
        const { status, body: said } = await host.ask(method, path, body, token);
        expect([method, path, status]).toEqual([method, path, 422]);
        expect(said.says).toMatch(/not plain text/);
      }
    }
    expect(await host.database.db.selectFrom("texts").selectAll().execute()).toEqual([]);
  });

  test("a clock that was ahead once stretches no wait, and a reset ends it", async () => {
    const years = Date.now() + 5 * 365 * 24 * 3600_000;
    const far = { failures: 40, at: years, until: years + 900_000 };
    const { db } = host.database;
    await beginAttempt(host.database, "10.0.0.1", "anna");
    await db.updateTable("attempts").set(far).execute();
    // What lies a day and more ahead was written by a wrong clock, and is forgotten.
    await beginAttempt(host.database, "10.0.0.1", "anna");
    const soon = Date.now() + 3600_000;
    await db
      .updateTable("attempts")
      .set({ failures: 40, at: soon, until: soon + 900_000 })
      .execute();
    const wait = beginAttempt(host.database, "10.0.0.1", "anna").catch((cause: unknown) => cause);
    const seconds = Number(
      ((await wait) as { refusal: { values: { seconds: number } } }).refusal.values.seconds,
    );
    expect(seconds).toBeLessThanOrEqual(15 * 60);
    await invite(host.database, "the terminal", "lead", { id: "x", name: "Anna" });
    expect(await db.selectFrom("attempts").select("key").where("key", "like", "name %").execute()).toEqual(
      [],
    );
    await db.deleteFrom("attempts").execute();
  });

  test("a name that was taken once is never given again, and a name has one alphabet", async () => {
    await host.database.write("a test", (tx) => tx.deleteFrom("people").execute());
    const join = async (name: string) => {
      const { token } =
        (await inviteFirst(host.database)) ?? (await invite(host.database, "a test", "technician"));
      return takeInvitation(host.database, { token, name, password: phrase, address: "a", device: "d" });
    };
    await join("Ilse Marrow");
    const { person } = await join("Anna Vane");
    await removePerson(host.database, "a test", person.id);
    await expect(join("ANNA vane")).rejects.toThrow(/or was once/);
    // The first letter is Cyrillic.
    await expect(join("\u0410nna V.")).rejects.toThrow(/letters of one alphabet/);
    await join("\u0410\u043d\u043d\u0430");
  });
});

test("signing out clears what the browser keeps of answers, and not what waits", async () => {
  const host = await networkHost({ data: freshFolder() }, threads);
  const out = await host.ask("POST", "/api/sign-out", {}, await host.session("technician"));
  expect(out.headers.get("clear-site-data")).toBe('"cache"');
  await host.close();
});

test("behind a server that encrypts, people sign in over a line that counts as encrypted", async () => {
  const folder = freshFolder();
  writeFileSync(join(folder, "index.html"), "x");
  const host = await openHost(
    folder,
    { host: "127.0.0.1", port: 0, public: new URL("https://bench.example"), forwarders: ["127.0.0.1"] },
    { data: freshFolder(), proofSeconds: 0 },
  );
  if ("failed" in host) throw new Error(host.failed);
  try {
    const asked = await fetch(`${host.address}api/sign-in`);
    expect(await asked.json()).toEqual({ asked: true });
    expect(asked.headers.get("strict-transport-security")).toBe("max-age=31536000");
    const token = host.firstLead!.split("invited=")[1]!;
    const taken = await fetch(`${host.address}api/invitations/take`, {
      method: "POST",
      headers: { "Content-Type": "application/json", Origin: "https://bench.example" },
      body: JSON.stringify({ token, name: "Ilse Marrow", password: phrase }),
    });
    expect(taken.headers.get("set-cookie")).toMatch(/^__Host-bevelbook=.*; Secure/);
  } finally {
    await host.close();
  }
});

test("a photograph that tells where it was taken is not kept", async () => {
  const host = await networkHost({ data: freshFolder() }, threads);
  const token = await host.session("technician");
  const segment = (mark: number, content: Buffer): Buffer =>
    Buffer.concat([Buffer.from([0xff, mark, 0, content.length + 2]), content]);
  const put = async (...segments: Buffer[]) => {
    const size = segment(0xc0, Buffer.from([8, 1, 0, 2, 0, 1, 1, 0x11, 0]));
    const bytes = Buffer.concat([Buffer.from([0xff, 0xd8]), ...segments, size, Buffer.from([0xff, 0xd9])]);
    const answer = await host.raw(`/api/photos/${sha256(bytes)}`, {
      method: "PUT",
      headers: { Cookie: `${nameless}=${token}`, "Content-Type": "image/jpeg" },
      body: new Uint8Array(bytes),
    });
    return [answer.status, ((await answer.json()) as { says?: string }).says];
  };
  // Exif as CIPA DC-008 gives it: one field that points to those of the place (8825), of these one (latitude
  // north); and the same file with a field of the camera's maker instead.
  const exif = (fields: string): Buffer =>
    segment(0xe1, Buffer.concat([Buffer.from("Exif\0\0", "latin1"), Buffer.from(fields, "hex")]));
  const head = "4d4d002a00000008";
  const latitude = "00010002000000024e000000";
  const place = `${head}000188250004000000010000001a000000000001${latitude}00000000`;
  const maker = `${head}0001010f0002000000024100000000000000`;
  const told = [422, expect.stringMatching(/tells where it was taken/)];
  expect(await put(exif(place))).toEqual(told);
  expect(
    await put(
      segment(0xe1, Buffer.from('http://ns.adobe.com/xap/1.0/\0<x exif:GPSLatitude="1"/>', "latin1")),
    ),
  ).toEqual(told);
  expect((await put(exif(maker)))[0]).toBe(200);
  expect((await put())[0]).toBe(200);
  await host.close();
});

test("passwords of the lists, and what habit makes of them, are refused", async () => {
  for (const password of [
    "Password1!",
    "1234567891",
    "qwertyuiop",
    "P@ssw0rd2024",
    "iloveyou12345",
    "Contraseña1",
    "bevelbook2026",
    "Anna Vane 1",
    "abcabcabcabc",
  ])
    await expect([password, await checkPassword(password, "Anna Vane").catch(String)]).toEqual([
      password,
      expect.stringMatching(/among the first that are tried/),
    ]);
  await checkPassword(phrase, "Anna Vane");
  await checkPassword("x4Tq!9vLm2#a", "Anna Vane");
});

test("a server in front is believed only where it is trusted, and then only its own part", async () => {
  const asked = async (from: string, list: string | undefined, forwarders: readonly string[]) => {
    const app = new Hono().get("/", (context) =>
      context.text(addressOf(context, { asked: true, secure: true, forwarders: new Set(forwarders) })),
    );
    const headers: Record<string, string> = list === undefined ? {} : { "x-forwarded-for": list };
    const env = { incoming: { socket: { remoteAddress: from, remotePort: 1, remoteFamily: "IPv4" } } };
    return (await app.request("/", { headers }, env)).text();
  };
  expect(await asked("10.0.0.9", "1.2.3.4", [])).toBe("10.0.0.9");
  expect(await asked("10.0.0.9", "1.2.3.4", ["10.0.0.9"])).toBe("1.2.3.4");
  expect(await asked("::ffff:10.0.0.9", "6.6.6.6, 1.2.3.4", ["10.0.0.9"])).toBe("1.2.3.4");
  expect(await asked("10.0.0.9", "6.6.6.6, 1.2.3.4, 10.0.0.8", ["10.0.0.9", "10.0.0.8"])).toBe("1.2.3.4");
  expect(await asked("10.0.0.9", "nonsense", ["10.0.0.9"])).toBe("10.0.0.9");
  expect(await asked("10.0.0.9", undefined, ["10.0.0.9"])).toBe("10.0.0.9");

  expect(
    readSettings({ BEVELBOOK_PUBLIC: "https://bench.example", BEVELBOOK_FORWARDERS: "127.0.0.1, ::1" }),
  ).toMatchObject({ public: new URL("https://bench.example"), forwarders: ["127.0.0.1", "::1"] });
  expect(readSettings({ BEVELBOOK_PUBLIC: "bench.example" })).toHaveProperty("wrong");
  expect(readSettings({ BEVELBOOK_FORWARDERS: "everybody" })).toHaveProperty("wrong");

  const app = new Hono().use(sameOrigin({ asked: true, secure: true, publicHost: "bench.example" }));
  app.post("/", (context) => context.text("taken"));
  app.onError((_cause, context) => context.text("refused", 403));
  const post = async (origin: string) =>
    (await app.request("http://inside:4173/", { method: "POST", headers: { origin, host: "inside:4173" } }))
      .status;
  expect([await post("https://bench.example"), await post("https://inside:4173")]).toEqual([200, 403]);
});
