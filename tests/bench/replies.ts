// What crosses between the workbench and its worker for one answer and for one edit: the request, and the
// reply beside the whole snapshot that it stands for. `npx tsx tests/bench/replies.ts .` prints it by itself.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { applyEdits } from "../../core/span.ts";
import { emptyCache, snapshotOf } from "../../editor/client/engine/held-books.ts";
import type { Wanted } from "../../editor/client/engine/messages.ts";
import { pageCopy } from "../../editor/client/engine/page-copy.ts";
import { noVersions, update } from "../../editor/client/engine/versions.ts";

const root = process.argv[2] ?? ".";
const text = readFileSync(join(root, "rulesets/road-panels.bevel"), "utf8");
const bytes = (data: unknown): number => Buffer.byteLength(JSON.stringify(data));
const kB = (of: number): string => `${(of / 1000).toFixed(1)} kB`.padStart(10);

/** The three worked examples with the most answers, as the workbench opens the book. */
const first = snapshotOf(emptyCache(), { text, accepted: text, jobs: [], units: "book" });
const jobs = [...first.worked]
  .sort((a, b) => Object.keys(b.answers).length - Object.keys(a.answers).length)
  .slice(0, 3)
  .map(({ answers }, i) => ({ id: `j${i + 1}`, answers }));
const opened: Wanted = { text, accepted: text, jobs, units: "book" };

const dial = first.rows.find((row) => row.name === "house-taper")!;
const edited = applyEdits(text, [{ at: dial.ruleAt!, text: dial.rule.replace("1:10", "1:11") }]);
if (edited === text) throw new Error("The dial of this bench is not in the book.");
const answered = jobs.map((job, i) =>
  i === 0 ? { ...job, answers: { ...job.answers, thickness: "7 mm" } } : job,
);

const versions = noVersions(emptyCache());
const copy = pageCopy();
const show = (wanted: Wanted) => {
  const request = copy.request(wanted);
  const reply = update(versions, request);
  return { request: bytes(request), reply: bytes(reply), whole: bytes(copy.take(reply)) };
};
console.log("\nBetween the workbench and its worker, road-panels with three jobs, as JSON");
console.log(`  ${"".padEnd(44)}${"request".padStart(10)}${"reply".padStart(10)}${"snapshot".padStart(10)}`);
for (const [name, wanted] of [
  ["the book is opened", opened],
  ["one answer of one job", { ...opened, jobs: answered }],
  ["one dial, changed from 1:10 to 1:11", { ...opened, jobs: answered, text: edited }],
  ["a comment of one line above all", { ...opened, jobs: answered, text: `-- A comment\n${edited}` }],
] as const) {
  const { request, reply, whole } = show(wanted);
  console.log(`  ${name.padEnd(44)}${kB(request)}${kB(reply)}${kB(whole)}`);
}
