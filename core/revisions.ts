// What was entered behind a signature, each change beside what it changes: the signed job stays as it is, and
// whoever reads it sees both.
import type { JobRecord, KeptEntry } from "./record.ts";

export interface Revision {
  readonly entry: KeptEntry;
  /** What the entry is about: the name of an ask, or a line's; absent where it adds something. */
  readonly of?: string;
  /** As signed, or as an earlier revision had it; absent where there was nothing. */
  readonly was?: string;
  /** As this entry has it; absent where it takes something away. */
  readonly now?: string;
}

/** One for each entry behind the signing, in their order. */
export function revisionsOf(job: JobRecord): readonly Revision[] {
  const now = new Map<string, string>();
  for (const [ask, text] of Object.entries(job.answers)) now.set(`answer ${ask}`, text);
  for (const [step, text] of Object.entries(job.ticked)) now.set(`tick ${step}`, text);
  for (const [step, one] of Object.entries(job.left)) now.set(`leave ${step}`, one.reason);
  for (const one of job.used) now.set(`used ${one.line}`, usedWords(one));
  for (const one of job.photos) now.set(`photo ${one.photo}`, one.caption);
  for (const one of job.notes) now.set(`note ${one.line}`, one.text);
  return job.after.map((entry): Revision => {
    const said = saidBy(entry);
    if (said === undefined) return { entry };
    const was = now.get(said.key);
    if (said.text === undefined) now.delete(said.key);
    else now.set(said.key, said.text);
    return {
      entry,
      of: said.key.slice(said.key.indexOf(" ") + 1),
      ...(was === undefined ? {} : { was }),
      ...(said.text === undefined ? {} : { now: said.text }),
    };
  });
}

/** What an entry is about and what it says of it; undefined for what changes nothing of the kind. */
function saidBy(entry: KeptEntry): { readonly key: string; readonly text: string | undefined } | undefined {
  switch (entry.does) {
    case "answer":
      return { key: `answer ${entry.ask}`, text: entry.text };
    case "tick":
      return { key: `tick ${entry.step}`, text: entry.text };
    case "leave":
      return {
        key: `leave ${entry.step}`,
        text: entry.text === undefined ? undefined : (entry.reason ?? ""),
      };
    case "used":
      return { key: `used ${entry.line}`, text: entry.what === undefined ? undefined : usedWords(entry) };
    case "photo":
      return {
        key: `photo ${entry.photo}`,
        text: entry.type === undefined ? undefined : (entry.caption ?? ""),
      };
    case "note":
      return { key: `note ${entry.line}`, text: entry.text };
    case "begin":
    case "timer":
    case "sign":
      return undefined;
  }
}

interface UsedThing {
  readonly what?: string | undefined;
  readonly amount?: string | undefined;
  readonly lot?: string | undefined;
  readonly note?: string | undefined;
}

const usedWords = ({ what, amount, lot, note }: UsedThing): string =>
  [[amount, what].filter(Boolean).join(" "), lot && `lot ${lot}`, note].filter(Boolean).join(", ");
