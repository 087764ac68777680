// `npm run bench host [seconds]`: fifty tablets that save at once, one after another without a pause, and
// lists over many jobs and editions; over a file and over a PostgreSQL server, through a real socket to a
// host in a process of its own.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { deliver } from "../../editor/host/database/job-table.ts";
import { seal } from "../../editor/host/database/editions.ts";
import { sha256 } from "../../editor/host/database/log-chain.ts";
import { type DatabasePlace, openDatabase } from "../../editor/host/database/database.ts";
import { verifyLog } from "../../editor/host/database/verify.ts";
import { startServer } from "../editor/host/support/postgres.ts";
import { jobEntries } from "../editor/host/support/records.ts";
import { chance } from "../support/chance.ts";

const tablets = 50;
const seconds = Number(process.argv[2] ?? 120);
const jobs = 10_000;
const editions = 200;
if (!(seconds > 0)) {
  console.error("Give the seconds as a number.");
  process.exit(2);
}

const server = await startServer();
try {
  for (const name of ["a file", "a server"] as const) {
    const data = mkdtempSync(join(tmpdir(), "bevelbook-bench-"));
    try {
      const place: DatabasePlace = {
        data,
        ...(name === "a server" ? { database: await server.database() } : {}),
      };
      console.log(`\nOver ${name}`);
      await savingAtOnce(place);
      await lists(
        name === "a server" ? { data, database: await server.database() } : { data: join(data, "lists") },
      );
    } finally {
      rmSync(data, { recursive: true, force: true });
    }
  }
} finally {
  await server.stop();
}

async function savingAtOnce(place: DatabasePlace): Promise<void> {
  const { address, close } = await hostOn(place);
  const times: number[] = [];
  const sent = new Set<string>();
  let [errors, entries] = [0, 0];
  // The connections first: a tablet opens one and keeps it.
  await Promise.all(Array.from({ length: tablets }, async () => (await fetch(`${address}api/hello`)).text()));
  const end = performance.now() + seconds * 1000;
  await Promise.all(
    Array.from({ length: tablets }, async (_, tablet) => {
      const luck = chance(1000 + tablet);
      while (performance.now() < end) {
        const made = jobEntries(
          luck,
          { name: "bench", edition: 1, print: sha256("bench"), sealed: true },
          Date.now(),
        );
        // As a technician saves: each thing as it is done.
        for (const entry of made) {
          const began = performance.now();
          if (began >= end) break;
          try {
            const answer = await fetch(`${address}api/jobs/entries`, {
              method: "POST",
              headers: { "Content-Type": "application/json" },
              body: JSON.stringify({ entries: [entry] }),
            });
            const { taken } = (await answer.json()) as { taken?: string[] };
            if (!answer.ok || taken?.length !== 1) errors += 1;
            else {
              sent.add(entry.id);
              entries += 1;
            }
          } catch {
            errors += 1;
          }
          times.push(performance.now() - began);
        }
      }
    }),
  );
  await close();
  const database = await openDatabase(place);
  const there = new Set(
    (await database.db.selectFrom("job_entries").select("id").execute()).map((row) => row.id),
  );
  const lost = [...sent].filter((id) => !there.has(id)).length;
  const { holds } = await verifyLog(database);
  await database.close();
  console.log(
    `  ${tablets} tablets saving without a pause for ${seconds} s: ${entries} saves ` +
      `(${Math.round(entries / seconds)} a second), median ${share(times, 0.5)}, ` +
      `p99 ${share(times, 0.99)}, longest ${share(times, 1)}`,
  );
  console.log(`  errors ${errors}, acknowledged and lost ${lost}, the log ${holds ? "holds" : "IS BROKEN"}`);
  if (errors > 0 || lost > 0 || !holds) process.exitCode = 1;
}

async function lists(place: DatabasePlace): Promise<void> {
  const database = await openDatabase(place);
  const luck = chance(7);
  for (let done = 0; done < jobs; done += 50)
    await deliver(
      database,
      { name: "the bench" },
      Array.from({ length: 50 }, (_, i) =>
        jobEntries(
          luck,
          { name: `book-${luck.whole(20)}`, edition: 1, print: sha256(`${i % 20}`), sealed: true },
          Date.UTC(2026, 0, 1) + (done + i) * 600_000,
        ),
      ).flat(),
    );
  for (let i = 0; i < editions; i += 1) {
    const text =
      `book book-${i % 20}, edition ${1 + Math.floor(i / 20)}\n    ` +
      `"Book ${i % 20}"\n${"-- what a rule may say\n".repeat(800)}`;
    await seal(database, "the bench", {
      book: `book-${i % 20}`,
      number: 1 + Math.floor(i / 20),
      title: `Book ${i % 20}`,
      print: sha256(text),
      text,
      stands: [],
      why: `Change ${i}`,
      standing: { goals: 0, proved: 0, done: true, engine: "bench" },
      faults: [],
    });
  }
  await database.close();
  const { address, close } = await hostOn(place);
  console.log(`  ${jobs} jobs and ${editions} editions:`);
  const middle = ((await (await fetch(`${address}api/jobs?limit=500`)).json()) as { next: string }).next;
  for (const [says, path] of [
    ["the newest 50 jobs", "jobs"],
    ["a page further back", `jobs?before=${middle}`],
    ["a lot that one job has", "jobs?search=LOT-4242"],
    ["two words that many have", "jobs?search=wing+resin"],
    ["nothing that any has", "jobs?search=zzzz"],
    ["jobs of one book", "jobs?book=book-7"],
    ["all books", "books"],
    ["200 editions", "editions?limit=200"],
    ["editions by a word", "editions?search=Change+17"],
  ] as const) {
    const times: number[] = [];
    for (let i = 0; i < 60; i += 1) {
      const began = performance.now();
      const answer = await fetch(`${address}api/${path}`);
      await answer.text();
      if (!answer.ok) {
        console.log(`  ${says}: ${answer.status}`);
        process.exitCode = 1;
      }
      times.push(performance.now() - began);
    }
    console.log(
      `    ${says.padEnd(26)} median ${share(times, 0.5).padStart(8)}, p99 ${share(times, 0.99).padStart(8)}`,
    );
  }
  await close();
}

async function hostOn(place: DatabasePlace): Promise<{ address: string; close(): Promise<void> }> {
  const child: ChildProcess = spawn(
    process.execPath,
    [
      "--import",
      "tsx",
      fileURLToPath(new URL("host-child.ts", import.meta.url)),
      place.data,
      ...(place.database === undefined ? [] : [place.database]),
    ],
    { cwd: fileURLToPath(new URL("../..", import.meta.url)), stdio: ["ignore", "pipe", "inherit"] },
  );
  const address = await new Promise<string>((resolve, reject) => {
    child.stdout!.once("data", (chunk: Buffer) => resolve(chunk.toString().trim()));
    child.once("exit", () => reject(new Error("The host did not open.")));
  });
  return {
    address,
    close: () =>
      new Promise((resolve) => {
        child.once("exit", () => resolve());
        child.kill("SIGTERM");
      }),
  };
}

function share(times: readonly number[], part: number): string {
  const sorted = [...times].sort((a, b) => a - b);
  const time = sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0;
  return `${time < 10 ? time.toFixed(1) : Math.round(time)} ms`;
}
