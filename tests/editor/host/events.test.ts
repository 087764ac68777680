// Everyone hears of what is written, at once, also from another host or a command on the same shelf; who was
// away gets what was missed.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { HostEvent } from "../../../core/schemas/host.ts";
import { hostEvent } from "../../../core/schemas/host.ts";
import {
  type EngineThreads,
  startEngineThreads,
} from "../../../editor/host/engine-threads/engine-threads.ts";
import { backUp, restore } from "../../../editor/host/database/backup-file.ts";
import { openDatabase } from "../../../editor/host/database/database.ts";
import { join } from "node:path";
import { type TestHost, lead, testHost } from "./support/api.ts";
import { smallBook } from "./support/books.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";

interface Ear {
  readonly heard: (HostEvent & { readonly id?: number })[];
  until(what: (event: HostEvent) => boolean): Promise<HostEvent & { readonly id?: number }>;
  close(): Promise<void>;
}

/** Listens as a page does. */
async function listen(host: TestHost, query = "", by = lead): Promise<Ear> {
  const end = new AbortController();
  const answer = await host.raw(`/api/events${query}`, {
    signal: end.signal,
    headers: { "X-Test-Person": JSON.stringify(by) },
  });
  expect(answer.headers.get("content-type")).toContain("text/event-stream");
  const heard: Ear["heard"] = [];
  const waiting = new Set<() => void>();
  const reader = answer.body!.getReader();
  const reading = (async () => {
    const decoder = new TextDecoder();
    let text = "";
    for (;;) {
      const { done, value } = await reader.read().catch(() => ({ done: true, value: undefined }));
      if (done) return;
      text += decoder.decode(value, { stream: true });
      const blocks = text.split("\n\n");
      text = blocks.pop()!;
      for (const block of blocks) {
        const data = /^data: (.*)$/m.exec(block)?.[1];
        const id = /^id: (\d+)$/m.exec(block)?.[1];
        if (data !== undefined)
          heard.push({
            ...hostEvent.parse(JSON.parse(data)),
            ...(id === undefined ? {} : { id: Number(id) }),
          });
      }
      for (const wake of waiting) wake();
    }
  })();
  return {
    heard,
    until: (what) =>
      new Promise((resolve, reject) => {
        const clock = setTimeout(
          () => reject(new Error(`not heard; there was ${JSON.stringify(heard)}`)),
          10_000,
        );
        const look = (): void => {
          const found = heard.find(what);
          if (found !== undefined) {
            clearTimeout(clock);
            waiting.delete(look);
            resolve(found);
          }
        };
        waiting.add(look);
        look();
      }),
    close: async () => {
      end.abort();
      await reader.cancel();
      await reading;
    },
  };
}

let threads: EngineThreads;
beforeAll(() => {
  threads = startEngineThreads();
});
afterAll(() => threads.close());

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  test("two hosts on one database: an edition is heard at both, once, in the order of the log", async () => {
    const place = await fresh();
    const [one, two] = [await testHost(place, threads), await testHost(place, threads)];
    try {
      const ears = [await listen(one), await listen(one), await listen(two)];
      expect(
        (
          await one.ask("PUT", "/api/books/small-panels/draft", {
            base: 0,
            text: smallBook(),
            device: "desk",
          })
        ).status,
      ).toBe(200);
      expect(
        (await two.ask("POST", "/api/books/small-panels/editions", { text: smallBook(), why: "first" }))
          .status,
      ).toBe(201);
      for (const ear of ears) {
        await ear.until((event) => event.is === "edition");
        expect(ear.heard.map(({ is, id }) => [is, id])).toEqual([
          ["draft", 1],
          ["edition", 2],
        ]);
        expect(ear.heard[0]).toMatchObject({
          book: "small-panels",
          version: 1,
          who: lead.name,
          device: "desk",
        });
      }
      // Both write by turns, and the chain of the log holds.
      const write = (i: number) =>
        (i % 2 === 0 ? one : two).ask("PUT", `/api/books/b${i}/draft`, { base: 0, text: `book b${i}\n` });
      // Two hosts in one process cannot wait for one another over a file; two processes can, which the test
      // of kills shows.
      if (one.database.sort === "server") await Promise.all(Array.from({ length: 20 }, (_, i) => write(i)));
      else for (let i = 0; i < 20; i += 1) await write(i);
      expect((await one.ask("GET", "/api/log/verify")).body).toMatchObject({ holds: true, lines: 22 });
      for (const ear of ears) {
        await ear.until((event) => event.is === "draft" && (event as { id?: number }).id === 22);
        expect(ear.heard.map(({ id }) => id)).toEqual(Array.from({ length: 22 }, (_, i) => i + 1));
        await ear.close();
      }
    } finally {
      await one.close();
      await two.close();
    }
  }, 60_000);

  test("who comes back gets what was missed, in order and once; after a restore all is loaded", async () => {
    const place = await fresh();
    const host = await testHost(place, threads);
    try {
      for (let i = 0; i < 6; i += 1)
        await host.ask("PUT", "/api/books/b/draft", { base: i, text: `figure f = ${i}\n` });
      const file = join(freshFolder(), "b");
      const beside = await openDatabase(place);
      await backUp(beside, file);
      const back = await listen(host, "?after=4");
      await host.ask("PUT", "/api/books/b/draft", { base: 6, text: "figure f = 7\n" });
      await back.until((event) => event.is === "draft" && event.version === 7);
      expect(back.heard.map(({ id }) => id)).toEqual([5, 6, 7]);
      await restore(beside, file, "a test");
      await back.until((event) => event.is === "anew");
      expect((await host.ask("GET", "/api/books/b/draft")).body.version).toBe(6);
      await beside.close();
      await back.close();
      const stranger = await listen(host, "?after=999");
      await stranger.until((event) => event.is === "anew");
      await stranger.close();
    } finally {
      await host.close();
    }
  }, 60_000);

  test("who has a draft open is told to the others, and no longer when they leave", async () => {
    const place = await fresh();
    const [one, two] = [await testHost(place, threads), await testHost(place, threads)];
    try {
      await one.ask("PUT", "/api/books/b/draft", { base: 0, text: "book b\n" });
      const first = await listen(one, "?draft=b&device=desk");
      const second = await listen(two, "?draft=b&device=tablet", { name: "T. Hale", role: "lead" });
      await first.until(
        (event) => event.is === "open" && event.people.length === (one.database.sort === "server" ? 2 : 1),
      );
      // Over a file each host knows its own people; over a server all of them.
      if (one.database.sort === "server")
        expect((await one.ask("GET", "/api/books/b/draft")).body.open).toEqual([
          { who: lead.name, device: "desk" },
          { who: "T. Hale", device: "tablet" },
        ]);
      await second.close();
      const third = await listen(one, "?draft=b&device=phone");
      await first.until(
        (event) =>
          event.is === "open" &&
          event.people.some((person) => person.device === "phone") &&
          !event.people.some((person) => person.device === "tablet"),
      );
      await third.close();
      await first.close();
    } finally {
      await one.close();
      await two.close();
    }
  }, 60_000);
});
