// Every route against every role and nobody, and the common attacks on a web host, one test each, with the
// item of the OWASP Top 10 (2021) that it belongs to. A06 (vulnerable components) needs the network to be
// looked up; what can be seen without is tested.
import { readFileSync, readdirSync, writeFileSync, mkdirSync } from "node:fs";
import { createConnection } from "node:net";
import { request } from "node:http";
import { createHash } from "node:crypto";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Hono } from "hono";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { Role } from "../../../core/schemas/host.ts";
import { needs } from "../../../editor/host/api/rights.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { openHost } from "../../../editor/host/host.ts";
import { listen } from "../../../editor/host/listen.ts";
import { readSettings } from "../../../editor/host/settings.ts";
import { pictureSize } from "../../../editor/host/database/picture-size.ts";
import { readTls } from "../../../editor/host/tls.ts";
import { wayBack } from "../../../editor/people/way-back.ts";
import { chance } from "../../support/chance.ts";
import { type NetworkHost, nameless, networkHost, own, selfMade } from "./support/network.ts";
import { freshFolder } from "./support/places.ts";
import { deliver } from "../../../editor/host/database/job-table.ts";
import { jobEntries } from "./support/records.ts";

const project = fileURLToPath(new URL("../../../", import.meta.url));
let threads: EngineThreads;
let host: NetworkHost;
beforeAll(async () => {
  threads = startEngineThreads();
  const folder = freshFolder();
  mkdirSync(join(folder, "assets"));
  for (const page of ["index", "job", "people", "sign-in"])
    writeFileSync(join(folder, `${page}.html`), `<p>${page}</p>`);
  host = await networkHost({ data: freshFolder() }, threads, folder);
});
afterAll(async () => {
  await host.close();
  await threads.close();
});

const roles: readonly Role[] = ["viewer", "technician", "lead"];
const methods = ["get", "put", "post", "delete", "patch"];
const filled = (path: string): string =>
  path
    .replace("{book}", "b")
    .replace("{number}", "1")
    .replace("{version}", "1")
    .replace(/\{print\}|\{photo\}/, "0".repeat(64))
    .replace("invitations/{id}", "invitations/0123456789abcdef")
    .replace("{id}", "3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11");

test("A01: each role against each route; a route without a right is not there", async () => {
  const document = (await host.ask("GET", "/api/openapi.json")).body as {
    paths: Record<string, Record<string, unknown>>;
  };
  const routes = Object.entries(document.paths).flatMap(([path, of]) =>
    Object.keys(of).map((method) => `${method} ${path}`),
  );
  expect(routes.sort()).toEqual(Object.keys(needs).sort());
  // Handlers that were added past the document would show here.
  const added = host.api.routes
    .filter((one) => one.method !== "ALL")
    .map((one) => `${one.method.toLowerCase()} ${one.path.replace(/:(\w+)/g, "{$1}")}`);
  expect([...new Set(added)].filter((one) => !routes.includes(one))).toEqual(["get /api/openapi.json"]);
  for (const route of routes) {
    const [method, path] = route.split(" ") as [string, string];
    const need = needs[route as keyof typeof needs];
    for (const who of [undefined, ...roles]) {
      const token = who === undefined ? undefined : await host.session(who);
      const { status } = await host.ask(
        method.toUpperCase(),
        filled(path),
        method === "get" ? undefined : {},
        token,
      );
      const may = need === "anyone" || (who !== undefined && roles.indexOf(who) >= roles.indexOf(need));
      if (may) expect([route, who, status === 401 || status === 403]).toEqual([route, who, false]);
      else expect([route, who, status]).toEqual([route, who, who === undefined ? 401 : 403]);
    }
  }
}, 60_000);

