// Jobs laid alongside: the first ones of a book, their order, and writing one into the book as a worked
// example.
import { useEffect } from "react";
import type { WorkedView } from "../../core/view.ts";
import type { WorkbenchStore } from "./store/document.ts";
import type { JobTag } from "../client/storage/stored-work.ts";

/** A book opened for the first time gets three worked examples laid alongside. */
export function useFirstJobs(
  store: WorkbenchStore,
  bare: boolean,
  worked: readonly WorkedView[] | undefined,
): void {
  useEffect(() => {
    if (bare && worked && worked.length > 0)
      store.layFirst(
        fullest(worked, 3).map((one, n) => ({
          id: `j${n + 1}`,
          name: one.name,
          answers: one.answers,
          from: one.name,
        })),
      );
  }, [store, bare, worked]);
}

/** The examples with the most answers, in the book's order: they show the most. */
function fullest(worked: readonly WorkedView[], count: number): readonly WorkedView[] {
  const most = [...worked]
    .sort((a, b) => Object.keys(b.answers).length - Object.keys(a.answers).length)
    .slice(0, count);
  return worked.filter((one) => most.includes(one));
}

export async function writeAsExample(store: WorkbenchStore, job: JobTag): Promise<void> {
  const outline = await store.outline();
  const view = store.state().snapshot?.jobs[job.id];
  if (!outline || !view) return;
  const { text, rows } = outline;
  const ends = new Set(
    rows
      .filter(
        (row) =>
          (row.keyword === "figure" || row.keyword === "chart") &&
          row.usedBy.every((user) => user.startsWith("step") || user.startsWith("worked")),
      )
      .map((row) => row.name),
  );
  const gives = view.values
    .filter(
      (shown) => shown.state === "known" && (ends.has(shown.name) || ends.has(shown.name.split(".")[0])),
    )
    .map((shown) => shown.name)
    .slice(0, 6);
  const taken = new Set(rows.flatMap((row) => (row.keyword === "worked" ? (row.name ?? []) : [])));
  const wish =
    job.name
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^[-\d]+|-+$/gu, "") || "example";
  let name = wish;
  for (let n = 2; taken.has(name); n += 1) name = `${wish}-${n}`;
  const statement = await store.ask((engine) => engine.workedFrom(text, job, name, job.name, gives));
  if (statement === undefined) return;
  const last = rows.filter((row) => row.keyword === "worked").at(-1) ?? rows.at(-1);
  if (await store.statement({ does: "insert", after: last?.id, statement }))
    store.tell(`Wrote the worked example ${name} into the book.`);
}

export function freshId(jobs: readonly JobTag[]): string {
  for (let n = jobs.length + 1; ; n += 1) if (!jobs.some((job) => job.id === `j${n}`)) return `j${n}`;
}

export function movedJob(jobs: readonly JobTag[], id: string, by: -1 | 1): readonly JobTag[] {
  const from = jobs.findIndex((job) => job.id === id);
  const to = from + by;
  const job = jobs[from];
  if (!job || to < 0 || to >= jobs.length) return jobs;
  const rest = jobs.filter((one) => one.id !== id);
  return [...rest.slice(0, to), job, ...rest.slice(to)];
}
