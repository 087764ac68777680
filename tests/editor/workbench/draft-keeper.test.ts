// The draft of the open book against a host that keeps versions and merges as the real one does: what is
// typed gets there, what another saves comes here, and no line of either is lost, whatever comes in between.
import { expect, test, vi } from "vitest";
import type { Choice } from "../../../core/merge.ts";
import { mergeTexts } from "../../../core/merge.ts";
import type { Made } from "../../../editor/workbench/store/draft-keeper.ts";
import { keepDrafts } from "../../../editor/workbench/store/draft-keeper.ts";
import type { HostClient } from "../../../editor/client/storage/host-client.ts";
import { HostRefusal } from "../../../editor/client/storage/host-client.ts";
import { chance } from "../../support/chance.ts";

type Client = Pick<HostClient, "draft" | "saveDraft" | "draftVersion">;

/** Keeps versions of one draft; `away` makes it silent, `signedOut` has it know nobody. */
function fakeHost() {
  const versions: { readonly text: string; readonly who: string }[] = [];
  const heard: ((version: number, who: string, device: string) => void)[] = [];
  const host = { away: false, signedOut: false, versions, heard };
  const reach = async (): Promise<void> => {
    await Promise.resolve();
    if (host.away) throw new HostRefusal(0, "The shop's host cannot be reached.");
    if (host.signedOut) throw new HostRefusal(401, "The host does not know who you are.");
  };
  const client = (who: string): Client => ({
    draft: async (book) => {
      await reach();
      const last = versions.at(-1);
      if (last === undefined) throw new HostRefusal(404, "There is no draft.");
      return { book, version: versions.length, text: last.text, print: "", who: last.who, at: 0, open: [] };
    },
    draftVersion: async (_book, version) => {
      await reach();
      return versions[version - 1]!.text;
    },
    saveDraft: async (_book, { base, text, device }) => {
      await reach();
      const last = versions.at(-1);
      if (last?.text === text) return { saved: { version: versions.length, print: "", at: 0 } };
      if (base !== versions.length)
        return {
          conflict: {
            says: "",
            theirs: { version: versions.length, text: last!.text, who: last!.who, at: 0 },
            ...((merged) => ({ merged: merged.text, clashes: [...merged.clashes] }))(
              mergeTexts(versions[base - 1]?.text ?? "", text, last!.text),
            ),
          },
        };
      versions.push({ text, who });
      const version = versions.length;
      for (const hear of heard) hear(version, who, device ?? "");
      return { saved: { version, print: "", at: 0 } };
    },
  });
  return Object.assign(host, { client });
}

function person(
  host: ReturnType<typeof fakeHost>,
  who: string,
  text: string,
  notes = new Map<string, Made>(),
) {
  const desk = { text, told: [] as string[] };
  const keeper = keepDrafts({
    client: host.client(who),
    device: who,
    text: () => desk.text,
    take: (to) => {
      if (to !== desk.text) {
        desk.text = to;
        keeper.typed();
      }
    },
    tell: (says) => desk.told.push(says),
    changed: () => undefined,
    made: (key) => notes.get(key),
    setMade: (key, made) => {
      notes.set(key, made);
    },
    rest: 100,
  });
  host.heard.push((version, by, device) => keeper.hear({ is: "draft", book: "b", version, who: by, device }));
  keeper.open("key", "b");
  return {
    desk,
    keeper,
    notes,
    type: (to: string) => {
      desk.text = to;
      keeper.typed();
    },
  };
}

const first = 'book b, edition 1\n    "Title"\n\nfigure a = 1\n\nfigure b = 2\n\nfigure c = 3\n';
const settle = (): Promise<unknown> => vi.advanceTimersByTimeAsync(40_000);

