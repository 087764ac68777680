// What a job is follows from its entries alone: laws over entries made up at random, as two tablets would
// deliver them.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldJob } from "../../core/record.ts";
import type { CardRecord, Deed, JobEntry } from "../../core/record.ts";
import { jobEntries } from "../../core/schemas/record.ts";
import { cardDifferences, cardOf } from "../../core/compare-card.ts";
import type { CardLine, JobView } from "../../core/view.ts";

const job = "11111111-1111-4111-8111-111111111111";
const print = "ab".repeat(32);
const card: CardRecord = {
  state: "ready",
  engine: "1",
  values: [{ name: "bevel", text: "30 mm" }],
  stops: [],
  cautions: ["Dust"],
  steps: ["Wash", "Grind"],
};
const few = fc.constantFrom("a", "b", "c");
const maybe = <T>(of: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(of, { nil: undefined });

const deed: fc.Arbitrary<Deed> = fc.oneof(
  fc.record({
    does: fc.constant("begin" as const),
    book: fc.constant({ name: "panels", print, sealed: false }),
    title: fc.constantFrom("", "Van", "Bus"),
  }),
  fc.record({
    does: fc.constant("answer" as const),
    ask: few,
    text: maybe(fc.constantFrom("1 mm", "2 mm", "3 mm")),
  }),
  fc.record({ does: fc.constant("tick" as const), step: few, text: maybe(few) }),
  fc.record({
    does: fc.constant("used" as const),
    line: few,
    what: maybe(few),
    amount: maybe(few),
    lot: maybe(few),
  }),
  fc.record({
    does: fc.constant("photo" as const),
    photo: fc.constantFrom(print, "cd".repeat(32)),
    type: maybe(fc.constant("image/jpeg")),
    shows: maybe(fc.constantFrom("before" as const, "after" as const)),
  }),
  fc.record({ does: fc.constant("note" as const), line: few, text: maybe(few) }),
  fc.record({
    does: fc.constant("timer" as const),
    timer: few,
    ends: maybe(fc.integer({ min: 0, max: 1000 })),
  }),
);
// Few moments, so that many deeds of two devices fall into one.
const entries = (of: fc.Arbitrary<Deed>): fc.Arbitrary<readonly JobEntry[]> =>
  fc
    .uniqueArray(fc.record({ id: fc.uuid(), at: fc.integer({ min: 1, max: 12 }), device: few, deed: of }), {
      selector: (one) => one.id,
      maxLength: 30,
    })
    .map((made) =>
      made.map(({ id, at, device, deed: what }): JobEntry => ({ ...what, id, job, at, device })),
    );
const withSign = fc.oneof(
  { arbitrary: deed, weight: 12 },
  { arbitrary: fc.constant<Deed>({ does: "sign", name: "N. N.", card }), weight: 1 },
);
const known = (thing: unknown): unknown => JSON.parse(JSON.stringify(thing));

describe("a job is what its entries make it", () => {
  it("in any order, and however often each arrives", () => {
    fc.assert(
      fc.property(
        entries(withSign).chain((all) =>
          fc.tuple(
            fc.constant(all),
            fc.shuffledSubarray([...all, ...all, ...all], { minLength: all.length * 3 }),
          ),
        ),
        ([all, mixed]) => {
          expect(foldJob(job, mixed)).toEqual(foldJob(job, all));
        },
      ),
    );
  });
  it("whether the entries of two tablets come one tablet after the other or one by one", () => {
    fc.assert(
      fc.property(entries(deed), fc.infiniteStream(fc.boolean()), (all, which) => {
        const mine = all.filter(() => which.next().value);
        const theirs = all.filter((entry) => !mine.includes(entry));
        expect(foldJob(job, [...theirs, ...mine])).toEqual(foldJob(job, [...mine, ...theirs]));
      }),
    );
  });
  it("of two deeds about one thing the later holds, and taking back takes away", () => {
    fc.assert(
      fc.property(entries(deed), few, (all, ask) => {
        const later = (text?: string): JobEntry => ({
          id: "ffffffff-ffff-4fff-bfff-ffffffffffff",
          job,
          at: 99,
          device: "z",
          does: "answer",
          ask,
          ...(text === undefined ? {} : { text }),
        });
        expect(foldJob(job, [...all, later("9 mm")]).answers[ask]).toBe("9 mm");
        expect(foldJob(job, [...all, later()]).answers).not.toHaveProperty(ask);
      }),
    );
  });
  it("entries of another job change nothing", () => {
    fc.assert(
      fc.property(entries(withSign), entries(withSign), (all, others) => {
        const away = others.map((entry) => ({ ...entry, job: "22222222-2222-4222-8222-222222222222" }));
        expect(foldJob(job, [...away, ...all])).toEqual(foldJob(job, all));
      }),
    );
  });
  it("after the signing nothing but the list of late entries changes", () => {
    fc.assert(
      fc.property(entries(deed), entries(withSign), (before, late) => {
        const signing: JobEntry = {
          id: "99999999-9999-4999-8999-999999999999",
          job,
          at: 50,
          device: "a",
          does: "sign",
          name: "N. N.",
          card,
        };
        const after = late
          .filter((entry) => !before.some((one) => one.id === entry.id))
          .map((entry) => ({ ...entry, at: entry.at + 100 }));
        const signed = foldJob(job, [...before, signing]);
        const then = foldJob(job, [...after, signing, ...before]);
        expect({ ...then, after: [], changed: 0 }).toEqual({ ...signed, after: [], changed: 0 });
        expect(then.after.map((entry) => entry.id).sort()).toEqual(after.map((entry) => entry.id).sort());
      }),
    );
  });
  it("every entry that a page can make passes the border, unchanged", () => {
    fc.assert(
      fc.property(entries(withSign), (all) => {
        expect(known(jobEntries.parse(known(all)))).toEqual(known(all));
      }),
    );
  });
});

describe("a signed card worked again", () => {
  const line = (text: string): CardLine => ({ id: `step ${text}`, text, pieces: [text] });
  const view: JobView = {
    state: "ready",
    values: [
      { name: "bevel", state: "known", text: "30 mm", value: 30, unit: "mm" },
      { name: "air", state: "unknown", text: "waits", value: null, unit: null },
    ],
    steps: [line("Wash"), line("Grind")],
    cautions: [line("Dust")],
    stops: [],
    waiting: [],
    findings: [],
    broken: [],
  };
  it("is kept as it stood and is the same when nothing changed", () => {
    expect(cardOf(view, "1")).toEqual(card);
    expect(cardDifferences(card, cardOf(view, "2"))).toEqual([]);
  });
  it("keeps a caution that may apply apart, and notices where it comes or goes", () => {
    const heat = { ...line("Heat"), mayApply: ["air"] };
    const signed = cardOf({ ...view, cautions: [line("Dust"), heat] }, "1");
    expect(signed).toEqual({ ...card, mayApply: ["Heat"] });
    expect(cardDifferences(signed, signed)).toEqual([]);
    expect(cardDifferences(card, signed)).toEqual([{ of: "caution", name: "", now: "Heat" }]);
    expect(cardDifferences(signed, card)).toEqual([{ of: "caution", name: "", then: "Heat" }]);
  });
  it("names exactly what comes out otherwise", () => {
    const now: JobView = {
      ...view,
      state: "stopped",
      values: [
        { ...view.values[0]!, text: "35 mm" },
        { name: "new", state: "known", text: "1", value: 1, unit: null },
      ],
      steps: [line("Wash"), line("Polish")],
    };
    expect(cardDifferences(card, cardOf(now, "1"))).toEqual([
      { of: "state", name: "", then: "ready", now: "stopped" },
      { of: "value", name: "bevel", then: "30 mm", now: "35 mm" },
      { of: "value", name: "new", now: "1" },
      { of: "step", name: "", then: "Grind" },
      { of: "step", name: "", now: "Polish" },
    ]);
    expect(
      cardDifferences(card, cardOf({ ...view, steps: [line("Grind"), line("Wash")] }, "1")).map(
        (one) => one.name,
      ),
    ).toEqual(["1", "2"]);
  });
});