test("A01: a viewer writes only the own password, a technician no book, a lead sees the log", () => {
  const of = (role: string) =>
    Object.entries(needs)
      .filter(([, need]) => need === role)
      .map(([route]) => route);
  expect(of("anyone").sort()).toEqual([
    "get /api/health",
    "get /api/sign-in",
    "post /api/invitations/look",
    "post /api/invitations/take",
    "post /api/sign-in",
    "post /api/sign-out",
  ]);
  expect(of("viewer").filter((route) => !route.startsWith("get "))).toEqual(["put /api/password"]);
  expect(of("technician").sort()).toEqual([
    "post /api/jobs/entries",
    "put /api/photos/{photo}",
    "put /api/texts/{print}",
  ]);
  for (const route of Object.keys(needs))
    if (/\/(log|people)\b/.test(route))
      expect([route, needs[route as keyof typeof needs]]).toEqual([route, "lead"]);
});

test("A05: whoever watches over the host hears whether it is well, and nothing of the shop", async () => {
  const { status, body } = await host.ask("GET", "/api/health");
  expect([status, body]).toEqual([200, { well: true, lost: false }]);
});

test("A01: other methods and other spellings of an address get nothing", async () => {
  for (const path of [
    "/api/log",
    "/API/log",
    "/api/log/",
    "/api//log",
    "/api/./log",
    "/api/%6cog",
    "/api/log%00",
    "/api/people;x",
    "/api/log.json",
  ]) {
    for (const method of methods)
      expect([
        method,
        path,
        [401, 404, 403].includes((await host.ask(method.toUpperCase(), path)).status),
      ]).toEqual([method, path, true]);
  }
  const viewer = await host.session("viewer");
  expect(
    (
      await host.ask("GET", "/api/log", undefined, viewer, {
        "X-HTTP-Method-Override": "PUT",
        "X-Original-URL": "/api/books",
        "X-Forwarded-For": "127.0.0.1",
      })
    ).status,
  ).toBe(403);
});

test("A01: the id of another's thing opens nothing, and one that is not there says no more", async () => {
  const [begin] = jobEntries(
    chance(1),
    { name: "b", edition: 1, print: "0".repeat(64), sealed: true },
    Date.UTC(2026, 9, 1),
  );
  await host.ask("POST", "/api/jobs/entries", { entries: [begin] }, await host.session("technician"));
  expect((await host.ask("GET", `/api/jobs/${begin!.job}`)).status).toBe(401);
  expect(
    (await host.ask("GET", `/api/jobs/${begin!.job}`, undefined, await host.session("viewer"))).status,
  ).toBe(200);
  for (const id of ["00000000-0000-4000-8000-000000000001", "3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a11"])
    expect(
      (await host.ask("DELETE", `/api/people/${id}`, undefined, await host.session("technician"))).status,
    ).toBe(403);
});

test("A01, CSRF: a page of another place, or of none, may not write, also with the cookie", async () => {
  const token = await host.session("lead");
  const invite = (headers: Record<string, string>) =>
    host.ask("POST", "/api/people/invitations", { role: "lead" }, token, headers);
  for (const headers of [
    { Origin: "https://elsewhere.example" },
    { Origin: "null" },
    { Origin: "http://shop.example" },
    { Origin: "https://shop.example.elsewhere.example" },
    { Origin: "https://shop.example:8443" },
    { "Sec-Fetch-Site": "cross-site" },
    { "Sec-Fetch-Site": "same-site" },
    { "Sec-Fetch-Site": "none" },
  ] as Record<string, string>[])
    expect([headers, (await invite(headers)).status]).toEqual([headers, 403]);
  expect((await invite({ Origin: own, "Sec-Fetch-Site": "same-origin" })).status).toBe(201);
  // What a form of elsewhere can send without asking is no JSON.
  for (const type of ["text/plain", "application/x-www-form-urlencoded"])
    expect(
      (await host.ask("POST", "/api/people/invitations", { role: "lead" }, token, { "Content-Type": type }))
        .status,
    ).toBe(415);
  expect(
    (
      await host.ask("OPTIONS", "/api/people", undefined, token, {
        Origin: "https://elsewhere.example",
        "Access-Control-Request-Method": "PUT",
      })
    ).headers.get("access-control-allow-origin"),
  ).toBeNull();
});

