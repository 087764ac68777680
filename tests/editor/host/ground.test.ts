// A job is worked again on exactly the ground that it was made on, whatever is sealed on the shelf
// afterwards: by an unsealed layer that a device delivered with all underneath, by a sealed one, and by the
// records of earlier pages and hosts.
import { afterAll, expect, test } from "vitest";
import { MAX_BOOK_BYTES, MAX_BUNDLE_BYTES } from "../../../core/limits.ts";
import { bundled } from "../../../engine/index.ts";
import type { BookRef, CardRecord } from "../../../core/record.ts";
import * as schemas from "../../../core/schemas/host.ts";
import { cardOf } from "../../../core/compare-card.ts";
import { startEngineThreads } from "../../../editor/host/engine-threads/engine-threads.ts";
import { backUp, restore } from "../../../editor/host/database/backup-file.ts";
import { sha256 } from "../../../editor/host/database/log-chain.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../engine/index.ts";
import { chance } from "../../support/chance.ts";
import { type TestHost, testHost } from "./support/api.ts";
import { bothPlaces, freshFolder } from "./support/places.ts";
import { jobEntries } from "./support/records.ts";

const threads = startEngineThreads();
afterAll(() => threads.close());

const base = (edition: number, slope: string): string => `book small-base, edition ${edition}
    "A house standard"

ask depth in mm, 1 to 10
    "How deep?"

dial slope = ${slope}, from 1:8 to 1:15
    from practice

figure width in mm = depth run out at slope

step grind "Grind {width}"
`;
const layer = (own: number, of = "small-base, edition 1", gap = " "): string =>
  `book quay-panels, edition ${own},${gap}amends ${of}\n    "A yard's own"\n\n` +
  `instead figure width = as-before + 5 mm\n    from house "invented, 2026"\n`;
const answers = { depth: "4 mm" };
const cardUpon = (text: string, under: readonly string[]): CardRecord =>
  cardOf(showJob(workJob(readBook(text, undefined, under), answers)), engineVersion);
const widthOf = (card: CardRecord): string | undefined =>
  card.values.find((value) => value.name === "width")?.text;

async function deliver(
  host: TestHost,
  seed: number,
  ref: Omit<BookRef, "name">,
  card: CardRecord,
  text?: string,
): Promise<string> {
  const entries = jobEntries(
    chance(seed),
    { name: "quay-panels", ...ref },
    Date.UTC(2026, 9, 1),
    card,
    answers,
  );
  if (text !== undefined)
    expect((await host.ask("PUT", `/api/texts/${ref.print}`, { text })).status).toBe(200);
  expect((await host.ask("POST", "/api/jobs/entries", { entries })).status).toBe(200);
  await host.rework.idle();
  return entries[0]!.job;
}
const again = async (host: TestHost, job: string) =>
  schemas.agreement.parse((await host.ask("GET", `/api/jobs/${job}/again`)).body);
const seal = async (host: TestHost, book: string, text: string) => {
  expect(
    (await host.ask("POST", `/api/books/${book}/editions`, { text, why: "for the test", reason: "invented" }))
      .status,
  ).toBe(201);
};

