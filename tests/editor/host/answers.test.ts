// The answers of many jobs at once: the same as each job's record gives, in the order of the list, each once
// over all pages.
import { afterAll, expect, test } from "vitest";
import { startEngineThreads } from "../../../editor/host/engine-threads/engine-threads.ts";
import { chance } from "../../support/chance.ts";
import { testHost } from "./support/api.ts";
import { bothPlaces } from "./support/places.ts";
import { jobEntries } from "./support/records.ts";

const threads = startEngineThreads();
afterAll(() => threads.close());

test.each(bothPlaces)(
  "on $name",
  async (places) => {
    const host = await testHost(await places.fresh(), threads);
    try {
      const luck = chance(3);
      const book = { name: "small-panels", edition: 1, print: "a".repeat(64), sealed: true };
      for (let n = 0; n < 13; n += 1) {
        const entries = Array.from({ length: 10 }, () =>
          jobEntries(luck, n === 12 ? { ...book, name: "another" } : book, 1_700_000_000_000 + n * 1_000_000),
        ).flat();
        expect((await host.ask("POST", "/api/jobs/entries", { entries })).status).toBe(200);
      }
      const all: { id: string; answers: Record<string, string> }[] = [];
      for (let before = ""; ; ) {
        const { body } = await host.ask(
          "GET",
          `/api/answers?book=small-panels&limit=50${before === "" ? "" : `&before=${before}`}`,
        );
        all.push(...body.jobs);
        if (body.next === undefined) break;
        before = encodeURIComponent(body.next);
      }
      expect([all.length, new Set(all.map((job) => job.id)).size]).toEqual([120, 120]);
      for (const one of [all[0]!, all[61]!, all[119]!])
        expect(one.answers).toEqual((await host.ask("GET", `/api/jobs/${one.id}`)).body.job.answers);
    } finally {
      await host.close();
    }
  },
  60_000,
);