test("A05: every answer carries the headers of safety, and none tells of the inside", async () => {
  const token = await host.session("lead");
  for (const [path, by] of [
    ["/sign-in.html", undefined],
    ["/", token],
    ["/nothing", undefined],
    ["/api/hello", token],
    ["/api/hello", undefined],
    ["/api/nothing", token],
  ] as const) {
    const { headers, body } = await host.ask("GET", path, undefined, by);
    const policy = headers.get("content-security-policy")!;
    expect(policy).toMatch(/default-src 'self'.*script-src 'self';.*object-src 'none'.*base-uri 'none'/);
    expect(policy).toMatch(/base-uri 'none'.*form-action 'self'.*frame-ancestors 'none'/);
    expect(policy).not.toContain("unsafe-eval");
    // Clickjacking: frame-ancestors, and the header of before for what does not know it.
    expect([
      headers.get("x-frame-options"),
      headers.get("x-content-type-options"),
      headers.get("referrer-policy"),
      headers.get("cross-origin-opener-policy"),
    ]).toEqual(["DENY", "nosniff", "no-referrer", "same-origin"]);
    expect(headers.get("permissions-policy")).toContain("camera=(self)");
    expect(headers.get("strict-transport-security")).toBe("max-age=31536000");
    expect([headers.get("server"), headers.get("x-powered-by")]).toEqual([null, null]);
    if (path.startsWith("/api/")) expect(headers.get("cache-control")).toBe("no-store");
    expect(JSON.stringify(body)).not.toMatch(/node_modules|\.ts\b|at \w+ \(|SQLITE|stack/);
  }
});

test("A05: no folder is listed, no file of another place or of the program is sent", async () => {
  for (const path of [
    "/assets",
    "/assets/",
    "/../package.json",
    "/..%2fpackage.json",
    "/%2e%2e/%2e%2e/etc/passwd",
    "/assets/..%5c..%5cpackage.json",
    "/assets/%00",
    "/job.html%00.css",
    "/.git/config",
    "/data/shelf.db",
    "/shelf.db",
    "/..;/package.json",
    "//etc/passwd",
    "/%252e%252e/package.json",
  ]) {
    const { status, body } = await host.ask("GET", path);
    expect([path, status >= 400, /root:|"dependencies"/.test(JSON.stringify(body))]).toEqual([
      path,
      true,
      false,
    ]);
  }
});

test("A01: no name leads to the disk: books, editions, photographs, jobs", async () => {
  const token = await host.session("lead");
  for (const name of [
    "..%2f..%2fetc%2fpasswd",
    "%2e%2e",
    "a%00b",
    "a%2fb",
    "C%3a%5cx",
    "..%5c..%5cx",
    "con%0d%0a",
    "%c0%ae%c0%ae%2f",
  ]) {
    for (const path of [
      `/api/books/${name}/draft`,
      `/api/books/${name}/editions/1`,
      `/api/photos/${name}`,
      `/api/texts/${name}`,
      `/api/jobs/${name}`,
    ])
      expect([path, [400, 404].includes((await host.ask("GET", path, undefined, token)).status)]).toEqual([
        path,
        true,
      ]);
    expect([400, 404]).toContain(
      (await host.ask("PUT", `/api/books/${name}/draft`, { base: 0, text: "x" }, token)).status,
    );
  }
  expect(await host.database.db.selectFrom("books").select("name").execute()).toEqual([]);
});

test("pages lead strangers to the sign-in, and from there only to the host's own pages", async () => {
  for (const [path, back] of [
    ["/", "%2F"],
    ["/job.html?book=x", "%2Fjob.html%3Fbook%3Dx"],
    ["/people.html", "%2Fpeople.html"],
  ] as const) {
    const answer = await host.ask("GET", path, undefined, undefined, { "Sec-Fetch-Dest": "document" });
    expect([answer.status, answer.headers.get("location")]).toEqual([302, `/sign-in.html?back=${back}`]);
    expect((await host.ask("GET", path, undefined, await host.session("viewer"))).status).toBe(200);
  }
  expect(
    (await host.ask("GET", "/job.html", undefined, undefined, { "Sec-Fetch-Dest": "empty" })).status,
  ).toBe(200);
  for (const wish of [
    "//elsewhere.example",
    "https://elsewhere.example",
    "/\\elsewhere.example",
    "javascript:alert(1)",
    "/\t/elsewhere.example",
    "/sign-in.html/../../elsewhere",
    "/api/people",
    "",
    "/job.html\u2028",
    "/.//elsewhere.example",
  ])
    expect([wish, wayBack(`?back=${encodeURIComponent(wish)}`, "/")]).toEqual([wish, "/"]);
  expect(wayBack("?back=%2Fjob.html%3Fbook%3Dx", "/")).toBe("/job.html?book=x");
});

test("A03: no header is made of what someone sends", async () => {
  const answer = await host.ask("GET", "/job.html?x=%0d%0aSet-Cookie:%20a=b", undefined, undefined, {
    "Sec-Fetch-Dest": "document",
  });
  expect(answer.headers.get("set-cookie")).toBeNull();
  expect(answer.headers.get("location")).not.toMatch(/[\r\n]/);
});

test("A08: JSON that reaches for the prototype of all things changes none", async () => {
  const lead = await host.session("lead");
  const before = JSON.stringify(Object.getOwnPropertyNames(Object.prototype));
  for (const body of [
    '{"base":0,"text":"x","__proto__":{"role":"lead","polluted":1}}',
    '{"constructor":{"prototype":{"polluted":1}},"base":0,"text":"x"}',
  ])
    await host.ask("PUT", "/api/books/proto/draft", body, lead);
  const [begin] = jobEntries(
    chance(2),
    { name: "b", edition: 1, print: "0".repeat(64), sealed: true },
    Date.UTC(2026, 9, 1),
  );
  const answer = {
    ...begin,
    id: "3f0b5a0e-6f6f-4c1b-8d6a-2b1f7c9e0a12",
    does: "answer",
    ask: "__proto__",
    text: "polluted",
  };
  await host.ask("POST", "/api/jobs/entries", { entries: [begin, answer] }, lead);
  await host.ask("GET", `/api/jobs/${begin!.job}`, undefined, lead);
  expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  expect(JSON.stringify(Object.getOwnPropertyNames(Object.prototype))).toBe(before);
  await host.database.write("a test", async (tx) => {
    await tx.deleteFrom("drafts").execute();
  });
});

test("A04: what is too large is refused, of someone unknown before it is read", async () => {
  const large = JSON.stringify({ name: "x".repeat(100_000), password: "y" });
  expect((await host.ask("POST", "/api/sign-in", large)).status).toBe(413);
  expect((await host.ask("PUT", "/api/books/b/draft", "x".repeat(8_000_000))).status).toBe(401);
  expect(
    (await host.ask("PUT", "/api/books/b/draft", "x".repeat(8_000_000), await host.session("lead"))).status,
  ).toBe(413);
  expect((await host.ask("POST", "/api/sign-in", "[".repeat(4000))).status).toBe(400);
});

test("A04: a photograph is one by its bytes, has bounds, and is served as nothing else", async () => {
  const token = await host.session("technician");
  const png = (width: number, height: number) => {
    const bytes = Buffer.alloc(40);
    bytes.write("\x89PNG\r\n\x1a\n", 0, "latin1");
    bytes.writeUInt32BE(13, 8);
    bytes.write("IHDR", 12);
    bytes.writeUInt32BE(width, 16);
    bytes.writeUInt32BE(height, 20);
    return new Uint8Array(bytes);
  };
  const put = async (bytes: Uint8Array<ArrayBuffer>) => {
    const name = createHash("sha256").update(bytes).digest("hex");
    return {
      name,
      status: (
        await host.raw(`/api/photos/${name}`, {
          method: "PUT",
          headers: { Cookie: `__Host-bevelbook=${token}`, "Content-Type": "image/png" },
          body: bytes,
        })
      ).status,
    };
  };
  for (const bytes of [
    png(30_000, 10),
    png(15_000, 15_000),
    png(10_900, 10_900),
    png(0, 10),
    new TextEncoder().encode("<svg onload=alert(1)>"),
    new TextEncoder().encode("<html><script>"),
    new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 4]),
    png(5, 5).slice(0, 18),
  ])
    expect((await put(bytes)).status).toBe(422);
  const { name, status } = await put(png(640, 480));
  expect(status).toBe(200);
  const { headers } = await host.ask("GET", `/api/photos/${name}`, undefined, token);
  expect([
    headers.get("content-type"),
    headers.get("x-content-type-options"),
    headers.get("content-security-policy"),
  ]).toEqual(["image/png", "nosniff", "default-src 'none'; sandbox"]);
  expect(headers.get("content-disposition")).toMatch(/^inline; filename="[0-9a-f]{16}\.png"$/);
  // Heads as the standards give them: JPEG SOF0 behind an APP0, WebP in its three forms.
  expect(
    pictureSize(
      "image/jpeg",
      new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2, 0xff, 0xc0, 0, 11, 8, 1, 0, 2, 0, 1, 1, 0x11, 0]),
    ),
  ).toEqual({ width: 512, height: 256 });
  const webp = (kind: string, at: number, ...more: number[]) => {
    const bytes = Buffer.alloc(40);
    bytes.write(`RIFF    WEBP${kind}`, 0, "latin1");
    Buffer.from(more).copy(bytes, at);
    return new Uint8Array(bytes);
  };
  expect(pictureSize("image/webp", webp("VP8X", 24, 0x3f, 1, 0, 0xef, 0, 0))).toEqual({
    width: 320,
    height: 240,
  });
  expect(pictureSize("image/webp", webp("VP8 ", 23, 0x9d, 1, 0x2a, 0x40, 1, 0xf0, 0))).toEqual({
    width: 320,
    height: 240,
  });
  expect(pictureSize("image/webp", webp("VP8L", 20, 0x2f, 0x3f, 0xc1, 0x3b, 0))).toEqual({
    width: 320,
    height: 240,
  });
});

