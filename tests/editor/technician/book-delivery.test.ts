// A book on its way between a tablet and the host: delivered under the print that names it, and taken from a
// host only if it is the very book.
import { afterEach, describe, expect, it, vi } from "vitest";
import { hashText } from "../../../editor/client/storage/hash-text.ts";
import type { Delivery } from "../../../editor/technician/store/deliver.ts";
import { startDelivery } from "../../../editor/technician/store/deliver.ts";
import { bookOfJob } from "../../../editor/technician/store/device-jobs.ts";
import type { KeptText } from "../../../editor/technician/store/record-storage.ts";
import { bundled } from "../../../engine/index.ts";

const base = 'book small-base, edition 1\n    "A house standard"\n';
const layer = 'book quay, edition 1,\n    amends small-base, edition 1\n    "A yard\'s own"\n';

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
        note: async () => undefined,
        setNote: async () => undefined,
      };
      startDelivery(
        shelf,
        (state: Delivery) => {
          if (state.last !== undefined) resolve();
        },
        {
          hear: () => () => undefined,
          now: () => 1,
          send: async (address, request) => {
            if (address === "/api/hello") return new Response("", { status: 404 });
            sent = (JSON.parse(String(request?.body)) as { text: string }).text;
            return Response.json({ known: false });
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
