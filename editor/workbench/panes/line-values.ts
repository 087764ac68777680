// What each line of the text gives for one job, to be written at the line's end.
import type { Snapshot } from "../../client/engine/messages.ts";
import { cellOf, textOfCell } from "../sheet/cells.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";

/**
 * Lines counted from 1; rows without a value for the job are left out, and so are those of a book underneath,
 * which stand in another text.
 */
export function lineValuesFor(
  snapshot: Pick<Snapshot, "rows" | "text" | "jobs">,
  job: JobTag,
): readonly { readonly line: number; readonly text: string }[] {
  const view = snapshot.jobs[job.id];
  if (!view) return [];
  const values: { line: number; text: string }[] = [];
  let line = 1;
  let done = 0;
  // The sheet orders the lines of a layer as the whole book has them; here they are met as the text has them.
  const own = snapshot.rows.filter((row) => row.own).sort((a, b) => a.at.start - b.at.start);
  for (const row of own) {
    for (; done < row.at.start; done += 1) if (snapshot.text.charCodeAt(done) === 10) line += 1;
    const text = textOfCell(cellOf(row, job, view));
    if (text !== "") values.push({ line, text });
  }
  return values;
}
