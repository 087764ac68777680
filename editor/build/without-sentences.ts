// The technician's page reads books and never shows what is wrong in one, only how many faults it has. Its
// engine goes without the sentences of the findings and without the advice for who writes a book.
import { readFileSync } from "node:fs";
import type { Plugin } from "vite";

/** The kinds of findings in a source file as the formatter lays them out, each with an empty sentence. */
export function withoutSentences(source: string): string {
  const kinds = source.match(/^ {2}(?: {2}|\{ )code: "/gm)?.length ?? 0;
  let done = 0;
  const empty = (begins: string, ends: string): string => {
    done += 1;
    return `${begins}says: () => ""${ends}`;
  };
  const short = source
    .replace(/^( {2}\{ code: "[^"]+", weight: "\w+", )says: .*( \},)$/gm, (_, begins, ends) =>
      empty(begins, ends),
    )
    .replace(/^( {4})says: [\s\S]*?(,\n {2}\},)$/gm, (_, begins, ends) => empty(begins, ends));
  if (kinds === 0 || done !== kinds)
    throw new Error(`${kinds} findings and ${done} sentences: the source is not laid out as expected.`);
  return short;
}

const advice = 'export const instead = () => ""; export const unexpected = () => "";';

/** `folder`: where the kinds of findings are, ending with a slash. */
export const readsOnly = (folder: string): Plugin => ({
  name: "reads-only",
  apply: "build",
  load(file) {
    if (file === `${folder}hints.ts`) return advice;
    const kinds = ["amounts", "book", "charts", "layers", "names", "writing"];
    return kinds.some((kind) => file === `${folder}${kind}.ts`)
      ? { code: withoutSentences(readFileSync(file, "utf8")), moduleType: "ts" }
      : undefined;
  },
});
