// bevelbook check: all findings of a book, each drawn under the text it points at; with --prove also how the
// book stands.
import type { Book } from "../../engine/index.ts";
import type { Finding } from "../../core/view.ts";
import { SHELF_SAYS, lineWords, placeIn, readBookAtHand, shelfOption } from "./book-resolver.ts";
import { CallError, type Command, lineOf, print, printJson } from "./call.ts";
import { proveBook, provedData, provedText, stands } from "./prove.ts";

export const checkCommand: Command = {
  usage: "BOOK [--prove [--guard] [--seconds N]] [--shelf FOLDER] [--json]",
  says: `Reads a book and prints all its findings; --prove also what it promises and owes, proved, broken or not settled, and --guard how its examples guard it, for at most N seconds (60). Exit 1 if there are errors or warnings, or if something is broken or not settled. ${SHELF_SAYS}`,
  options: {
    ...shelfOption,
    json: { type: "boolean" },
    prove: { type: "boolean" },
    guard: { type: "boolean" },
    seconds: { type: "string" },
  },
  run: async ([file], { json, prove, guard, seconds, shelf }) => {
    const time = secondsOf(seconds);
    if (!prove && (guard || seconds !== undefined))
      throw new CallError("--guard and --seconds belong to --prove: bevelbook check BOOK --prove.");
    const book = await readBookAtHand(file, shelf);
    const { text } = book;
    const proved = prove
      ? proveBook(book, time, guard === true, (says) => {
          if (process.stderr.isTTY) process.stderr.write(`${says}\n`);
        })
      : undefined;
    const pass = book.worked.filter((one) => one.passes).length;
    if (json) {
      printJson({
        book: book.name,
        edition: book.edition ?? null,
        ...(book.dependencies.length > 0
          ? {
              stands: book.dependencies.map((one) => ({
                name: one.name,
                edition: one.edition ?? null,
                fingerprint: one.fingerprint,
              })),
            }
          : {}),
        statements: book.rows.length,
        worked: { pass, fail: book.worked.length - pass },
        findings: book.findings.map(({ code, weight, at, says, witness, repairs, also }) => ({
          code,
          weight,
          at,
          line: lineOf(text, at.start),
          says,
          ...(book.under.length > 0 && also.length > 0
            ? { also: also.map((one) => ({ ...placeIn(book, one.at.start), says: one.says })) }
            : {}),
          ...(witness ? { witness } : {}),
          repairs,
        })),
        ...(proved ? provedData(book, proved) : {}),
      });
    } else {
      for (const finding of book.findings)
        print(draw(file === "-" ? "standard input" : file!, book, finding));
      if (book.under.length > 0)
        print(
          `It stands on ${book.under.map((one) => `${one.name}${one.edition === undefined ? "" : `, edition ${one.edition}`} (${one.as})`).join("; ")}.`,
        );
      print(
        `${book.name || "The book"}${book.edition === undefined ? "" : `, edition ${book.edition}`}: ${book.rows.length} ${book.rows.length === 1 ? "statement" : "statements"}, ${book.worked.length} worked ${book.worked.length === 1 ? "example" : "examples"} (${pass} pass), ${count(book.findings)}.`,
      );
      if (proved) print(provedText(book, proved));
    }
    return book.findings.some((finding) => finding.weight !== "note") ||
      (proved !== undefined && !stands(proved.standing))
      ? 1
      : 0;
  },
};

function secondsOf(given: string | boolean | readonly string[] | undefined): number {
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
    "",
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