test("A04: slow senders are cut off with 408 within the bound, and others are served", async () => {
  const patience = { head: 400, whole: 800, look: 100 };
  const app = new Hono()
    .get("/", (context) => context.text("here"))
    .post("/", async (context) => context.text(`read ${(await context.req.text()).length}`));
  app.onError((_cut, context) => context.text("", 500));
  const open = await listen(app, { host: "127.0.0.1", port: 0 }, undefined, patience);
  if ("failed" in open) throw new Error(open.failed);
  /**
   * What a line hears until the host ends it; the line itself never ends. Resolves after 10 s as still open.
   */
  const drip = (sent: string): Promise<{ readonly heard: string; readonly ended: boolean }> =>
    new Promise((resolve) => {
      let heard = "";
      let more: NodeJS.Timeout | undefined;
      const line = createConnection({ port: open.port, host: "127.0.0.1", allowHalfOpen: true }, () => {
        if (sent === "") return;
        line.write(sent);
        // A sign now and then, as such attacks send: it must win no time.
        more = setInterval(() => {
          if (line.writable) line.write("x");
        }, 50);
      });
      const over = (ended: boolean) => (): void => {
        clearInterval(more);
        clearTimeout(clock);
        line.destroy();
        resolve({ heard, ended });
      };
      const clock = setTimeout(over(false), 10_000);
      line.on("data", (part) => {
        heard += part.toString();
      });
      line.on("end", over(true));
      line.on("error", over(true));
    });
  const head = ["GET / HTTP/1.1\r\nHost: localhost\r\nX-Slow: ", "GET /"];
  const body = "POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\nx";
  try {
    const slow = [
      ...Array.from({ length: 100 }, (_, i) => head[i % head.length]!),
      ...Array.from({ length: 100 }, () => body),
      "",
    ].map((sent) => drip(sent));
    let served = 0;
    let over = false;
    const all = Promise.all(slow).then((done) => {
      over = true;
      return done;
    });
    while (!over) {
      expect(await (await fetch(open.address)).text()).toBe("here");
      served += 1;
    }
    expect(served).toBeGreaterThan(5);
    for (const { heard, ended } of await all)
      expect([heard.split("\r\n")[0], ended]).toEqual(["HTTP/1.1 408 Request Timeout", true]);
    // An address that nobody reads a body at answers at once, and ends the line all the same.
    const nowhere = await drip("POST /nowhere HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1000\r\n\r\nx");
    expect([nowhere.heard.split("\r\n")[0], nowhere.ended]).toEqual(["HTTP/1.1 404 Not Found", true]);
  } finally {
    open.close();
  }
}, 60_000);

