// Numbers of editions in a text, what a text stands on, and the log fetched page by page for a weighing.
import { expect, test } from "vitest";
import { editionIn, nextNumber, withEdition } from "../../../editor/workbench/shop-host/edition-text.ts";
import { startComparer } from "../../../editor/client/engine/compare-client.ts";
import type { WeighCall, WeighWord } from "../../../editor/client/engine/compare-portions.ts";
import { comparisons } from "../../../editor/client/engine/compare-portions.ts";
import type { JobLine } from "../../../core/schemas/host.ts";
import type { Listed } from "../../../editor/workbench/shop-host/job-words.ts";
import { withNewest } from "../../../editor/workbench/shop-host/job-words.ts";
import { loggedJobs, nothingFetched } from "../../../editor/workbench/shop-host/log-answers.ts";
import { HostRefusal } from "../../../editor/client/storage/host-client.ts";
import { underFromHost } from "../../../editor/workbench/store/host-base-books.ts";

const layer =
  '-- notes\nbook quay, edition 3, amends house, edition 7\n    "Quay"\nuse sums, edition 2\nuse words\n';

test("the own edition is read and written, that of the book underneath is left alone", () => {
  expect([
    editionIn(layer),
    editionIn("book quay\n"),
    editionIn("book quay, amends house, edition 7\n"),
  ]).toEqual([3, undefined, undefined]);
  expect(withEdition(layer, 4)).toBe(layer.replace("edition 3", "edition 4"));
  expect(withEdition("book quay, amends house, edition 7\n", 1)).toBe(
    "book quay, edition 1, amends house, edition 7\n",
  );
  expect(withEdition("not a book", 4)).toBe("not a book");
  expect([
    nextNumber(layer, undefined),
    nextNumber(layer, 2),
    nextNumber(layer, 3),
    nextNumber(layer, 9),
    nextNumber("book a\n", undefined),
  ]).toEqual([3, 3, 4, 10, 1]);
});

test("what a text depends on is fetched with its own dependencies, as named or the newest", async () => {
  const shelf: Readonly<Record<string, string>> = {
    "house 7": "book house, edition 7\nuse sums, edition 2\n",
    "sums 2": "book sums, edition 2\n",
    "words 5": "book words, edition 5\nuse words, edition 5\n",
  };
  const newest: Readonly<Record<string, number>> = { house: 9, sums: 2, words: 5 };
  const client = {
    books: async () => ({
      books: Object.entries(newest).map(([name, number]) => ({
        name,
        title: "",
        edition: { number, print: "", at: 0, faults: 0 },
      })),
    }),
    edition: async (name: string, number: number) => {
      const text = shelf[`${name} ${number}`];
      if (text === undefined) throw new Error("none");
      return { text } as never;
    },
  };
  expect([...(await underFromHost(client, layer))].sort()).toEqual(Object.values(shelf).sort());
  const onTwoLines = layer.replace(" amends", "\n    amends");
  expect([...(await underFromHost(client, onTwoLines))].sort()).toEqual(Object.values(shelf).sort());
  expect(
    await underFromHost(
      {
        ...client,
        books: async () => {
          throw new Error("away");
        },
      },
      layer,
    ),
  ).toEqual([]);
});

test("jobs of the log come page by page, no more than are asked for, and leave off when told", async () => {
  const all = Array.from(
    { length: 1200 },
    (_, n): { id: string; title: string; answers: Record<string, string> } => ({
      id: `0000000${n}`,
      title: n % 2 === 0 ? `job ${n}` : "",
      answers: n === 5 ? {} : { size: `${n} mm` },
    }),
  );
  const asked: number[] = [];
  const client = {
    answers: async ({ before, limit = 50 }: { before?: string; limit?: number } = {}) => {
      const from = Number(before ?? 0);
      asked.push(limit);
      return {
        jobs: all.slice(from, from + limit),
        ...(from + limit < all.length ? { next: String(from + limit) } : {}),
      };
    },
  };
  const told: number[] = [];
  const whole = await loggedJobs({
    client,
    book: "b",
    most: Infinity,
    from: nothingFetched,
    onPage: ({ looked }) => told.push(looked),
    stopped: () => false,
  });
  expect([whole.jobs.length, whole.whole, told]).toEqual([1199, true, [500, 1000, 1200]]);
  expect(whole.jobs[0]).toEqual({ name: "job 0", answers: { size: "0 mm" } });
  const some = await loggedJobs({
    client,
    book: "b",
    most: 700,
    from: nothingFetched,
    onPage: () => undefined,
    stopped: () => false,
  });
  expect([some.jobs.length, some.looked, some.whole]).toEqual([699, 700, true]);
  expect(asked.slice(-2)).toEqual([500, 200]);
  // Of more than before only the rest is asked for.
  expect(
    (
      await loggedJobs({
        client,
        book: "b",
        most: 900,
        from: some,
        onPage: () => undefined,
        stopped: () => false,
      })
    ).jobs,
  ).toEqual(whole.jobs.slice(0, 899));
  expect(asked.slice(-1)).toEqual([200]);
});

