// The job page's state and its controller, without a screen: which screen is shown, what the engine is asked,
// and what a newly sealed edition changes.
import "../../../editor/ui/words/all-words.ts";
import { describe, expect, it } from "vitest";
import type { JobRecord } from "../../../core/record.ts";
import type { EngineClient } from "../../../editor/client/engine/client.ts";
import type { JobPageCalls, Snapshot, Wanted } from "../../../editor/client/engine/messages.ts";
import { JobSession } from "../../../editor/technician/page/job-session.ts";
import { newsWords } from "../../../editor/technician/page/notices.tsx";
import type { PageState } from "../../../editor/technician/page/page-state.ts";
import {
  emptyPage,
  hasFirstScreen,
  newsOf,
  requestFor,
  screenOf,
  troubleOf,
} from "../../../editor/technician/page/page-state.ts";
import { createStore, until } from "../../../editor/technician/page/store.ts";
import { openDeviceJobs } from "../../../editor/technician/store/device-jobs.ts";
import type { SealedBook } from "../../../editor/technician/store/sealed-books.ts";
import { english } from "../../../editor/ui/words/words.ts";

const book = (print: string, text: string) => ({ print, name: "house", title: "House", text, at: 0 });
const snapshotOf = (text: string, ...jobs: string[]) =>
  ({ text, jobs: Object.fromEntries(jobs.map((job) => [job, { state: "waiting" }])) }) as unknown as Snapshot;
const page: PageState = { ...emptyPage, key: "house", text: "now", print: "p-now" };
const job = (more: Partial<JobRecord> = {}) => ({ id: "j", answers: {}, ...more }) as JobRecord;

describe("which screen is shown", () => {
  it("waits until the open job has been evaluated by its own book", () => {
    expect(screenOf(page, "j").is).toBe("reading");
    expect(screenOf({ ...page, snapshot: snapshotOf("before", "j") }, "j").is).toBe("reading");
    expect(screenOf({ ...page, snapshot: snapshotOf("now", "other") }, "j").is).toBe("reading");
    expect(screenOf({ ...page, snapshot: snapshotOf("now", "j") }, "j").is).toBe("job");
  });
  it("shows a job of another book by that book, and says so where the device does not have it", () => {
    const other = { print: "p-then", book: book("p-then", "then") };
    expect(screenOf({ ...page, other, snapshot: snapshotOf("now", "j") }, "j").is).toBe("reading");
    expect(screenOf({ ...page, other, snapshot: snapshotOf("then", "j") }, "j").is).toBe("job");
    expect(screenOf({ ...page, other: { ...other, book: undefined } }, "j").is).toBe("without-book");
  });
  it("puts the list of books before everything else", () => {
    expect(screenOf({ ...page, choosing: true, snapshot: snapshotOf("now", "j") }, "j").is).toBe("choosing");
  });
  it("counts the list, a job or a fault as the first screen", () => {
    expect(hasFirstScreen(page)).toBe(false);
    expect(hasFirstScreen({ ...page, choosing: true })).toBe(true);
    expect(hasFirstScreen({ ...page, snapshot: snapshotOf("now") })).toBe(true);
    expect(hasFirstScreen({ ...page, trouble: troubleOf("Nothing.") })).toBe(true);
  });
});

describe("what the engine is asked", () => {
  it("is the open job by the book of new jobs, with the texts that it depends on", () => {
    const request = requestFor({ ...page, shelf: ["base"] }, job({ answers: { thickness: "6 mm" } }))!;
    expect(request.wanted).toEqual({
      text: "now",
      accepted: "now",
      hash: "p-now",
      jobs: [{ id: "j", answers: { thickness: "6 mm" } }],
      units: "book",
      card: "j",
      shelf: ["base"],
    });
  });
  it("differs where answers, units or the book differ", () => {
    const same = (at: PageState, answers: JobRecord["answers"]) => requestFor(at, job({ answers }))!.sameAs;
    const first = same(page, { a: "1" });
    expect(same({ ...page, drafts: { a: { number: "2", unit: "mm", tolerance: "" } } }, { a: "1" })).toBe(
      first,
    );
    expect(same(page, { a: "2" })).not.toBe(first);
    expect(same({ ...page, units: "us" }, { a: "1" })).not.toBe(first);
    expect(same({ ...page, print: "p-next" }, { a: "1" })).not.toBe(first);
  });
  it("is nothing while the job's own book is looked up, or is not on the device", () => {
    const begun = job({ book: { name: "house", print: "p-then", sealed: true } });
    expect(requestFor(page, begun)).toBeUndefined();
    expect(requestFor({ ...page, other: { print: "p-then", book: undefined } }, begun)).toBeUndefined();
  });
});

