// Writes that go to the disk together: one that is refused takes nothing back but itself.
import { describe, expect, test } from "vitest";
import { openDatabase } from "../../../editor/host/database/database.ts";
import { Trouble } from "../../../editor/host/trouble.ts";
import { verifyLog } from "../../../editor/host/database/verify.ts";
import { bothPlaces } from "./support/places.ts";

describe.each(bothPlaces)("over $name", ({ fresh }) => {
  test("of a hundred at once each third is refused after it wrote; the others are there once", async () => {
    const database = await openDatabase(await fresh());
    try {
      const outcomes = await Promise.allSettled(
        Array.from({ length: 100 }, (_, i) =>
          database.write("a test", async (tx, tell) => {
            await tx
              .insertInto("books")
              .values({ name: `b${i}`, title: "", begun: 0 })
              .execute();
            await tell("test", { i });
            if (i % 3 === 0) throw new Trouble(409, `no ${i}`);
            // A fault of the database itself is refused alike.
            if (i % 3 === 1 && i > 90)
              await tx
                .insertInto("books")
                .values({ name: `b${i}`, title: "", begun: 0 })
                .execute();
            return i;
          }),
        ),
      );
      const good = (i: number): boolean => i % 3 !== 0 && !(i % 3 === 1 && i > 90);
      outcomes.forEach((outcome, i) => {
        expect(outcome.status, String(i)).toBe(good(i) ? "fulfilled" : "rejected");
        if (outcome.status === "fulfilled") expect(outcome.value).toBe(i);
      });
      expect((outcomes[3] as PromiseRejectedResult).reason.message).toBe("no 3");
      const names = (await database.db.selectFrom("books").select("name").execute())
        .map((row) => row.name)
        .sort();
      expect(names).toEqual(
        Array.from({ length: 100 }, (_, i) => i)
          .filter(good)
          .map((i) => `b${i}`)
          .sort(),
      );
      const told = (await database.db.selectFrom("log").select("body").orderBy("seq").execute()).map(
        (row) => (JSON.parse(row.body) as { i: number }).i,
      );
      expect(told).toEqual(Array.from({ length: 100 }, (_, i) => i).filter(good));
      // The chain is whole; only the books that this test put there by hand are strange to it.
      const { troubles } = await verifyLog(database);
      expect(troubles.filter((one) => !/^The book b\d+ is listed otherwise|^and \d+ more/.test(one))).toEqual(
        [],
      );
    } finally {
      await database.close();
    }
  }, 60_000);
});