test.each(bothPlaces)(
  "on $name: an unsealed layer's job, with another base sealed under its name and number, and the next",
  async (places) => {
    const host = await testHost(await places.fresh(), threads);
    try {
      // The tablet stood on a base of its own; the shop seals another under the same name and number, and
      // then the next.
      const own = base(1, "1:10");
      const bundle = bundled(layer(1, "small-base"), [own]);
      const card = cardUpon(layer(1, "small-base"), [own]);
      expect(widthOf(card)).toBe("45 mm");
      const job = await deliver(host, 1, { edition: 1, print: sha256(bundle), sealed: false }, card, bundle);
      expect((await host.ask("GET", `/api/jobs/${job}`)).body.agreement).toBe("same");
      for (const [number, slope] of [
        [1, "1:12"],
        [2, "1:15"],
      ] as const) {
        await seal(host, "small-base", base(number, slope));
        expect(await again(host, job)).toEqual({
          says: "same",
          then: engineVersion,
          now: engineVersion,
          differences: [],
        });
      }
      // The same words upon what is sealed now give other numbers: it is the ground that is kept.
      expect(widthOf(cardUpon(layer(1, "small-base"), [base(2, "1:15")]))).toBe("65 mm");
      expect(schemas.bookByPrint.parse((await host.ask("GET", `/api/texts/${sha256(bundle)}`)).body)).toEqual(
        { text: layer(1, "small-base"), under: [own] },
      );

      const secondLine = layer(7, "small-base, edition 1", "\n    ");
      // Delivered before its book, it waits; a text that is not the one named is not taken; once more is
      // known already.
      const other = bundled(secondLine, [own]);
      const late = await deliver(
        host,
        2,
        { edition: 7, print: sha256(other), sealed: false },
        cardUpon(secondLine, [own]),
      );
      expect((await again(host, late)).says).toBe("book unknown");
      expect(
        (
          await host.ask("PUT", `/api/texts/${sha256(other)}`, {
            text: bundled(secondLine, [base(1, "1:11")]),
          })
        ).status,
      ).toBe(422);
      expect((await host.ask("PUT", `/api/texts/${sha256(other)}`, { text: other })).body).toEqual({
        known: false,
      });
      expect((await host.ask("PUT", `/api/texts/${sha256(other)}`, { text: other })).body).toEqual({
        known: true,
      });
      await host.rework.idle();
      expect((await host.ask("GET", `/api/jobs/${late}`)).body.agreement).toBe("same");

      // Where nothing of its ground was at hand on the tablet, nothing is put underneath later.
      const bare = bundled(layer(8), []);
      const alone = await deliver(
        host,
        3,
        { edition: 8, print: sha256(bare), sealed: false },
        cardUpon(layer(8), []),
        bare,
      );
      expect((await again(host, alone)).says).toBe("same");

      // The log holds, also after a backup was put back into an empty shelf.
      expect((await host.ask("GET", "/api/log/verify")).body).toMatchObject({ holds: true, troubles: [] });
      const file = `${freshFolder()}/shop.backup`;
      await backUp(host.database, file);
      const next = await testHost(await places.fresh(), threads);
      try {
        await restore(next.database, file, "a test");
        expect((await again(next, job)).says).toBe("same");
        expect((await next.ask("GET", "/api/log/verify")).body).toMatchObject({ holds: true, troubles: [] });
      } finally {
        await next.close();
      }
    } finally {
      await host.close();
    }
  },
  120_000,
);

test.each(bothPlaces)(
  "on $name: a sealed layer is worked again and handed out upon what it was " +
    "sealed upon; records without a ground as before",
  async (places) => {
    const host = await testHost(await places.fresh(), threads);
    try {
      await seal(host, "small-base", base(1, "1:10"));
      await seal(host, "quay-panels", layer(1, "small-base"));
      await seal(host, "small-base", base(2, "1:15"));
      const text = layer(1, "small-base");
      const job = await deliver(
        host,
        4,
        { edition: 1, print: sha256(text), sealed: true },
        cardUpon(text, [base(1, "1:10")]),
        text,
      );
      expect((await again(host, job)).says).toBe("same");
      expect(schemas.bookByPrint.parse((await host.ask("GET", `/api/texts/${sha256(text)}`)).body)).toEqual({
        text,
        under: [base(1, "1:10")],
      });
      expect((await host.ask("GET", `/api/texts/${sha256(base(2, "1:15"))}`)).body).toEqual({
        text: base(2, "1:15"),
        under: [],
      });

      // An earlier page named an unsealed layer by its own text: it is read on what the shelf has, and handed
      // out without a ground.
      const old = layer(5, "small-base, edition 1");
      const before = await deliver(
        host,
        5,
        { edition: 5, print: sha256(old), sealed: false },
        cardUpon(old, [base(1, "1:10")]),
        old,
      );
      expect((await again(host, before)).says).toBe("same");
      expect((await host.ask("GET", `/api/texts/${sha256(old)}`)).body).toEqual({ text: old });
    } finally {
      await host.close();
    }
  },
  120_000,
);

test("a bundle may be larger than one text, to its own bound", async () => {
  const host = await testHost({ data: freshFolder() }, threads);
  try {
    const filled = (size: number): string =>
      `${base(1, "1:10")}-- ${"a\n-- ".repeat(Math.ceil(size / 5))}`.slice(0, size);
    const put = (text: string) => host.ask("PUT", `/api/texts/${sha256(text)}`, { text });
    const large = bundled(layer(1), [filled(MAX_BOOK_BYTES)]);
    expect(large.length).toBeGreaterThan(MAX_BOOK_BYTES);
    expect((await put(large)).status).toBe(200);
    expect(
      schemas.bookByPrint.parse((await host.ask("GET", `/api/texts/${sha256(large)}`)).body).under?.[0]
        ?.length,
    ).toBe(MAX_BOOK_BYTES);
    expect((await put("x".repeat(MAX_BUNDLE_BYTES + 1))).status).toBe(400);
    expect((await put("x".repeat(3 * MAX_BUNDLE_BYTES))).status).toBe(413);
  } finally {
    await host.close();
  }
}, 60_000);