test("what is typed is saved when the hand rests; a book that is only opened is not", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  const ilse = person(host, "Ilse", first);
  await settle();
  expect([host.versions.length, ilse.keeper.state()?.is]).toEqual([0, "none"]);
  ilse.type(first.replace("a = 1", "a = 10"));
  ilse.type(first.replace("a = 1", "a = 11"));
  expect(ilse.keeper.state()?.is).toBe("keeping");
  await settle();
  expect(host.versions).toEqual([{ text: first.replace("a = 1", "a = 11"), who: "Ilse" }]);
  expect(ilse.keeper.state()).toMatchObject({ is: "kept", version: 1 });
});

test("another's save comes here; changes in different statements go together by themselves", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first, who: "Ilse" });
  const [ilse, odo] = [person(host, "Ilse", first), person(host, "Odo", first)];
  await settle();
  ilse.type(first.replace("a = 1", "a = 10"));
  await settle();
  expect(odo.desk).toEqual({
    text: first.replace("a = 1", "a = 10"),
    told: ["Ilse saved version 2 of b. It stands here now."],
  });
  // Both type before either is saved.
  ilse.type(ilse.desk.text.replace("b = 2", "b = 20"));
  odo.type(odo.desk.text.replace("c = 3", "c = 30"));
  await settle();
  const both = first.replace("a = 1", "a = 10").replace("b = 2", "b = 20").replace("c = 3", "c = 30");
  expect([ilse.desk.text, odo.desk.text, host.versions.at(-1)!.text]).toEqual([both, both, both]);
});

test.each<[Choice, string]>([
  ["mine", "a = 12"],
  ["theirs", "a = 11"],
  ["both", "figure a = 11\n\nfigure a = 12"],
])("one statement changed by both waits for a person: %s", async (choice, stands) => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first, who: "Ilse" });
  const [ilse, odo] = [person(host, "Ilse", first), person(host, "Odo", first)];
  await settle();
  ilse.type(first.replace("a = 1", "a = 11"));
  odo.type(first.replace("a = 1", "a = 12").replace("c = 3", "c = 30"));
  await settle();
  expect([host.versions.length, odo.keeper.state()?.is, odo.desk.text.includes("a = 12")]).toEqual([
    2,
    "clash",
    true,
  ]);
  // The other goes on meanwhile; what is typed here too.
  ilse.type(ilse.desk.text.replace("b = 2", "b = 20"));
  odo.type(`${odo.desk.text}\nfigure d = 4\n`);
  await settle();
  const { base, theirs } = odo.keeper.state()!;
  const merged = mergeTexts(base, odo.desk.text, theirs!.text, () => choice);
  expect(merged.clashes).toHaveLength(1);
  odo.keeper.settle(merged.text);
  await settle();
  for (const line of [stands, "b = 20", "c = 30", "d = 4"])
    expect(host.versions.at(-1)!.text).toContain(line);
  expect([ilse.desk.text, odo.desk.text]).toEqual([host.versions.at(-1)!.text, host.versions.at(-1)!.text]);
  expect(odo.keeper.state()).toMatchObject({ is: "kept", version: host.versions.length });
});

test("a host that is away gets it later, also after the page was closed", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first, who: "Ilse" });
  const odo = person(host, "Odo", first);
  await settle();
  host.away = true;
  const typed = first.replace("a = 1", "a = 10");
  odo.type(typed);
  await settle();
  expect([odo.keeper.state()?.is, host.versions.length]).toEqual(["waiting", 1]);
  odo.keeper.open("", undefined);
  host.away = false;
  host.versions.push({ text: first.replace("c = 3", "c = 30"), who: "Ilse" });
  const again = person(host, "Odo", typed, odo.notes);
  await settle();
  expect([again.desk.text, host.versions.at(-1)!.text]).toEqual([
    typed.replace("c = 3", "c = 30"),
    typed.replace("c = 3", "c = 30"),
  ]);
});

test("a draft that has nothing to do with this text is never written over unasked", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first.replace("Title", "Another"), who: "Ilse" });
  const odo = person(host, "Odo", first);
  await settle();
  odo.type(first.replace("a = 1", "a = 10"));
  await settle();
  expect([odo.keeper.state()?.is, host.versions.length]).toEqual(["apart", 1]);
  odo.keeper.goOnWith("mine");
  await settle();
  expect(host.versions.map((one) => one.who)).toEqual(["Ilse", "Odo"]);
});

