// What the API says of itself, and that it is true: every route is in the document and in the table of
// rights, refusals are sentences.
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { needs } from "../../../editor/host/api/rights.ts";
import { fromThisMachine } from "../../../editor/host/api/who.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { openHost } from "../../../editor/host/host.ts";
import { readDatabaseSettings } from "../../../editor/host/settings.ts";
import { contentHashOf, readBook } from "../../../engine/index.ts";
import { hostClient } from "../../../editor/client/storage/host-client.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { freshFolder } from "./support/places.ts";

let threads: EngineThreads;
let host: TestHost;
beforeAll(async () => {
  threads = startEngineThreads();
  host = await testHost({ data: freshFolder() }, threads);
});
afterAll(async () => {
  await host.close();
  await threads.close();
});

interface Document {
  openapi: string;
  paths: Record<string, Record<string, { responses: Record<string, unknown>; parameters?: unknown[] }>>;
  components: { schemas: Record<string, unknown> };
}

test("the document names every route that there is, with its answers", async () => {
  const document = (await (
    await host.raw("/api/openapi.json", { headers: { "X-Test-Person": "nobody" } })
  ).json()) as Document;
  expect(document.openapi).toBe("3.1.0");
  const routes = Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method} ${path}`),
  );
  expect(routes.sort()).toEqual(Object.keys(needs).sort());
  for (const methods of Object.values(document.paths))
    for (const { responses } of Object.values(methods))
      expect(Object.keys(responses)).toEqual(expect.arrayContaining(["401", "403", "503", "507"]));
  expect(Object.keys(document.components.schemas)).toEqual(expect.arrayContaining(["JobEntry", "HostEvent"]));
  // Every reference in it leads somewhere.
  for (const [, name] of JSON.stringify(document).matchAll(/#\/components\/schemas\/(\w+)/g))
    expect(document.components.schemas).toHaveProperty(name!);
});

test("every route refuses who is nobody", async () => {
  for (const route of Object.keys(needs)) {
    if (needs[route as keyof typeof needs] === "anyone") continue;
    const [method, path] = route.split(" ") as [string, string];
    const filled = path
      .replace("{book}", "b")
      .replace("{number}", "1")
      .replace("{version}", "1")
      .replace(/\{print\}|\{photo\}/, "0".repeat(64))
      .replace("{id}", "3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11");
    const answer = await host.raw(filled, {
      method: method.toUpperCase(),
      headers: { "X-Test-Person": "nobody" },
      ...(method === "get" ? {} : { body: "{}" }),
    });
    expect([route, answer.status]).toEqual([route, 401]);
    expect(await answer.json()).toEqual({
      says: expect.stringMatching(/[.]$/),
      code: "not-signed-in",
      values: {},
    });
  }
});

test("while a book is sealed, how far its proof is can be read, and afterwards that none is on", async () => {
  const road = readFileSync(new URL("../../../rulesets/road-panels.bevel", import.meta.url), "utf8");
  const patient = await testHost({ data: freshFolder() }, threads, 100);
  const path = "/api/books/road-panels/sealing";
  expect((await patient.ask("GET", path)).body).toEqual({ is: "none" });
  let over = false;
  const sealing = patient
    .ask("POST", "/api/books/road-panels/editions", { text: road, why: "The first." })
    .finally(() => {
      over = true;
    });
  const seen: { is: string; settled: number; all: number }[] = [];
  while (!over) {
    seen.push((await patient.ask("GET", path)).body);
    await new Promise((resolve) => {
      setTimeout(resolve, 50);
    });
  }
  expect((await sealing).status).toBe(201);
  const proving = seen.filter((one) => one.is === "proving");
  expect(proving.length).toBeGreaterThan(0);
  expect(proving.map((one) => one.settled)).toEqual(proving.map((one) => one.settled).sort((a, b) => a - b));
  expect(proving.every((one) => one.settled <= one.all && one.all > 100)).toBe(true);
  expect((await patient.ask("GET", path)).body).toEqual({ is: "none" });
  await patient.close();
}, 120_000);

test("a fault of the program tells the asker nothing of its inside", async () => {
  const broken = await testHost(
    { data: freshFolder() },
    {
      ask: () => {
        throw new Error("secret inside");
      },
      close: async () => undefined,
    },
  );
  const error = console.error;
  console.error = () => undefined;
  try {
    const answer = await broken.ask("POST", "/api/books/small-panels/editions", {
      text: smallBook(),
      why: "x",
    });
    expect([answer.status, JSON.stringify(answer.body).includes("secret")]).toEqual([500, false]);
  } finally {
    console.error = error;
    await broken.close();
  }
});

test("this machine's browsers need no sign-in; what is forwarded or asked by another name does", async () => {
  const open = await openHost(
    freshFolder(),
    { host: "127.0.0.1", port: 0 },
    { data: freshFolder(), proofSeconds: 10 },
  );
  if ("failed" in open) throw new Error(open.failed);
  try {
    const client = hostClient(open.address);
    expect((await client.hello()).you).toEqual({ name: "this desk", role: "lead" });
    expect(await client.saveDraft("small-panels", { base: 0, text: smallBook() })).toMatchObject({
      saved: { version: 1 },
    });
    expect(
      await client.saveDraft("small-panels", { base: 0, text: `${smallBook()}-- more\n` }),
    ).toMatchObject({ conflict: { theirs: { version: 1 } } });
    expect(await client.seal("small-panels", { text: smallBook({ says: 61 }), why: "first" })).toMatchObject({
      refused: { faults: [{ is: "example" }] },
    });
    expect(await client.seal("small-panels", { text: smallBook(), why: "first" })).toMatchObject({
      sealed: { number: 1 },
    });
    await expect(client.edition("small-panels", 4)).rejects.toThrow(
      "There is no sealed edition 4 of small-panels.",
    );
    const heard = new Promise((resolve) => {
      const stop = client.events({ after: 0 }, (event) => {
        if (event.is === "edition") {
          stop();
          resolve(event);
        }
      });
    });
    expect(await heard).toMatchObject({ is: "edition", number: 1 });
    expect(
      (await fetch(`${open.address}api/hello`, { headers: { "X-Forwarded-For": "10.0.0.7" } })).status,
    ).toBe(401);
    // A socket cannot be asked under another name by fetch; the rule itself can.
    const context = (name: string, address: string) =>
      ({
        req: { header: (header: string) => (header === "host" ? name : undefined) },
        env: { incoming: { socket: { remoteAddress: address, remotePort: 1, remoteFamily: "IPv4" } } },
      }) as never;
    expect([
      fromThisMachine(context("localhost:4173", "127.0.0.1")),
      fromThisMachine(context("[::1]:4173", "::1")),
      fromThisMachine(context("elsewhere.example", "127.0.0.1")),
      fromThisMachine(context("localhost:4173", "192.0.2.7")),
    ]).toEqual([true, true, false, false]);
    expect((await fetch(`${open.address}nothing-here`)).headers.get("content-security-policy")).toContain(
      "script-src 'self'",
    );
  } finally {
    await open.close();
  }
}, 60_000);

test("where the data is kept is a setting", () => {
  expect(readDatabaseSettings({}, "/shop")).toEqual({ data: "/shop/data", proofSeconds: 60 });
  expect(
    readDatabaseSettings(
      { BEVELBOOK_DATA: "/elsewhere", BEVELBOOK_DATABASE: "postgres://a@b/c", BEVELBOOK_PROOF_SECONDS: "5" },
      "/shop",
    ),
  ).toEqual({ data: "/elsewhere", database: "postgres://a@b/c", proofSeconds: 5 });
  for (const wish of ["-1", "soon", "99999"])
    expect(readDatabaseSettings({ BEVELBOOK_PROOF_SECONDS: wish }, "/shop")).toHaveProperty("wrong");
});

test("an edition that depends on others is sealed upon exactly those; its hash covers them", async () => {
  const layer = (base: number, own: number): string =>
    `book quay-panels, edition ${own}, amends small-base, edition ${base}\n` +
    `    "A yard's own"\n\ninstead dial slope = 1:12\n` +
    `    from house "invented, 2026"\n`;
  const base = (number: number, slope: string): string =>
    `book small-base, edition ${number}\n    "A house standard"\n\n` +
    `ask depth in mm, 1 to 10\n    "How deep?"\n\n` +
    `dial slope = ${slope}, from 1:8 to 1:15\n    from practice\n\n` +
    `figure width in mm = depth run out at slope\n\nstep grind "Grind {width}"\n`;
  const seal = async (book: string, text: string) =>
    (await host.ask("POST", `/api/books/${book}/editions`, { text, why: "for the test" })) as {
      status: number;
      body: {
        says?: string;
        standing?: { fingerprint?: string };
        stands?: { name: string; edition?: number }[];
      };
    };
  expect((await seal("quay-panels", layer(1, 1))).body.says, "without its base").toContain("fault");
  expect((await seal("small-base", base(1, "1:10"))).status).toBe(201);
  const first = await seal("quay-panels", layer(1, 1));
  expect([first.status, first.body.stands]).toMatchObject([201, [{ name: "small-base", edition: 1 }]]);
  expect(first.body.standing?.fingerprint).toBe(
    contentHashOf(readBook(layer(1, 1), undefined, [base(1, "1:10")])),
  );
  // The same words upon another edition are another book.
  expect((await seal("small-base", base(2, "1:9"))).status).toBe(201);
  const second = await seal("quay-panels", layer(2, 2));
  expect(second.body.standing?.fingerprint).toBe(
    contentHashOf(readBook(layer(2, 2), undefined, [base(2, "1:9")])),
  );
  expect(contentHashOf(readBook(layer(2, 2), undefined, [base(2, "1:10")]))).not.toBe(
    second.body.standing?.fingerprint,
  );
});
