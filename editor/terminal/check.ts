// bevelbook check: all findings of a book, each drawn under the text it points at; with --prove also what is
// proved of the book.
import type { Book } from "../../engine/index.ts";
import type { Finding } from "../../core/view.ts";
import {
  SHELF_SAYS,
  lineWords,
  placeIn,
  readBookWithOthers,
  shelfOption,
  withEdition,
} from "./book-resolver.ts";
import { CallError, type Command, type Options } from "./call.ts";
import { counted, lineOf, print, printJson } from "./call.ts";
import { type Proved, allProved, proveBook, provedData, provedText } from "./prove.ts";

export const checkCommand: Command = {
  usage: "BOOK [--prove [--guard] [--seconds N]] [--shelf FOLDER] [--json]",
  says:
    "Reads a book and prints all its findings; --prove also what it promises and owes, proved, broken or " +
    "not settled, and --guard how its examples guard it, for at most N seconds (60). Exit 1 if there are " +
    `errors or warnings, or if something is broken or not settled. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    json: { type: "boolean" },
    prove: { type: "boolean" },
    guard: { type: "boolean" },
    seconds: { type: "string" },
  },
  run: async ([file], options, io) => {
    const { json, prove, guard, seconds } = options;
    const time = secondsOf(seconds);
    if (!prove && (guard || seconds !== undefined))
      throw new CallError("--guard and --seconds belong to --prove: bevelbook check BOOK --prove.");
    const book = await readBookWithOthers(io, file, options);
    const progress = (says: string): void => {
      if (io.stderr.isTTY) io.stderr.write(`${says}\n`);
    };
    const proved = prove ? proveBook(book, time, guard === true, progress) : undefined;
    if (json) printJson(io, checkData(book, proved));
    else print(io, checkText(file === "-" ? "standard input" : file!, book, proved));
    return book.findings.some((finding) => finding.weight !== "note") ||
      (proved !== undefined && !allProved(proved.standing))
      ? 1
      : 0;
  },
};

/** As `checkReport` in core/schemas/report.ts has it. */
function checkData(book: Book, proved: Proved | undefined) {
  const pass = passing(book);
  const stands = book.dependencies.map(({ name, edition, fingerprint }) => ({
    name,
    edition: edition ?? null,
    fingerprint,
  }));
  return {
    book: book.name,
    edition: book.edition ?? null,
    ...(stands.length > 0 ? { stands } : {}),
    statements: book.rows.length,
    worked: { pass, fail: book.worked.length - pass },
    findings: book.findings.map(({ code, weight, at, says, witness, repairs, also }) => ({
      code,
      weight,
      at,
      line: lineOf(book.text, at.start),
      says,
      ...(book.under.length > 0 && also.length > 0
        ? { also: also.map((one) => ({ ...placeIn(book, one.at.start), says: one.says })) }
        : {}),
      ...(witness ? { witness } : {}),
      repairs,
    })),
    ...(proved ? provedData(book, proved) : {}),
  };
}

function checkText(file: string, book: Book, proved: Proved | undefined): string {
  const out = book.findings.map((finding) => draw(file, book, finding));
  if (book.under.length > 0)
    out.push(`It stands on ${book.under.map((one) => `${withEdition(one)} (${one.as})`).join("; ")}.`);
  const name = withEdition({ ...book, name: book.name || "The book" });
  const statements = counted(book.rows.length, "statement");
  const examples = counted(book.worked.length, "worked example");
  out.push(`${name}: ${statements}, ${examples} (${passing(book)} pass), ${count(book.findings)}.`);
  if (proved) out.push(provedText(book, proved));
  return out.join("\n");
}

const passing = (book: Book): number => book.worked.filter((one) => one.passes).length;

function secondsOf(given: Options[string]): number {
  if (given === undefined) return 60;
  const seconds = Number(given);
  if (given === "" || !Number.isFinite(seconds) || seconds <= 0 || seconds > 86_400)
    throw new CallError(`--seconds takes a number above 0 and at most 86400, not “${given}”.`);
  return seconds;
}

/** A finding with its line of the book and a mark under the words it is about. */
function draw(file: string, book: Book, { code, weight, at, says, witness, also, repairs }: Finding): string {
  const { text } = book;
  const start = text.lastIndexOf("\n", at.start - 1) + 1;
  const stop = text.indexOf("\n", at.start);
  const line = text
    .slice(start, stop < 0 ? text.length : stop)
    .replace(/\r$/, "")
    .replace(/\t/g, " ")
    .slice(0, 160);
  const from = Math.min(at.start - start, line.length);
  const width = Math.max(1, Math.min(at.end - at.start, line.length - from));
  return [
    `${file}, line ${lineOf(text, at.start)}: ${weight} ${code}`,
    `    ${line}`,
    `    ${" ".repeat(from)}${"^".repeat(width)}`,
    `  ${says}`,
    ...(witness && !says.includes(witness) ? [`  For example: ${witness}.`] : []),
    ...also.map((one) => `  ${lineWords(book, one.at.start)}: ${one.says}`),
    ...(repairs[0] ? [`  Repair: ${repairs[0].says}.`] : []),
  ].join("\n");
}

function count(findings: readonly Finding[]): string {
  if (findings.length === 0) return "no findings";
  const of = (weight: Finding["weight"], one: string, many: string) => {
    const n = findings.filter((finding) => finding.weight === weight).length;
    return n === 0 ? [] : [`${n} ${n === 1 ? one : many}`];
  };
  return [
    ...of("error", "error", "errors"),
    ...of("warning", "warning", "warnings"),
    ...of("note", "note", "notes"),
  ].join(", ");
}