test("a log that is left off, or whose host goes away half way, goes on behind what has come", async () => {
  const all = Array.from({ length: 1200 }, (_, n) => ({
    id: `0000000${n}`,
    title: `job ${n}`,
    answers: { size: `${n} mm` },
  }));
  let away = false;
  const client = {
    answers: async ({ before, limit = 50 }: { before?: string; limit?: number } = {}) => {
      if (away) throw new HostRefusal(0, "The shop's host cannot be reached.");
      const from = Number(before ?? 0);
      return {
        jobs: all.slice(from, from + limit),
        ...(from + limit < all.length ? { next: String(from + limit) } : {}),
      };
    },
  };
  let kept = nothingFetched;
  const stopped = await loggedJobs({
    client,
    book: "b",
    most: Infinity,
    from: kept,
    onPage: (fetched) => {
      kept = fetched;
    },
    stopped: () => kept.looked > 0,
  });
  expect([stopped.jobs.length, stopped.whole, kept]).toEqual([500, false, stopped]);
  await expect(
    loggedJobs({
      client,
      book: "b",
      most: Infinity,
      from: kept,
      onPage: (fetched) => {
        kept = fetched;
        away = true;
      },
      stopped: () => false,
    }),
  ).rejects.toThrow("cannot be reached");
  expect([kept.jobs.length, kept.whole]).toEqual([1000, false]);
  away = false;
  const rest = await loggedJobs({
    client,
    book: "b",
    most: Infinity,
    from: kept,
    onPage: () => undefined,
    stopped: () => false,
  });
  expect([rest.whole, rest.jobs.map((job) => job.name)]).toEqual([true, all.map((job) => job.title)]);
});

test("a list keeps the pages behind its newest rows when those are asked for again", () => {
  const line = (n: number, changed = n): JobLine => ({
    id: String(n).padStart(4, "0"),
    title: `job ${n}`,
    book: "b",
    print: "",
    state: "open",
    begun: 0,
    changed,
    agreement: "not signed",
    after: 0,
  });
  const names = ({ jobs }: Listed) => jobs.map((job) => job.title.slice(4)).join(" ");
  const old = { jobs: [9, 8, 7, 6].map((n) => line(n)), next: "6-0006" };
  const one = withNewest(old, { jobs: [10, 9, 8, 7].map((n) => line(n)), next: "7-0007" });
  expect([names(one), one.next]).toEqual(["10 9 8 7 6", "6-0006"]);
  // One that is changed stands in front and not twice; one that the list holds no more is gone.
  expect(names(withNewest(old, { jobs: [line(6, 11), line(9), line(8)], next: "8-0008" }))).toBe("6 9 8 7");
  expect(names(withNewest(old, { jobs: [10, 9, 7].map((n) => line(n)), next: "7-0007" }))).toBe("10 9 7 6");
  // So much is new that rows between are missing; or that is all there is.
  expect(withNewest(old, { jobs: [line(20), line(19)], next: "19-0019" }).next).toBe("19-0019");
  expect(names(withNewest(old, { jobs: [line(9)] }))).toBe("9");
});

/** A weighing worker without a thread: what is due is done when `turns` says so. */
function weighingByHand() {
  const due: (() => void)[] = [];
  let clock = 0;
  const words: WeighWord[] = [];
  let worker: { onmessage?: (event: { data: WeighWord }) => void } = {};
  const hear = comparisons(
    (word) => {
      words.push(word);
      worker.onmessage?.({ data: structuredClone(word) });
    },
    (act) => {
      due.push(act);
    },
    () => (clock += 20),
  );
  const weigher = startComparer(() => {
    worker = {};
    return Object.assign(worker, {
      postMessage: (call: WeighCall) => hear(structuredClone(call)),
      terminate: () => undefined,
    }) as unknown as Worker;
  });
  return {
    weigher,
    words,
    turns: (most: number) => {
      for (let n = 0; n < most && due.length > 0; n += 1) due.shift()!();
      return due.length === 0;
    },
  };
}

const plain =
  'book p\n    "P"\nask size in mm, 0 to 5000\n    "How long?"\n' +
  'figure room in mm = size + 10 mm\n    because "so"\nstep cut "Cut {room}"\n';

test("a comparison comes in parts, can be stopped at any moment, and goes on where it was", () => {
  const logged = Array.from({ length: 60 }, (_, n) => ({ name: `job ${n}`, answers: { size: `${n} mm` } }));
  const wish = { before: plain, after: plain.replace("+ 10 mm", "+ 20 mm"), logged, spread: 0 };
  const one = weighingByHand();
  one.weigher.weigh(wish);
  // Stopped before it has begun: nothing of it is done.
  one.weigher.stop();
  expect(one.turns(1000)).toBe(true);
  expect([one.weigher.state().running, one.weigher.state().view]).toEqual([false, undefined]);
  one.weigher.weigh(wish);
  one.turns(5);
  one.weigher.stop();
  const half = one.weigher.state();
  expect(half.running).toBe(false);
  expect(half.view!.settled).toBeGreaterThan(0);
  expect(half.view!.settled).toBeLessThan(60);
  expect(one.turns(1000)).toBe(true);
  expect(one.weigher.state()).toBe(half);
  // The same wish, of other objects, goes on.
  one.weigher.weigh(structuredClone(wish));
  expect(one.weigher.state().running).toBe(true);
  expect(one.turns(1000)).toBe(true);
  const done = one.weigher.state();
  expect([done.running, done.view!.done, done.view!.moved.map((job) => job.name)]).toEqual([
    false,
    true,
    logged.map((job) => job.name),
  ]);
  expect(done.view!.groups.map((group) => group.jobs)).toEqual([60]);
  // No job was sent twice.
  expect(one.words.reduce((sum, word) => sum + (word.view?.moved.length ?? 0), 0)).toBe(60);
  one.weigher.weigh(wish);
  expect(one.weigher.state()).toBe(done);
});
