// The page's way to its worker: the newest wish wins, a worker that does not answer is replaced and sent
// everything again, and a worker that lost a version is sent it whole.
import { expect, test, vi } from "vitest";
import { emptyCache } from "../../../editor/client/engine/held-books.ts";
import { startEngine } from "../../../editor/client/engine/client.ts";
import type { JobCalls, Snapshot, UpdateRequest, Wanted } from "../../../editor/client/engine/messages.ts";
import { noVersions, textOf, update } from "../../../editor/client/engine/versions.ts";

const book = (size: number): string => `book small, edition 1
    "A small book"

ask length in mm, 0 to 100
    "How long?"
${Array.from({ length: size }, (_, i) => `\nfigure twice-${i} = length * ${i + 2}\n    "Twice"\n`).join("")}`;
const wanted = (text: string): Wanted => ({
  text,
  accepted: text,
  jobs: [{ id: "j1", answers: { length: "4 mm" } }],
  units: "book",
});

interface Call {
  readonly id: number;
  readonly name: string;
  readonly given: readonly unknown[];
}

/** A worker in this process that may be silent, and may lose what it holds. */
function fakeWorker() {
  const calls: Call[] = [];
  const state = { silent: false, ended: false, versions: noVersions(emptyCache()), calls };
  let hear: (event: { data: unknown }) => void = () => undefined;
  const answer = ({ id, name, given }: Call): unknown => {
    try {
      const [first] = given;
      if (name === "update") return { id, answer: update(state.versions, first as UpdateRequest) };
      const text = typeof first === "string" ? first : textOf(state.versions, first as never);
      return { id, answer: text.length };
    } catch (cause) {
      const { name: sort, message } = cause as Error;
      return { id, failed: { name: sort, message } };
    }
  };
  const worker = {
    addEventListener: (_: string, listener: typeof hear) => {
      hear = listener;
    },
    postMessage: (call: Call) => {
      calls.push(structuredClone(call));
      if (!state.silent) setTimeout(() => hear({ data: structuredClone(answer(structuredClone(call))) }), 1);
    },
    terminate: () => {
      state.ended = true;
      hear = () => undefined;
    },
  };
  return Object.assign(state, { worker: worker as unknown as Worker });
}

function page(waitFor?: number) {
  const workers: ReturnType<typeof fakeWorker>[] = [];
  const shown: Snapshot[] = [];
  const troubles: string[] = [];
  let nextSilent = false;
  const client = startEngine<JobCalls>(
    () => {
      const made = fakeWorker();
      made.silent = nextSilent;
      nextSilent = false;
      workers.push(made);
      return made.worker;
    },
    {
      snapshot: (snapshot) => shown.push(snapshot),
      busy: () => undefined,
      trouble: (says) => troubles.push(says),
    },
    waitFor,
  );
  return { client, workers, shown, troubles };
}

test("while one snapshot is worked only the newest wish waits", async () => {
  const { client, shown } = page();
  for (const size of [1, 2, 3, 4]) client.show(wanted(book(size)));
  await vi.waitFor(() => expect(shown.map((one) => one.text)).toEqual([book(1), book(4)]));
  expect(shown[1]!.rows).toHaveLength(6);
  client.close();
});

test("a silent worker is replaced, said in one sentence, and the new one is sent everything", async () => {
  const { client, workers, shown, troubles } = page(60);
  client.show(wanted(book(30)));
  await vi.waitFor(() => expect(shown).toHaveLength(1));
  workers[0]!.silent = true;
  client.show({ ...wanted(book(30)), units: "us" });
  await vi.waitFor(() => expect(shown).toHaveLength(2), { timeout: 2000 });
  expect(workers).toHaveLength(2);
  expect(workers[0]!.ended).toBe(true);
  expect(troubles).toEqual([expect.stringContaining("took too long")]);
  expect(workers[1]!.calls[0]!.given[0]).not.toHaveProperty("base");
  expect(shown[1]).toMatchObject({ units: "us", text: book(30) });
  client.close();
});

test("a worker that lost the version is sent everything, and nobody is told", async () => {
  const { client, workers, shown, troubles } = page();
  client.show(wanted(book(30)));
  await vi.waitFor(() => expect(shown).toHaveLength(1));
  workers[0]!.versions = noVersions(emptyCache());
  client.show({ ...wanted(book(30)), units: "us" });
  await vi.waitFor(() => expect(shown).toHaveLength(2));
  expect(workers[0]!.calls.map((call) => Object.hasOwn(call.given[0] as object, "base"))).toEqual([
    false,
    true,
    false,
  ]);
  expect(troubles).toEqual([]);
  client.close();
});

test("a question names its text by a version, or sends it whole where the worker lost that", async () => {
  const { client, workers, shown } = page();
  const text = book(30);
  client.show(wanted(text));
  await vi.waitFor(() => expect(shown).toHaveLength(1));
  const ask = () => client.ask((to) => to.closeCalls(`${text}\n`, { id: "j1", answers: {} }));
  expect(await ask()).toBe(text.length + 1);
  expect(JSON.stringify(workers[0]!.calls.at(-1)).length).toBeLessThan(200);
  workers[0]!.versions = noVersions(emptyCache());
  expect(await ask()).toBe(text.length + 1);
  expect(workers[0]!.calls.at(-1)!.given[0]).toBe(`${text}\n`);
  client.close();
});
