// Delivery from a tablet to the shop's host: each thing once, with pauses, and never in silence.
import { describe, expect, it } from "vitest";
import type { JobEntry } from "../../../core/record.ts";
import { pauseAfter, startDelivery } from "../../../editor/technician/store/deliver.ts";
import type { Delivery } from "../../../editor/technician/store/deliver.ts";
import type { RecordStorage } from "../../../editor/technician/store/record-storage.ts";
import { answerOf, entry, settle, shelfOf } from "./support/shelf.ts";

describe("delivery", () => {
  const start = (
    storage: RecordStorage,
    send: typeof fetch,
    now: () => number = () => 0,
    hello: () => Response = () => answerOf("no", 404),
  ) => {
    const said: Delivery[] = [];
    let again = (): void => undefined;
    const deliverer = startDelivery(storage, (state) => said.push(state), {
      send: async (address, request) => {
        if (address === "/api/hello") return hello();
        return send(address, request);
      },
      now,
      hear: (hear) => {
        again = hear;
        return () => undefined;
      },
    });
    return { said, deliverer, again: () => again() };
  };
  it("brings each entry once, in portions of at most 500, and is then empty", async () => {
    const shelf = shelfOf();
    const entries = Array.from({ length: 1203 }, (_, n) => entry(n));
    await shelf.add(entries);
    const got: string[] = [];
    const sizes: number[] = [];
    const { said } = start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      sizes.push(sent.length);
      got.push(...sent.map((one) => one.id));
      return answerOf({ taken: sent.map((one) => one.id), known: [], refused: [] });
    });
    await settle();
    expect(got.sort()).toEqual(entries.map((one) => one.id).sort());
    expect(Math.max(...sizes)).toBe(500);
    expect(said.at(-1)).toMatchObject({ host: "there", waiting: 0, last: 0 });
  });
  it("the text of a book goes before the entries that rest on it, photographs after", async () => {
    const shelf = shelfOf();
    await shelf.addPhoto({ photo: "ab", blob: new Blob(["x"], { type: "image/jpeg" }) });
    await shelf.add([entry(1)]);
    await shelf.addBook({ print: "cd", name: "b", title: "", text: "book b, edition 1", at: 1 });
    const asked: string[] = [];
    start(shelf, async (address, request) => {
      asked.push(`${request?.method} ${String(address)}`);
      return answerOf({
        taken: [...shelf.out].filter((key) => key.startsWith("entry ")).map((key) => key.slice(6)),
        known: [],
        refused: [],
      });
    });
    await settle();
    expect(asked).toEqual(["PUT /api/texts/cd", "POST /api/jobs/entries", "PUT /api/photos/ab"]);
    expect(shelf.out.size).toBe(0);
  });
  it("without a host it asks again after a pause, and what waits is counted", async () => {
    const shelf = shelfOf();
    await shelf.add([entry(1)]);
    let asked = 0;
    let now = 0;
    let up = false;
    const { said, deliverer, again } = start(
      shelf,
      async () => {
        asked += 1;
        return up ? answerOf({ taken: [...shelf.kept.keys()], known: [], refused: [] }) : answerOf("no", 404);
      },
      () => now,
    );
    await settle();
    again();
    deliverer.wake();
    await settle();
    expect(asked).toBe(1);
    expect(said.at(-1)).toMatchObject({ host: "none", waiting: 1 });
    now = pauseAfter(1);
    up = true;
    again();
    await settle();
    expect(said.at(-1)).toMatchObject({ host: "there", waiting: 0 });
    expect(shelf.out.size).toBe(0);
  });
  it("once there has been a host, a page of the network is no reason to stop", async () => {
    for (const strange of [
      () => answerOf("no", 404),
      () => answerOf("no", 405),
      () => new Response("<html>Welcome to the network", { status: 200 }),
      () => new Response("<html>", { status: 302 }),
    ]) {
      const shelf = shelfOf();
      let now = 0;
      let portal = false;
      const { said, deliverer, again } = start(
        shelf,
        async () =>
          portal ? strange() : answerOf({ taken: [...shelf.kept.keys()], known: [], refused: [] }),
        () => now,
      );
      await shelf.add([entry(1)]);
      deliverer.wake();
      await settle();
      expect(said.at(-1)).toMatchObject({ host: "there", waiting: 0 });
      portal = true;
      await shelf.add([entry(2)]);
      await shelf.addPhoto({ photo: "ab", blob: new Blob(["x"], { type: "image/jpeg" }) });
      await shelf.addBook({ print: "cd", name: "b", title: "", text: "book b, edition 1", at: 1 });
      deliverer.wake();
      await settle();
      expect(said.at(-1)).toMatchObject({ host: "away", waiting: 2, unwanted: 0 });
      expect(shelf.out.size).toBe(3);
      // Also after the page was loaded anew.
      const { said: later } = start(shelf, async () => strange());
      await settle();
      expect(later.at(-1)).toMatchObject({ host: "away", waiting: 2 });
      portal = false;
      now = pauseAfter(1);
      again();
      await settle();
      expect(shelf.out.size).toBe(0);
    }
  });
  it("an entry on which the host breaks is found by halving and set aside; the others come", async () => {
    const shelf = shelfOf();
    const all = Array.from({ length: 20 }, (_, n) => entry(n));
    await shelf.add(all);
    const bad = new Set([all[7]!.id, all[8]!.id]);
    const { said } = start(
      shelf,
      async (_address, request) => {
        const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
        return sent.some((one) => bad.has(one.id))
          ? answerOf({ says: "The host made a mistake with this." }, 500)
          : answerOf({ taken: sent.map((one) => one.id), known: [], refused: [] });
      },
      () => 0,
      () => answerOf({ program: "bevelbook", asked: false, you: { name: "this desk" } }),
    );
    await settle();
    expect([...shelf.out]).toEqual([...bad].map((id) => `entry ${id}`));
    expect(said.at(-1)).toMatchObject({ host: "there", waiting: 0, unwanted: 2 });
  });
  it("a host that breaks on everything is away, and nothing is set aside", async () => {
    const shelf = shelfOf();
    await shelf.add([entry(1), entry(2)]);
    const { said } = start(
      shelf,
      async () => answerOf("no", 500),
      () => 0,
      () => answerOf("no", 500),
    );
    await settle();
    expect(said.at(-1)).toMatchObject({ host: "away", waiting: 2, unwanted: 0 });
  });
  it("who is signed in is known, and forgotten once nobody is", async () => {
    const shelf = shelfOf();
    const as = (name: string) =>
      answerOf({ program: "bevelbook", asked: true, you: { name, role: "technician" } });
    await shelf.add([entry(0)]);
    const taken = (by?: string) => answerOf({ taken: [...shelf.kept.keys()], known: [], refused: [], by });
    const first = start(shelf, async () => taken("Anna Vane"));
    await settle();
    expect(first.said.at(-1)).toMatchObject({ person: "Anna Vane" });
    // Loaded anew without a network: the one of before.
    const second = start(shelf, async () => {
      throw new TypeError("no network");
    });
    await settle();
    expect(second.said.at(-1)).toMatchObject({ person: "Anna Vane" });
    // Somebody else has signed in meanwhile.
    const other = start(
      shelf,
      async () => taken(),
      () => 0,
      () => as("Bo Hale"),
    );
    await settle();
    expect(other.said.at(-1)).toMatchObject({ person: "Bo Hale" });
    await shelf.add([entry(1)]);
    const third = start(
      shelf,
      async () => answerOf({ says: "who?" }, 401),
      () => 0,
      () => answerOf({ says: "who?" }, 401),
    );
    await settle();
    expect(third.said.at(-1)).toMatchObject({ host: "refused", waiting: 1, person: undefined });
    const fourth = start(
      shelf,
      async (_address, request) => {
        const { sent } = JSON.parse(String(request?.body)) as { sent: number };
        return answerOf({
          taken: [...shelf.kept.keys()],
          known: [],
          refused: [],
          at: sent + 60_000,
          by: "Bo",
        });
      },
      () => 5,
    );
    await settle();
    expect(fourth.said.at(-1)).toMatchObject({ person: "Bo", skew: -60_000 });
  });
  it("waits longer after each failure, up to ten minutes, and keeps everything meanwhile", async () => {
    const shelf = shelfOf();
    await shelf.add([entry(1)]);
    let now = 0;
    let up = false;
    let asked = 0;
    const { again } = start(
      shelf,
      async (_address, request) => {
        asked += 1;
        if (!up) throw new TypeError("no network");
        return answerOf({
          taken: (JSON.parse(String(request?.body)) as { entries: JobEntry[] }).entries.map((one) => one.id),
          known: [],
          refused: [],
        });
      },
      () => now,
    );
    await settle();
    again();
    await settle();
    expect(asked).toBe(1);
    now = pauseAfter(1);
    up = true;
    again();
    await settle();
    expect(asked).toBe(2);
    expect(shelf.out.size).toBe(0);
    expect([1, 2, 3, 20].map(pauseAfter)).toEqual([5000, 10_000, 20_000, 600_000]);
  });
  it("an entry that the host has is done with; one that it refuses stays, alone", async () => {
    const shelf = shelfOf();
    const [known, bad, fresh] = [entry(1), entry(2), entry(3)] as const;
    await shelf.add([known, bad, fresh]);
    const { said } = start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      return answerOf({
        taken: sent.filter((one) => one.id === fresh.id).map((one) => one.id),
        known: sent.filter((one) => one.id === known.id).map((one) => one.id),
        refused: sent.flatMap((one, place) => (one.id === bad.id ? [{ place, id: one.id, says: "no" }] : [])),
      });
    });
    await settle();
    expect([...shelf.out]).toEqual([`entry ${bad.id}`]);
    expect(said.at(-1)).toMatchObject({ waiting: 0, unwanted: 1 });
  });
  it("a delivery refused as a whole is halved until the one entry is found", async () => {
    const shelf = shelfOf();
    const all = Array.from({ length: 37 }, (_, n) => entry(n));
    await shelf.add(all);
    const bad = all[23]!;
    start(shelf, async (_address, request) => {
      const { entries: sent } = JSON.parse(String(request?.body)) as { entries: JobEntry[] };
      return sent.some((one) => one.id === bad.id)
        ? answerOf({ says: "no" }, 413)
        : answerOf({ taken: sent.map((one) => one.id), known: [], refused: [] });
    });
    await settle();
    expect([...shelf.out]).toEqual([`entry ${bad.id}`]);
  });
  it("who has to sign in is told so; a page of some other host is no host", async () => {
    for (const [answer, host] of [
      [answerOf({ says: "who?" }, 401), "refused"],
      [new Response("<html>", { status: 200 }), "none"],
    ] as const) {
      const shelf = shelfOf();
      await shelf.add([entry(1)]);
      const { said } = start(shelf, async () => answer);
      await settle();
      expect(said.at(-1)?.host).toBe(host);
      expect(shelf.out.size).toBe(1);
    }
  });
});
