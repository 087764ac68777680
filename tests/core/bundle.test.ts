// A book kept with its ground: parted as it was bundled, everything else left as it is; delivered under the
// print that names it, and taken from a host only if it is the very book.
import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import { bundled, mostUnder, namesOthers, parted } from "../../core/bundle.ts";
import type { Delivery } from "../../editor/technician/store/deliver.ts";
import { startDelivery } from "../../editor/technician/store/deliver.ts";
import { bookOfJob } from "../../editor/technician/store/device-jobs.ts";
import { hashText } from "../../editor/client/storage/content-hash.ts";
import type { KeptText } from "../../editor/technician/store/record-storage.ts";

const base = 'book small-base, edition 1\n    "A house standard"\n';
const layer = 'book quay, edition 1, amends small-base, edition 1\n    "A yard\'s own"\n';

describe("a bundle", () => {
  it("gives back the text and its ground, whatever is in them", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: "binary" }),
        fc.array(fc.string({ unit: "binary" }), { maxLength: 5 }),
        (more, under) => {
          expect(parted(bundled(layer + more, under))).toEqual({ text: layer + more, under });
        },
      ),
    );
  });
  it("is the own text alone where no other book is named, or the ground is not told", () => {
    expect([bundled(base, [layer]), bundled(layer, undefined), parted(base), parted(layer)]).toEqual([
      base,
      layer,
      { text: base, under: undefined },
      { text: layer, under: undefined },
    ]);
    expect([
      namesOthers(layer),
      namesOthers("book x, edition 1\n\nuse common-sums\n"),
      namesOthers(base),
    ]).toEqual([true, true, false]);
  });
  it("a ground of which nothing was at hand is kept as such", () => {
    expect(parted(bundled(layer, []))).toEqual({ text: layer, under: [] });
  });
  it("any other text is a book of its own", () => {
    const texts = [
      "",
      "{",
      '{"texts":[',
      '{"texts":[]}',
      '{"texts":[1]}',
      `{"texts":[${JSON.stringify(layer)},1]}`,
      `{"texts":[${JSON.stringify(layer)}],"more":1}`,
      `{"texts": [${JSON.stringify(layer)}]}`,
      `{"texts":[${JSON.stringify(base)}]}`,
      bundled(
        layer,
        Array.from({ length: mostUnder + 1 }, (_, i) => `book b${i}`),
      ),
      `{"texts":[${"[".repeat(100_000)}`,
    ];
    for (const text of texts) expect(parted(text)).toEqual({ text, under: undefined });
  });
});

describe("delivery of a book", () => {
  const delivered = async (book: Omit<KeptText, "name" | "title" | "at">): Promise<string> => {
    const kept: KeptText = { ...book, name: "quay", title: "", at: 1 };
    let sent = "";
    await new Promise<void>((resolve) => {
      let texts: readonly string[] = [book.print];
      const shelf = {
        waiting: async () => ({ entries: [], photos: [], texts }),
        entries: async () => [],
        delivered: async () => {
          texts = [];
        },
        photo: async () => undefined,
        book: async () => kept,
      };
      startDelivery(
        shelf,
        (state: Delivery) => {
          if (state.last !== undefined) resolve();
        },
        {
          hear: () => () => undefined,
          now: () => 1,
          send: async (_address, request) => {
            sent = (JSON.parse(String(request?.body)) as { text: string }).text;
            return new Response('{"known":false}');
          },
        },
      );
    });
    return sent;
  };
  it("goes with its ground where the print names both, and alone where it names the own text", async () => {
    const bundle = bundled(layer, [base]);
    expect(await delivered({ print: await hashText(bundle), text: layer, under: [base] })).toBe(bundle);
    // A sealed edition; a record of an earlier page, with what it kept underneath.
    expect(await delivered({ print: await hashText(layer), text: layer, under: [base] })).toBe(layer);
    expect(await delivered({ print: await hashText(base), text: base })).toBe(base);
  });
});

describe("a job's book asked of the host", () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });
  const asked = async (
    print: string,
    said: unknown,
  ): Promise<Pick<KeptText, "text" | "under"> | undefined> => {
    vi.stubGlobal("fetch", async () => new Response(JSON.stringify(said)));
    const book = await bookOfJob(undefined, { name: "quay", edition: 1, print, sealed: false });
    return book && { text: book.text, ...(book.under === undefined ? {} : { under: book.under }) };
  };
  it("comes with its ground, from a host of an earlier build too", async () => {
    const print = await hashText(bundled(layer, [base]));
    expect(await asked(print, { text: layer, under: [base] })).toEqual({ text: layer, under: [base] });
    expect(await asked(print, { text: bundled(layer, [base]) })).toEqual({ text: layer, under: [base] });
    // The print of the own text: sealed, or made by an earlier page.
    expect(await asked(await hashText(layer), { text: layer, under: [base] })).toEqual({
      text: layer,
      under: [base],
    });
    expect(await asked(await hashText(layer), { text: layer })).toEqual({ text: layer });
  });
  it("is not taken where it is another, or stands on another ground than the print names", async () => {
    const print = await hashText(bundled(layer, [base]));
    for (const said of [
      { text: layer, under: [`${base}-- changed\n`] },
      { text: layer, under: [] },
      { text: layer },
      { text: base, under: [] },
      {},
      { text: 4 },
      { text: layer, under: "base" },
    ])
      expect(await asked(print, said)).toBeUndefined();
    for (const under of ["base", [4], {}, null])
      expect(await asked(await hashText(layer), { text: layer, under })).toBeUndefined();
  });
});
