// Finds and cuts the case files of the language: `# what it says`, then a book, then jobs with what they
// give.
//
//     # a fraction is one number
//     figure half in inch = 1/2 inch
//     ==
//     half: 1/2 inch
//     == depth 6 mm; skin smc
//     state: ready
//
// Books that it stands on come before it, each with a line `~~` behind it, where `use` and `amends` find
// them.
//
// A line `== ask answer; ask answer` is a job; below it stand only the lines that the case is about.
import { readFileSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { CardLine, JobView, TraceView, UnitSystem } from "../../core/view.ts";
import { type Job, readBook, showJob, why, workJob } from "../../engine/index.ts";
import { annotate, withoutMarks } from "./annotate.ts";

export interface Case {
  readonly file: string;
  readonly says: string;
  readonly text: string;
}

const FOLDER = new URL("../engine/language/cases/", import.meta.url);

export function allCases(): readonly Case[] {
  return readdirSync(fileURLToPath(FOLDER))
    .filter((name) => name.endsWith(".bevel-cases"))
    .sort()
    .flatMap((file) => {
      const [, ...parts] = `\n${readFileSync(new URL(file, FOLDER), "utf8")}`.split(/\n# /);
      return parts.map((part) => {
        const stop = part.indexOf("\n");
        return {
          file: file.replace(".bevel-cases", ""),
          says: part.slice(0, stop).trim(),
          text: part.slice(stop + 1).trimEnd(),
        };
      });
    });
}

/**
 * The case as it comes out: its book with findings drawn in, each job with what it gives. Right is what comes
 * back unchanged.
 */
export function redraw(text: string): string {
  const [books, ...jobs] = text.split(/\n(?===)/);
  const texts = books!.split(/^~~\n/m);
  const shelf = texts.slice(0, -1);
  const drawn = texts.at(-1)!;
  const book = readBook(withoutMarks(drawn), undefined, shelf);
  const told = jobs.map((part) => {
    const [head, ...lines] = part.split("\n");
    const { answers, units } = readHead(head!);
    const job = workJob(book, answers);
    const view = showJob(job, units);
    return [
      head,
      ...lines.flatMap((line) => outcome(job, view, line, units)).map((line) => line.trimEnd()),
    ].join("\n");
  });
  return [[...shelf, annotate(drawn, shelf)].join("~~\n"), ...told].join("\n");
}

/** `== ask answer; ask answer [us]`: the answers, and the units in which values are shown. */
function readHead(head: string): { readonly answers: Record<string, string>; readonly units: UnitSystem } {
  const units = /\[(us|metric)\]/.exec(head)?.[1] as UnitSystem | undefined;
  const given = head
    .replace(/^==/, "")
    .replace(/\[.*\]/, "")
    .split(";")
    .map((one) => one.trim())
    .filter((one) => one !== "");
  return {
    answers: Object.fromEntries(given.map((one) => [one.split(" ")[0]!, one.slice(one.indexOf(" ") + 1)])),
    units: units ?? "book",
  };
}

/**
 * What the job gives for one expected line; continuation lines (indented) belong to the line above and are
 * drawn anew with it.
 */
function outcome(job: Job, view: JobView, line: string, units: UnitSystem): readonly string[] {
  if (line.startsWith(" ") || line === "") return line === "" ? [line] : [];
  const name = line.slice(0, line.indexOf(":"));
  if (name === "state") return [`state: ${view.state}`];
  if (name === "waiting") return [`waiting: ${view.waiting.join(", ")}`];
  if (name === "steps") return [`steps: ${view.steps.map((one) => one.name).join(", ")}`];
  if (name === "cautions")
    return [`cautions: ${view.cautions.map((one) => one.name ?? one.text).join(", ")}`];
  if (name === "stops") return [`stops: ${view.stops.map((one) => one.name ?? one.text).join(", ")}`];
  if (name === "card") return ["card:", ...[...view.stops, ...view.cautions, ...view.steps].map(cardLine)];
  if (name === "answers") return ["answers:", ...view.findings.map((one) => `  ${one.code}: ${one.says}`)];
  if (name === "broken") return [`broken: ${view.broken.map((one) => one.says).join("; ")}`];
  if (name === "drawings")
    return [
      "drawings:",
      ...(view.pictures ?? []).map(
        (one) =>
          `  ${one.shape}${one.title ? ` “${one.title}”` : ""}: ${one.values
            .map(
              (value) =>
                `${value.argument} ${
                  value.rows
                    ? value.rows
                        .map((row) =>
                          Object.values(row)
                            .map((cell) => cell.text)
                            .join(" "),
                        )
                        .join(" | ")
                    : value.text
                }`,
            )
            .join(", ")}`,
      ),
    ];
  const asked = /^(why|full) (.+)$/.exec(name);
  if (asked !== null)
    return [
      `${name}:`,
      ...outline(
        why(job, asked[2]!, asked[1] === "why" ? "deciding" : "full", units),
        job.book.under.length > 0,
      ),
    ];
  const rows = /^rows of (.+)$/.exec(name)?.[1];
  const value = view.values.find((one) => one.name === (rows ?? name));
  if (value === undefined) return [`${name}: (no such value)`];
  if (rows !== undefined)
    return [
      `${name}:`,
      ...(Array.isArray(value.value) ? value.value : []).map(
        (row) => `  ${Object.values(row as object).join(" | ")}`,
      ),
    ];
  const mark = { known: "", unknown: "unknown, ", impossible: "impossible, " }[value.state];
  return [`${name}: ${mark}${value.text}`];
}

const cardLine = (line: CardLine): string =>
  `  ${line.id}: ${line.text}${line.layer ? ` {${line.layer}}` : ""}` +
  (line.takes ? `, takes ${line.takes}` : "") +
  (line.waits ? `, waits ${line.waits}` : "") +
  (line.because ? ` (${line.because})` : "") +
  (line.basis ? ` [${line.basis}]` : "");

/**
 * A trace, one line a step: number, name, value, what was filled in, what decided, and the numbers of what it
 * rests on.
 */
const outline = (trace: TraceView | undefined, layered: boolean): string[] =>
  (trace?.steps ?? []).map((step, i) =>
    [
      `  ${i} ${step.does} ${step.name}: ${step.value}${layered ? ` {${step.layer}}` : ""}`,
      step.filled && step.filled !== step.value ? `= ${step.filled}` : "",
      step.decided,
      step.because ? `because ${step.because}` : "",
      step.basis ? `from ${step.basis}` : "",
      step.rests.length > 0 ? `rests on ${step.rests.join(" ")}` : "",
    ]
      .filter((one) => one !== "")
      .join("; "),
  );