describe("news of an edition", () => {
  const sealed = { print: "p-2", number: 2 } as SealedBook;
  it("is none where the page has the very text already", () => {
    expect(newsOf({ ...sealed, print: "p-now" }, page, job())).toBeUndefined();
  });
  it("says that a begun job stays with its book, by its edition where it has one", () => {
    const begun = job({ book: { name: "house", print: "p-1", edition: 1, sealed: true } });
    const said = (open: JobRecord) => newsWords(newsOf(sealed, page, open)!, english);
    expect(said(job())).toBe(english("page.sealed-now", { edition: 2 }));
    expect(said(begun)).toBe(english("page.sealed-from", { edition: 2, from: 1 }));
    expect(said({ ...begun, book: { ...begun.book!, edition: undefined } })).toBe(
      english("page.sealed", { edition: 2 }),
    );
  });
});

describe("trouble of the engine", () => {
  it("is told apart: stopped for its time, or failed with a reason", () => {
    expect(troubleOf("Working this out took too long.").key).toBe("page.restarted");
    expect(troubleOf("No memory. Your text is kept.")).toEqual({ key: "page.failed", reason: "No memory." });
  });
});

describe("a store", () => {
  it("is waited for until it is as wanted, and then no longer listened to", async () => {
    const store = createStore({ count: 0 });
    let calls = 0;
    const stop = store.subscribe(() => {
      calls += 1;
    });
    const reached = until(store, ({ count }) => count === 2);
    store.set({ count: 1 });
    store.set({ count: 2 });
    await reached;
    expect(calls).toBe(2);
    stop();
    store.set({ count: 3 });
    expect(calls).toBe(2);
  });
});

describe("the controller", () => {
  const edition = (number: number, text: string): SealedBook => ({
    name: "house",
    title: "House",
    number,
    print: `sealed ${number}`,
    text,
    under: [],
  });
  const open = async () => {
    const asked: Wanted[] = [];
    const engine = { show: (wanted: Wanted) => asked.push(wanted) } as unknown as EngineClient<JobPageCalls>;
    const state = createStore({ ...emptyPage, key: "house" });
    const jobs = await openDeviceJobs(undefined);
    return { asked, state, jobs, session: new JobSession({ page: state, engine, jobs, storage: undefined }) };
  };

  it("asks once for equal requests, and again after an answer", async () => {
    const { session, asked, jobs } = await open();
    await session.takeSealed({ books: [edition(1, "book house\n")], faulty: {} });
    expect(asked.map((one) => one.text)).toEqual(["book house\n"]);
    session.setUnits("book");
    expect(asked).toHaveLength(1);
    jobs.answer({ thickness: "6 mm" });
    expect(asked.at(-1)!.jobs[0]!.answers).toEqual({ thickness: "6 mm" });
  });

  it("keeps a begun job with its own edition when another is sealed; new ones take the new", async () => {
    const { session, asked, state, jobs } = await open();
    await session.takeSealed({ books: [edition(1, "book house\n")], faulty: {} });
    jobs.answer({ thickness: "6 mm" });
    await session.takeSealed({ books: [edition(2, "book house, edition 2\n")], faulty: {} });
    expect(state.get().news).toEqual({ edition: 2, begun: true, from: 1 });
    expect(state.get().text).toBe("book house, edition 2\n");
    // The text of the first edition was kept nowhere: the job is shown without being evaluated by the second.
    expect(screenOf(state.get(), jobs.state().open.id).is).toBe("without-book");
    session.beginJob({ thickness: "7 mm" });
    await until(state, (now) => now.other === undefined);
    expect(asked.at(-1)!.text).toBe("book house, edition 2\n");
    expect(jobs.state().open.answers).toEqual({ thickness: "7 mm" });
  });

  it("leaves another book alone", async () => {
    const { session, state } = await open();
    await session.takeSealed({ books: [{ ...edition(1, "book yard\n"), name: "yard" }], faulty: {} });
    expect(state.get().text).toBe("");
    expect(state.get().sealed.books).toHaveLength(1);
  });
});