test("A04: an encrypted line whose handshake never comes is ended as well", async () => {
  const tls = readTls(selfMade());
  if ("wrong" in tls) throw new Error(tls.wrong);
  const open = await listen(new Hono(), { host: "127.0.0.1", port: 0 }, tls, {
    head: 400,
    whole: 800,
    look: 100,
  });
  if ("failed" in open) throw new Error(open.failed);
  try {
    const ended = await new Promise<boolean>((resolve) => {
      const line = createConnection(open.port, "127.0.0.1");
      const clock = setTimeout(() => {
        line.destroy();
        resolve(false);
      }, 10_000);
      line.on("error", () => undefined);
      line.on("close", () => {
        clearTimeout(clock);
        resolve(true);
      });
    });
    expect(ended).toBe(true);
  } finally {
    open.close();
  }
}, 30_000);

test("A07: who listens for events hears no more once the session has ended", async () => {
  const busy = await networkHost({ data: freshFolder() }, threads, freshFolder(), 200);
  const token = await busy.session("viewer");
  const answer = await busy.raw("/api/events", { headers: { Cookie: `${nameless}=${token}` } });
  expect(answer.status).toBe(200);
  // Something happens more often than the host would be silent.
  const luck = chance(5);
  let telling = true;
  const told = (async () => {
    while (telling) {
      await deliver(
        busy.database,
        { name: "a test" },
        jobEntries(
          luck,
          { name: "b", edition: 1, print: "0".repeat(64), sealed: true },
          Date.UTC(2026, 9, 1),
        ),
      );
      await new Promise((resolve) => {
        setTimeout(resolve, 30);
      });
    }
  })();
  const reader = answer.body!.getReader();
  const decoder = new TextDecoder();
  let heard = "";
  while (heard.split('"is":"jobs"').length < 12)
    heard += decoder.decode((await reader.read()).value, { stream: true });
  await busy.database.write("a test", (tx) => tx.deleteFrom("sessions").execute());
  const ended = await Promise.race([
    (async () => {
      for (;;) if ((await reader.read()).done) return true;
    })(),
    new Promise<boolean>((resolve) => {
      setTimeout(() => resolve(false), 10_000);
    }),
  ]);
  telling = false;
  await told;
  await reader.cancel();
  await busy.close();
  expect(ended).toBe(true);
}, 30_000);

