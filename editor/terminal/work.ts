// bevelbook work: one job by one book, as a card in text or as data.
import { showJob, workJob } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";
import { namesOf } from "../../core/waiting-words.ts";
import type { CardLine, JobView, UnitSystem } from "../../core/view.ts";
import { SHELF_SAYS, readBookWithOthers, shelfOption, withEdition } from "./book-resolver.ts";
import {
  CallError,
  type Command,
  type Options,
  hasErrors,
  lineOf,
  print,
  printJson,
  readJob,
} from "./call.ts";

export const workCommand: Command = {
  usage: "BOOK --job FILE [--units book|metric|us] [--values] [--shelf FOLDER] [--json]",
  says:
    "Works a job (JSON of answers as they are typed) and prints its card. Exit 1 " +
    "if an answer cannot be used or " +
    `the job breaks a promise, 3 if the book has errors. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    job: { type: "string" },
    units: { type: "string" },
    values: { type: "boolean" },
    json: { type: "boolean" },
  },
  run: async ([file], options, io) => {
    const system = unitSystem(options["units"]);
    const answers = await readJob(io, options["job"] as string | undefined);
    const book = await readBookWithOthers(io, file, options);
    const view = showJob(workJob(book, answers), system);
    if (options["json"]) printJson(io, workData(book, view));
    else {
      print(io, card(heading(book), view, options["values"] === true));
      if (hasErrors(book)) print(io, `\n${bookErrors(book)}`);
    }
    if (hasErrors(book)) return 3;
    return view.findings.length > 0 || view.broken.length > 0 ? 1 : 0;
  },
};

/** As `workReport` in core/schemas/report.ts has it. */
function workData(book: Book, view: JobView) {
  const line = ({
    id,
    name,
    text,
    refers,
    then,
    because,
    basis,
    takes,
    waits,
    layer,
    mayApply,
  }: CardLine) => ({
    id,
    name,
    text,
    refers,
    then,
    because,
    basis,
    takes,
    waits,
    layer,
    mayApply,
  });
  return {
    book: book.name,
    edition: book.edition ?? null,
    state: view.state,
    values: Object.fromEntries(
      view.values.map(({ name, text, value, unit, state, waitsFor, reason }) => [
        name,
        { text, value, unit, state, waitsFor, reason },
      ]),
    ),
    steps: view.steps.map(line),
    cautions: view.cautions.map(line),
    stops: view.stops.map(line),
    waiting: view.waiting,
    oneOf: view.oneOf ?? [],
    findings: view.findings.map(({ code, ask, says }) => ({ code, ask, says })),
    blocked: (view.blocked ?? []).map(({ says, ids }) => ({ says, ids })),
    ...(view.doubts ? { doubts: doubtData(view.doubts) } : {}),
    broken: view.broken,
    bookFindings: book.findings.map(({ code, weight, at, says }) => ({
      code,
      weight,
      line: lineOf(book.text, at.start),
      says,
    })),
  };
}

const doubtData = ({ open, measureAgain, turnsAt }: NonNullable<JobView["doubts"]>) => ({
  open: open.map(({ id, says }) => ({ id, says })),
  measureAgain,
  turnsAt,
});

const MOST_ERRORS = 4;

/** That the book has errors, and which. */
export function bookErrors(book: Book): string {
  const errors = book.findings.filter((finding) => finding.weight === "error");
  const lines = errors
    .slice(0, MOST_ERRORS)
    .map(({ at, says }) => `  line ${lineOf(book.text, at.start)}: ${says}`);
  const more = errors.length > MOST_ERRORS ? [`  and ${errors.length - MOST_ERRORS} more`] : [];
  return [
    `${book.name || "The book"} has errors: mend them before this card is used (bevelbook check).`,
    ...lines,
    ...more,
  ].join("\n");
}

function heading(book: Book): string {
  if (book.name === "") return "The text names no book.";
  const amended = book.under.filter((one) => one.as === "amended").map((one) => `, on ${withEdition(one)}`);
  return `${withEdition(book)}${amended.join("")}: ${book.title}`;
}

export function unitSystem(units: Options[string]): UnitSystem {
  if (units === undefined) return "book";
  if (units === "book" || units === "metric" || units === "us") return units;
  throw new CallError(`Units are book, metric or us, not “${units}”.`);
}

/** A card in text: stops first, cautions next, then the steps with their times. */
export function card(title: string, view: JobView, values: boolean): string {
  const out = [
    title,
    "The material's label, local codes and licensed practice come before this card.",
    "",
    `This job is ${view.state}.`,
  ];
  const blocked = new Set((view.blocked ?? []).map(({ says }) => says));
  for (const { says } of view.findings) if (!blocked.has(says)) out.push(`  ! ${says}`);
  for (const broken of view.broken) out.push(`  ! This job breaks a promise of the book: ${broken.says}`);
  for (const { says, ids } of view.blocked ?? []) {
    const more = ids.length > 4 ? ` and ${ids.length - 4} more` : "";
    const mark = view.findings.some((finding) => finding.says === says) ? "! Answer again: " : "";
    out.push(`  ${mark}${says} (${ids.slice(0, 4).join(", ")}${more})`);
  }
  for (const one of view.doubts?.open ?? []) out.push(`  ? ${one.says}`);
  const turnsAt = view.doubts?.turnsAt;
  if (turnsAt) out.push(`    It turns at ${turnsAt.value}, ${turnsAt.away} from the answer.`);
  if (view.waiting.length > 0) out.push(`It waits for: ${namesOf(view.waiting, view.oneOf)}.`);
  const part = (heading: string, lines: readonly CardLine[], mark: (i: number) => string) => {
    if (lines.length === 0) return;
    out.push("", heading);
    lines.forEach((line, i) => {
      const times = [line.takes && `takes ${line.takes}`, line.waits && `then wait ${line.waits}`];
      const time = times.filter(Boolean).join(", ");
      const layer = line.layer === undefined ? "" : `  [${line.layer}]`;
      const open = line.mayApply === undefined ? "" : `may apply, waits for ${line.mayApply.join(", ")}: `;
      out.push(`  ${mark(i)} ${open}${line.text}${time ? ` (${time})` : ""}${layer}`);
      if (line.then !== undefined) out.push(`    now: ${line.then}`);
    });
  };
  const referred = (line: CardLine) => line.refers === true;
  part(
    "STOP",
    view.stops.filter((line) => !referred(line)),
    () => "x",
  );
  part("REFER", view.stops.filter(referred), () => ">");
  part("Cautions", view.cautions, () => "!");
  part("Steps", view.steps, (i) => `${i + 1}.`);
  if (values) out.push("", "Values", ...view.values.map((value) => `  ${value.name}: ${value.text}`));
  return out.join("\n");
}