test("two hands at random: every statement that either wrote last stands at both in the end", async () => {
  vi.useFakeTimers();
  for (let seed = 1; seed <= 30; seed += 1) {
    const luck = chance(seed);
    const host = fakeHost();
    host.versions.push({ text: first, who: "Ilse" });
    const two = [person(host, "Ilse", first), person(host, "Odo", first)] as const;
    await settle();
    const written: string[] = [];
    for (let step = 0; step < 25; step += 1) {
      const who = luck.whole(2);
      const one = two[who]!;
      const line = `figure n${step}-${who} = ${luck.whole(1000)}`;
      const statements = one.desk.text.trimEnd().split("\n\n");
      statements.splice(1 + luck.whole(statements.length), 0, line);
      written.push(line);
      if (luck.odds(0.1)) host.away = true;
      else if (luck.odds(0.5)) host.away = false;
      one.type(`${statements.join("\n\n")}\n`);
      await vi.advanceTimersByTimeAsync(luck.whole(160));
    }
    host.away = false;
    for (let turn = 0; turn < 4; turn += 1) await settle();
    expect(
      two.map((one) => one.keeper.state()?.is),
      `seed ${seed}`,
    ).toEqual(["kept", "kept"]);
    expect(two[0].desk.text).toBe(two[1].desk.text);
    for (const line of written)
      expect(
        two[0].desk.text.split("\n").filter((one) => one === line),
        `seed ${seed}: ${line}`,
      ).toHaveLength(1);
  }
});

test("a session that ends while someone types loses nothing: what is typed waits", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first, who: "Ilse" });
  const ilse = person(host, "Ilse", first);
  await settle();
  ilse.type(first.replace("a = 1", "a = 10"));
  await settle();
  host.signedOut = true;
  ilse.type(ilse.desk.text.replace("b = 2", "b = 20"));
  await settle();
  ilse.type(ilse.desk.text.replace("c = 3", "c = 30"));
  await settle();
  expect([ilse.keeper.state()?.is, host.versions.length, ilse.notes.get("key")]).toEqual([
    "signed-out",
    2,
    { book: "b", version: 2, typed: true },
  ]);
  // Meanwhile another changes something else.
  host.signedOut = false;
  const odo = person(
    host,
    "Odo",
    host.versions.at(-1)!.text,
    new Map([["key", { book: "b", version: 2, typed: false }]]),
  );
  await settle();
  odo.type(`${odo.desk.text}\nfigure d = 4\n`);
  await settle();
  // Signed in again: in this page, or by a new load of it.
  const anew = person(host, "Ilse", ilse.desk.text, new Map(ilse.notes));
  ilse.keeper.again();
  await settle();
  for (const line of ["a = 10", "b = 20", "c = 30", "d = 4"])
    for (const text of [host.versions.at(-1)!.text, ilse.desk.text, anew.desk.text])
      expect(text).toContain(line);
  expect([ilse.keeper.state()?.is, anew.keeper.state()?.is]).toEqual(["kept", "kept"]);
});

test("with a host away from the beginning, what the text was made from stays known", async () => {
  vi.useFakeTimers();
  const host = fakeHost();
  host.versions.push({ text: first, who: "Ilse" });
  host.away = true;
  const ilse = person(host, "Ilse", first, new Map([["key", { book: "b", version: 1, typed: false }]]));
  await settle();
  ilse.type(first.replace("a = 1", "a = 10"));
  expect(ilse.notes.get("key")).toEqual({ book: "b", version: 1, typed: true });
  host.away = false;
  await settle();
  expect([ilse.keeper.state()?.is, host.versions.at(-1)!.text]).toEqual([
    "kept",
    first.replace("a = 1", "a = 10"),
  ]);
});