test("DNS rebinding: on its own machine the host answers to its own names alone", async () => {
  const folder = freshFolder();
  writeFileSync(join(folder, "index.html"), "<p>the bench</p>");
  const open = await openHost(
    folder,
    { host: "127.0.0.1", port: 0 },
    { data: freshFolder(), proofSeconds: 0 },
  );
  if ("failed" in open) throw new Error(open.failed);
  const as = (name: string, path: string) =>
    new Promise<number>((resolve, reject) => {
      request({ host: "127.0.0.1", port: open.port, path, headers: { Host: name } }, (answer) => {
        answer.resume();
        resolve(answer.statusCode!);
      })
        .on("error", reject)
        .end();
    });
  try {
    for (const path of ["/", "/api/hello"])
      expect([
        await as(`localhost:${open.port}`, path),
        await as("elsewhere.example", path),
        await as("localhost.elsewhere.example", path),
        await as("127.0.0.1.elsewhere.example", path),
      ]).toEqual([200, 421, 421, 421]);
    // Here nobody is asked, and nobody signs in.
    const state = await (await fetch(`${open.address}api/sign-in`)).json();
    expect(state).toEqual({ asked: false, you: { name: "this desk", role: "lead" } });
    expect(
      (
        await fetch(`${open.address}api/sign-in`, {
          method: "POST",
          headers: { "Content-Type": "application/json" },
          body: '{"name":"a","password":"b"}',
        })
      ).status,
    ).toBe(403);
    expect(open.firstLead).toBeUndefined();
  } finally {
    await open.close();
  }
}, 60_000);

