// bevelbook why: how a value came about, as an outline in text or as data.
import { showJob, why, workJob } from "../../engine/index.ts";
import type { TraceView } from "../../core/view.ts";
import { SHELF_SAYS, readBookWithOthers, shelfOption } from "./book-resolver.ts";
import { CallError, type Command, hasErrors, print, printJson, readJob } from "./call.ts";
import { bookErrors, unitSystem } from "./work.ts";

export const whyCommand: Command = {
  usage: "BOOK NAME --job FILE [--full] [--units book|metric|us] [--shelf FOLDER] [--json]",
  says:
    "Prints why a value, step, caution or stop came out as it did: the deciding facts, or everything with " +
    `--full. Exit 1 if an answer cannot be used, 3 if the book has errors. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    job: { type: "string" },
    full: { type: "boolean" },
    units: { type: "string" },
    json: { type: "boolean" },
  },
  run: async ([file, ...names], options, io) => {
    const { job, full, units, json } = options;
    const name = names.length === 0 ? undefined : names.join(" ").replace(/^refer /, "stop ");
    if (name === undefined)
      throw new CallError("Name the value to ask about: bevelbook why BOOK NAME --job FILE.");
    const system = unitSystem(units);
    const answers = await readJob(io, job as string | undefined);
    const book = await readBookWithOthers(io, file, options);
    const worked = workJob(book, answers);
    const trace = why(worked, name, full ? "full" : "deciding", system);
    if (trace === undefined) throw new CallError(`${book.name || "The book"} has nothing called “${name}”.`);
    if (json) printJson(io, trace);
    else print(io, outline(trace, book.under.length > 0));
    if (!hasErrors(book)) return showJob(worked).findings.length > 0 ? 1 : 0;
    if (!json) print(io, `\n${bookErrors(book)}`);
    return 3;
  },
};

/** Each step is written out once; where another rests on it as well, it is only named. */
function outline(trace: TraceView, layered = false): string {
  const out: string[] = [];
  const written = new Set<number>();
  const write = (number: number, depth: number) => {
    const step = trace.steps[number]!;
    const seen = written.has(number);
    written.add(number);
    const is = step.state === "known" ? "is" : "—";
    const above = seen && step.rests.length > 0 ? " (see above)" : "";
    out.push(`${"  ".repeat(depth)}${step.name} ${is} ${step.value}${above}`);
    if (seen) return;
    for (const line of details(step, layered)) out.push(`${"  ".repeat(depth + 1)}${line}`);
    for (const next of step.rests) write(next, depth + 1);
  };
  write(0, 0);
  return out.join("\n");
}

function details(step: TraceView["steps"][number], layered: boolean): readonly string[] {
  const asked = step.does === "answer" || step.does === "unanswered";
  const lines: string[] = [];
  if (step.filled && step.filled !== step.value && step.does !== "answer") lines.push(`= ${step.filled}`);
  if (step.decided) lines.push(step.decided);
  if (step.because) lines.push(`because ${step.because}`);
  if (step.basis) lines.push(`from ${step.basis} (${step.layer})`);
  else if (layered && !asked) lines.push(`(${step.layer})`);
  return lines;
}
