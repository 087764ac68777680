// Which jobs of the device a search finds: every word has to stand somewhere in what the job says, however it
// is spelled in capitals or accents.
import type { JobRecord } from "../../../core/record.ts";

export type Which = "all" | "open" | "signed";

export function findJobs(jobs: readonly JobRecord[], typed: string, which: Which): readonly JobRecord[] {
  const words = plain(typed)
    .split(/\s+/)
    .filter((word) => word !== "");
  return jobs.filter(
    (job) =>
      (which === "all" || (which === "signed") === (job.signed !== undefined)) &&
      (words.length === 0 || hasAll(plain(saysOf(job)), words)),
  );
}

const hasAll = (text: string, words: readonly string[]): boolean =>
  words.every((word) => text.includes(word));
const plain = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

function saysOf(job: JobRecord): string {
  return [
    job.title,
    job.book?.name ?? "",
    job.signed?.name ?? "",
    job.signed?.note ?? "",
    ...Object.values(job.answers),
    ...job.used.flatMap((line) => [line.what, line.amount, line.lot, line.note]),
    ...job.notes.map((note) => note.text),
    ...job.photos.map((photo) => photo.caption),
  ].join("\n");
}
