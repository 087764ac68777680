// bevelbook why: how a value came about, as an outline in text or as data.
import { why, workJob } from "../../engine/index.ts";
import type { TraceView } from "../../core/view.ts";
import { SHELF_SAYS, readBookAtHand, shelfOption } from "./book-resolver.ts";
import { CallError, type Command, hasErrors, print, printJson, readJob } from "./call.ts";
import { unitSystem } from "./work.ts";

export const whyCommand: Command = {
  usage: "BOOK NAME --job FILE [--full] [--units book|metric|us] [--shelf FOLDER] [--json]",
  says: `Prints why a value, step, caution or stop came out as it did: the deciding facts, or everything with --full. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    job: { type: "string" },
    full: { type: "boolean" },
    units: { type: "string" },
    json: { type: "boolean" },
  },
  run: async ([file, name], { job: jobFile, full, units, json, shelf }) => {
    if (name === undefined)
      throw new CallError("Name the value to ask about: bevelbook why BOOK NAME --job FILE.");
    const system = unitSystem(units);
    const answers = await readJob(jobFile as string | undefined);
    const book = await readBookAtHand(file, shelf);
    const trace = why(workJob(book, answers), name, full ? "full" : "deciding", system);
    if (trace === undefined) throw new CallError(`${book.name || "The book"} has nothing called “${name}”.`);
    if (json) printJson(trace);
    else print(outline(trace, book.under.length > 0));
    return hasErrors(book) ? 1 : 0;
  },
};

/** Each step stands once; where it is rested on again, it is only named. */
function outline(trace: TraceView, layered = false): string {
  const out: string[] = [];
  const told = new Set<number>();
  const tell = (number: number, depth: number) => {
    const step = trace.steps[number]!;
    const pad = "  ".repeat(depth);
    const seen = told.has(number);
    told.add(number);
    out.push(
      `${pad}${step.name} ${step.state === "known" ? "is" : "—"} ${step.value}${seen && step.rests.length > 0 ? " (see above)" : ""}`,
    );
    if (seen) return;
    const filled =
      step.filled && step.filled !== step.value && step.does !== "answer"
        ? `${pad}  = ${step.filled}`
        : undefined;
    if (filled) out.push(filled);
    if (step.decided) out.push(`${pad}  ${step.decided}`);
    if (step.because) out.push(`${pad}  because ${step.because}`);
    if (step.basis) out.push(`${pad}  from ${step.basis} (${step.layer})`);
    else if (layered && step.does !== "answer" && step.does !== "unanswered")
      out.push(`${pad}  (${step.layer})`);
    for (const next of step.rests) tell(next, depth + 1);
  };
  tell(0, 0);
  return out.join("\n");
}