test("A02: a network is served in the open only where that is said; certificates are checked", async () => {
  const place = { data: freshFolder(), proofSeconds: 0 };
  const says = async (more: object) => {
    const open = await openHost(freshFolder(), { host: "0.0.0.0", port: 0, ...more }, place);
    if ("failed" in open) return open.failed;
    await open.close();
    return open.firstLead ?? "";
  };
  expect(await says({})).toMatch(/BEVELBOOK_TLS_CERT/);
  expect(await says({ plain: true })).toMatch(/^sign-in\.html#invited=[\w-]{43}$/);
  const [one, two] = [selfMade(), selfMade()];
  expect(await says({ tls: one })).toMatch(/^sign-in\.html#invited=/);
  expect(await says({ tls: { cert: one.cert, key: two.key } })).toMatch(/is not the one of the certificate/);
  expect(await says({ tls: { cert: join(freshFolder(), "none"), key: two.key } })).toMatch(
    /cannot be read \(ENOENT\)/,
  );
  expect(await says({ tls: { cert: one.key, key: one.key } })).toMatch(/no certificate in PEM form/);
  expect(await says({ tls: { cert: one.cert, key: one.cert } })).toMatch(/no private key in PEM form/);
  expect(readTls(one, Date.now() + 10 * 86_400_000)).toHaveProperty(
    "wrong",
    expect.stringMatching(/ended on/),
  );
  expect(readTls(one, 0)).toHaveProperty("wrong", expect.stringMatching(/begins only on/));
  expect(readTls(one)).toMatchObject({ name: "localhost" });
  expect(readSettings({ BEVELBOOK_TLS_CERT: "a" })).toEqual({
    wrong: "BEVELBOOK_TLS_KEY is missing: a certificate and its key go together.",
  });
  expect(
    readSettings({
      HOST: "0.0.0.0",
      BEVELBOOK_PLAIN: "yes",
      BEVELBOOK_TLS_CERT: "a",
      BEVELBOOK_TLS_KEY: "b",
    }),
  ).toMatchObject({ plain: true, tls: { cert: "a", key: "b" } });
}, 60_000);

test("A10: no line of the host opens a connection, but the one to its database", () => {
  const files = (folder: string): string[] =>
    readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
      entry.isDirectory() ? files(join(folder, entry.name)) : [join(folder, entry.name)],
    );
  const ways = new RegExp(
    [
      /(?<![.\w])fetch\s*\((?!request: Request)/,
      /\b(?:https?|net|tls|dgram|http2)\.(?:request|get|connect|createConnection|createSocket)\(/,
      /new (?:WebSocket|EventSource|XMLHttpRequest)/,
      /createConnection\(/,
    ]
      .map((way) => way.source)
      .join("|"),
  );
  const out = ["editor/host", "engine", "core"]
    .flatMap((room) => files(join(project, room)))
    .filter((file) => ways.test(readFileSync(file, "utf8").replace(/\/\/[^\n]*|\/\*[\s\S]*?\*\//g, "")));
  expect(out).toEqual([]);
  expect(ways.test("await fetch(address)") && ways.test("http.request(x)")).toBe(true);
});

test("A06: every package is held at one version with its hash, none comes from an address", () => {
  const { packages } = JSON.parse(readFileSync(join(project, "package-lock.json"), "utf8")) as {
    packages: Record<string, { version?: string; integrity?: string; resolved?: string; link?: boolean }>;
  };
  const wrong = Object.entries(packages).filter(
    ([name, one]) =>
      name !== "" &&
      (!/^\d+\.\d+\.\d+/.test(one.version ?? "") ||
        one.link === true ||
        /^(git|http:|file:)/.test(one.resolved ?? "")),
  );
  expect(wrong).toEqual([]);
  const { dependencies, devDependencies } = JSON.parse(
    readFileSync(join(project, "package.json"), "utf8"),
  ) as Record<string, Record<string, string>>;
  for (const [name, range] of Object.entries({ ...dependencies, ...devDependencies }))
    expect([name, /^\^?\d+\.\d+\.\d+/.test(range)]).toEqual([name, true]);
});
