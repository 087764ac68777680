// The page's copy of a snapshot after any run of edits and answers is the whole snapshot that a worker
// without memory gives, and a request names no more than what changed.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Answers } from "../../../core/view.ts";
import { emptyCache, snapshotOf } from "../../../editor/client/engine/held-books.ts";
import { applyDelta, deltaOf, spliced, spliceOf } from "../../../editor/client/engine/delta.ts";
import { missedVersion } from "../../../editor/client/engine/messages.ts";
import type { Snapshot, Wanted } from "../../../editor/client/engine/messages.ts";
import { pageCopy } from "../../../editor/client/engine/page-copy.ts";
import { noVersions, textOf, update } from "../../../editor/client/engine/versions.ts";
import { chance } from "../../support/chance.ts";
import type { Chance } from "../../support/chance.ts";
import { mutate } from "../../support/mutate.ts";
import { randomAnswers, randomBook } from "../../support/random-book.ts";

const shipped = (name: string): string =>
  readFileSync(new URL(`../../../rulesets/${name}.bevel`, import.meta.url), "utf8");

/** A page and its worker, with a border between them that only plain data crosses. */
function pageAndWorker() {
  let versions = noVersions(emptyCache());
  const copy = pageCopy();
  return {
    show: (wanted: Wanted) => {
      const request = structuredClone(copy.request(wanted));
      const reply = structuredClone(update(versions, request));
      return { request, reply, snapshot: copy.take(reply) };
    },
    copy,
    restart: () => {
      versions = noVersions(emptyCache());
    },
    versions: () => versions,
  };
}

const whole = (wanted: Wanted): Snapshot => structuredClone(snapshotOf(emptyCache(), wanted));
/** Without the time that it took. */
const still = (snapshot: Snapshot) => ({ ...snapshot, took: 0 });
const bytes = (data: unknown): number => JSON.stringify(data).length;

/** One thing that a person does at the workbench. */
function step(by: Chance, wanted: Wanted, asks: ReturnType<typeof randomBook>["asks"]): Wanted {
  const { text, jobs } = wanted;
  const at = by.whole(text.length + 1);
  switch (by.whole(9)) {
    case 0:
      return { ...wanted, text: mutate(by, text) };
    case 1:
      return { ...wanted, text: text.slice(0, at) + by.pick(["1", " ", "\n", "a", "\n\n"]) + text.slice(at) };
    case 2:
      return { ...wanted, text: text.slice(0, at) + text.slice(at + by.whole(12)) };
    case 3:
      return { ...wanted, accepted: text };
    case 4:
      return { ...wanted, units: by.pick(["book", "metric", "us"] as const) };
    case 5:
      return { ...wanted, card: by.pick([undefined, "j1", "j2"]) };
    case 6:
      return {
        ...wanted,
        jobs: by.odds(0.5) ? [...jobs].reverse() : [...jobs, { id: `j${jobs.length + 1}`, answers: {} }],
      };
    default: {
      const turn = by.whole(Math.max(1, jobs.length));
      return {
        ...wanted,
        jobs: jobs.map((job, i) =>
          i === turn ? { ...job, answers: { ...job.answers, ...randomAnswers(by, asks, 0.3) } } : job,
        ),
      };
    }
  }
}

const seeds = Array.from({ length: 16 }, (_, i) => i + 1);
test.each(seeds)("a run of edits and answers leaves the page with the whole snapshot, seed %i", (seed) => {
  const by = chance(seed);
  const { text, asks } = randomBook(by, 8, true);
  const page = pageAndWorker();
  let wanted: Wanted = {
    text,
    accepted: text,
    jobs: [
      { id: "j1", answers: randomAnswers(by, asks) },
      { id: "j2", answers: {} },
    ],
    units: "book",
  };
  for (let turn = 0; turn < 20; turn += 1) {
    const { snapshot } = page.show(wanted);
    expect(still(snapshot), `seed ${seed}, turn ${turn}`).toEqual(still(whole(wanted)));
    wanted = step(by, wanted, asks);
  }
});

test("the same for a layer over another book, whose rows stand in two texts", () => {
  const by = chance(77);
  const shelf = [shipped("road-panels"), shipped("common-sums")];
  const text = shipped("harbour-yard");
  const page = pageAndWorker();
  let wanted: Wanted = {
    text,
    accepted: text,
    jobs: [{ id: "j1", answers: { substrate: "hand-laid" } }],
    units: "book",
    shelf,
  };
  expect(page.show(wanted).snapshot.under.length).toBeGreaterThan(0);
  for (let turn = 0; turn < 4; turn += 1) {
    const at = by.whole(wanted.text.length);
    wanted = {
      ...wanted,
      text: wanted.text.slice(0, at) + by.pick(["2", "\n", "x"]) + wanted.text.slice(at),
    };
    expect(still(page.show(wanted).snapshot), `turn ${turn}`).toEqual(still(whole(wanted)));
  }
});

