// Numbers of editions in a text, what a text stands on, and the log fetched page by page for a weighing.
import { expect, test } from "vitest";
import { editionIn, nextNumber, underIn, withEdition } from "../../editor/bench/shelf/edition-text.ts";
import { loggedJobs } from "../../editor/bench/shelf/log-answers.ts";
import { namedIn, underFromHost } from "../../editor/bench/store/host-under.ts";

const layer = '-- notes\nbook quay, edition 3, amends house, edition 7\n    "Quay"\nuse sums, edition 2\nuse words\n';

test("the own edition is read and written, that of the book underneath is left alone", () => {
  expect([editionIn(layer), editionIn("book quay\n"), editionIn("book quay, amends house, edition 7\n")]).toEqual([3, undefined, undefined]);
  expect(withEdition(layer, 4)).toBe(layer.replace("edition 3", "edition 4"));
  expect(withEdition("book quay, amends house, edition 7\n", 1)).toBe("book quay, edition 1, amends house, edition 7\n");
  expect(withEdition("not a book", 4)).toBe("not a book");
  expect([nextNumber(layer, undefined), nextNumber(layer, 2), nextNumber(layer, 3), nextNumber(layer, 9), nextNumber("book a\n", undefined)]).toEqual([3, 3, 4, 10, 1]);
  expect([underIn(layer), underIn("book quay, edition 3\n")]).toEqual([{ name: "house", edition: 7 }, undefined]);
});

test("what a text stands on is fetched with what that stands on, the named edition or the newest", async () => {
  expect(namedIn(layer)).toEqual([{ name: "house", edition: 7 }, { name: "sums", edition: 2 }, { name: "words", edition: undefined }]);
  const shelf: Readonly<Record<string, string>> = { "house 7": "book house, edition 7\nuse sums, edition 2\n", "sums 2": "book sums, edition 2\n", "words 5": "book words, edition 5\nuse words, edition 5\n" };
  const newest: Readonly<Record<string, number>> = { house: 9, sums: 2, words: 5 };
  const client = {
    books: async () => ({ books: Object.entries(newest).map(([name, number]) => ({ name, title: "", edition: { number, print: "", at: 0, faults: 0 } })) }),
    edition: async (name: string, number: number) => { const text = shelf[`${name} ${number}`]; if (text === undefined) throw new Error("none"); return { text } as never; },
  };
  expect([...await underFromHost(client, layer)].sort()).toEqual(Object.values(shelf).sort());
  expect(await underFromHost({ ...client, books: async () => { throw new Error("away"); } }, layer)).toEqual([]);
});

test("jobs of the log come page by page, no more than are asked for, and leave off when told", async () => {
  const all = Array.from({ length: 1200 }, (_, n): { id: string; title: string; answers: Record<string, string> } => ({ id: `0000000${n}`, title: n % 2 === 0 ? `job ${n}` : "", answers: n === 5 ? {} : { size: `${n} mm` } }));
  const asked: number[] = [];
  const client = { answers: async ({ before, limit = 50 }: { before?: string; limit?: number } = {}) => {
    const from = Number(before ?? 0);
    asked.push(limit);
    return { jobs: all.slice(from, from + limit), ...(from + limit < all.length ? { next: String(from + limit) } : {}) };
  } };
  const told: number[] = [];
  const found = await loggedJobs(client, "b", Infinity, (count) => told.push(count), () => false);
  expect([found.length, told]).toEqual([1199, [500, 1000, 1200]]);
  expect(found[0]).toEqual({ name: "job 0", answers: { size: "0 mm" } });
  expect((await loggedJobs(client, "b", 700, () => undefined, () => false)).length).toBe(699);
  expect(asked.slice(-2)).toEqual([500, 200]);
  let pages = 0;
  expect((await loggedJobs(client, "b", Infinity, () => { pages += 1; }, () => pages > 0)).length).toBe(499);
});
