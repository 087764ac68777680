// A shop of many years put on a shelf: jobs with all answers to the road panels, some of them signed, jobs of
// other books among them, and many editions of the book. Seeded; titles, lots and people are invented.
import { readFileSync } from "node:fs";
import { cardOf } from "../../../../core/compare-card.ts";
import { seal } from "../../../../editor/host/database/editions.ts";
import { deliver } from "../../../../editor/host/database/job-table.ts";
import { sha256 } from "../../../../editor/host/database/log-chain.ts";
import type { Database } from "../../../../editor/host/database/database.ts";
import { engineVersion, readBook, showJob, workJob } from "../../../../engine/index.ts";
import { plainJob, seeded, typedJob } from "../../../bench/jobs.ts";
import { chance } from "../../../support/chance.ts";
import { jobEntries } from "./records.ts";

const road = readFileSync(new URL("../../../../rulesets/road-panels.bevel", import.meta.url), "utf8");
const oneOf = 10;

/**
 * The road panels as edition `number` of the shop: every edition turns a dial or two, so that any two differ.
 */
export function roadEdition(number: number): string {
  const text = road
    .replace(/^(book road-panels, edition )\d+/m, `$1${number}`)
    .replace("dial house-taper = 1:10", `dial house-taper = 1:${10 + (number % 6)}`)
    .replace("dial waste = 10 %", `dial waste = ${5 + (number % 21)} %`)
    .replace("dial wage = 58 EUR/h", `dial wage = ${40 + (number % 61)} EUR/h`)
    .replace("dial wettest = 80 %", `dial wettest = ${60 + (number % 26)} %`);
  if (number % 6 !== 0 && !text.includes(`1:${10 + (number % 6)}, from`))
    throw new Error("The dials of the road panels are not where the editions turn them.");
  return text;
}

/** Answers to everything that the road panels ask, `count` times. */
function roadAnswers(count: number, seed = 5): readonly Readonly<Record<string, string>>[] {
  const next = seeded(seed);
  return Array.from({ length: count }, () => ({ ...typedJob(plainJob(next)) }) as Record<string, string>);
}

/**
 * `jobs` jobs of the road panels, the tenth part of them signed, and one more of another book to each ten;
 * `editions` sealed editions without the proof that a sealing runs. Gives the answers, the job delivered last
 * at the end.
 */
export async function fillShelf(
  database: Database,
  jobs: number,
  editions: number,
): Promise<readonly Readonly<Record<string, string>>[]> {
  for (let number = 1; number <= editions; number += 1) {
    const text = roadEdition(number);
    await seal(database, "Ilse Marrow", {
      book: "road-panels",
      number,
      title: "Road panels",
      print: sha256(text),
      text,
      stands: [],
      why: `Change ${number}: the taper, the waste and the wage as the winter showed.`,
      standing: { goals: 4, proved: 4, done: true, engine: engineVersion },
      faults: [],
    });
  }
  const luck = chance(11);
  const text = roadEdition(editions);
  const book = readBook(text);
  const ref = { name: "road-panels", edition: editions, print: sha256(text), sealed: true };
  const answers = roadAnswers(jobs);
  for (let done = 0; done < jobs; done += 25) {
    await deliver(
      database,
      { name: "the tablets" },
      answers.slice(done, done + 25).flatMap((one, n) => {
        const place = done + n;
        const begun = Date.UTC(2020, 0, 1) + place * 3_600_000;
        const card = place % oneOf === 0 ? cardOf(showJob(workJob(book, one)), engineVersion) : undefined;
        return [
          ...jobEntries(luck, ref, begun, card, one),
          ...(place % oneOf === 1
            ? jobEntries(
                luck,
                { name: "quay-panels", edition: 1, print: sha256("quay"), sealed: true },
                begun + 60_000,
              )
            : []),
        ];
      }),
    );
  }
  return answers;
}