const text = shipped("road-panels");
const first = snapshotOf(emptyCache(), { text, accepted: text, jobs: [], units: "book" });
const answers: Answers = [...first.worked].sort(
  (a, b) => Object.keys(b.answers).length - Object.keys(a.answers).length,
)[0]!.answers;
const wanted: Wanted = { text, accepted: text, jobs: [{ id: "j1", answers }], units: "book" };
const [ask] = Object.keys(answers);
const { [ask!]: _taken, ...fewer } = answers;

test("on the shipped book one answer is sent as one answer, and comes back as the cells that changed", () => {
  const page = pageAndWorker();
  const { reply: opened } = page.show(wanted);
  const { request, reply } = page.show({ ...wanted, jobs: [{ id: "j1", answers: fewer }] });
  expect(bytes(request)).toBeLessThan(200);
  expect(bytes(reply)).toBeLessThan(bytes(opened) / 10);
  // How long it took is among them, unless it took exactly as long as before.
  const { took: _took, ...changed } = (reply as { delta: { fields: Record<string, unknown> } }).delta.fields;
  expect(Object.keys(changed)).toEqual(["jobs"]);
});

test("on the shipped book what did not change is the very same object on the page", () => {
  const page = pageAndWorker();
  const { snapshot: old } = page.show(wanted);
  const { snapshot } = page.show({ ...wanted, jobs: [{ id: "j1", answers: fewer }] });
  expect(snapshot.rows).toBe(old.rows);
  expect(snapshot.worked).toBe(old.worked);
  expect(snapshot.jobs["j1"]).not.toBe(old.jobs["j1"]);
});

test("on the shipped book a word typed at the top moves all places and is a small reply", () => {
  const page = pageAndWorker();
  const { reply: opened } = page.show(wanted);
  const longer = { ...wanted, text: `-- One more word\n${text}`, accepted: `-- One more word\n${text}` };
  const { request, reply, snapshot } = page.show(longer);
  expect(bytes(request)).toBeLessThan(400);
  expect(bytes(reply)).toBeLessThan(bytes(opened) / 100);
  expect(still(snapshot)).toEqual(still(whole(longer)));
});

test("on the shipped book a book that the worker holds by its hash is sent once", () => {
  const page = pageAndWorker();
  const other = shipped("trailer-panels");
  const job = (of: string, hash: string): Wanted => ({ ...wanted, text: of, accepted: of, hash });
  page.show(job(text, "a"));
  page.show(job(other, "b"));
  const { request, snapshot } = page.show(job(text, "a"));
  expect(bytes(request)).toBeLessThan(200);
  expect(still(snapshot)).toEqual(still(whole(job(text, "a"))));
});

test("a worker that holds nothing says so, and gives a whole snapshot once all is sent", () => {
  const page = pageAndWorker();
  page.show(wanted);
  page.restart();
  const missed = (() => {
    try {
      return page.show({ ...wanted, units: "us" });
    } catch (cause) {
      return (cause as Error).name;
    }
  })();
  expect(missed).toBe(missedVersion);
  page.copy.forget();
  const { reply, snapshot } = page.show({ ...wanted, units: "us" });
  expect(reply).toHaveProperty("snapshot");
  expect(still(snapshot)).toEqual(still(whole({ ...wanted, units: "us" })));
});

test("a text that is asked about is named by a version, and the worker finds that text", async () => {
  const page = pageAndWorker();
  page.show(wanted);
  const crossed: unknown[] = [];
  const engine = page.copy.naming({
    why: (...given: readonly unknown[]) => {
      crossed.push(...given);
      return Promise.resolve(undefined);
    },
  } as never);
  const draft = `${text.slice(0, 5000)}a draft${text.slice(5000)}`;
  await engine.why(draft, { id: "j1", answers }, "method", "deciding", "book");
  expect(bytes(crossed[0])).toBeLessThan(100);
  expect(textOf(page.versions(), crossed[0] as never)).toBe(draft);
  expect(crossed.slice(1)).toEqual([{ id: "j1", answers }, "method", "deciding", "book"]);
});

describe("deltas of plain data", () => {
  const plain = fc.object({
    maxDepth: 4,
    key: fc.constantFrom("id", "name", "a", "b", "__proto__", "toString"),
    values: [
      fc.string(),
      fc.integer(),
      fc.constantFrom(null, true, Number.NaN),
      fc.string({ minLength: 190 }),
    ],
  });
  const list = fc.array(fc.record({ id: fc.constantFrom("x", "y", "z", "w"), of: plain }), { maxLength: 8 });

  test("applied to the first value they give the second", () => {
    fc.assert(
      fc.property(fc.oneof(plain, list), fc.oneof(plain, list), (before, after) => {
        const made = applyDelta<unknown>(structuredClone(before), structuredClone(deltaOf(before, after)));
        expect(made).toEqual(after);
        // Written out they are alike too: the order of names counts.
        expect(JSON.stringify(made)).toBe(JSON.stringify(after));
        expect(deltaOf(before, structuredClone(before))).toBeUndefined();
      }),
      { numRuns: 200 },
    );
  });

  test("one splice makes any text of any other", () => {
    fc.assert(
      fc.property(fc.string(), fc.string(), (before, after) => {
        expect(spliced(before, spliceOf(before, after))).toBe(after);
      }),
    );
  });
});
