// bevelbook check: all findings of a book, each drawn under the text it points at.
import { readBook } from "../../engine/index.ts";
import type { Finding } from "../../core/view.ts";
import { type Command, lineOf, print, printJson, readText } from "./call.ts";

export const checkCommand: Command = {
  usage: "BOOK [--json]",
  says: "Reads a book and prints all its findings. Exit 1 if there are errors or warnings.",
  options: { json: { type: "boolean" } },
  run: async ([file], { json }) => {
    const text = await readText(file, "book");
    const book = readBook(text);
    const pass = book.worked.filter((one) => one.passes).length;
    if (json) {
      printJson({
        book: book.name, edition: book.edition ?? null, statements: book.rows.length, worked: { pass, fail: book.worked.length - pass },
        findings: book.findings.map(({ code, weight, at, says, witness, repairs }) => ({ code, weight, at, line: lineOf(text, at.start), says, ...(witness ? { witness } : {}), repairs })),
      });
    } else {
      for (const finding of book.findings) print(draw(file === "-" ? "standard input" : file!, text, finding));
      print(`${book.name || "The book"}${book.edition === undefined ? "" : `, edition ${book.edition}`}: ${book.rows.length} statements, ${book.worked.length} worked examples (${pass} pass), ${count(book.findings)}.`);
    }
    return book.findings.some((finding) => finding.weight !== "note") ? 1 : 0;
  },
};

/** A finding with its line of the book and a mark under the words it is about. */
export function draw(file: string, text: string, { code, weight, at, says, witness, also, repairs }: Finding): string {
  const start = text.lastIndexOf("\n", at.start - 1) + 1;
  const stop = text.indexOf("\n", at.start);
  const line = text.slice(start, stop < 0 ? text.length : stop).replace(/\r$/, "").replace(/\t/g, " ").slice(0, 160);
  const from = Math.min(at.start - start, line.length);
  const width = Math.max(1, Math.min(at.end - at.start, line.length - from));
  return [
    `${file}, line ${lineOf(text, at.start)}: ${weight} ${code}`,
    `    ${line}`,
    `    ${" ".repeat(from)}${"^".repeat(width)}`,
    `  ${says}`,
    ...(witness && !says.includes(witness) ? [`  For example: ${witness}.`] : []),
    ...also.map((one) => `  line ${lineOf(text, one.at.start)}: ${one.says}`),
    ...(repairs[0] ? [`  Repair: ${repairs[0].says}.`] : []),
    "",
  ].join("\n");
}

function count(findings: readonly Finding[]): string {
  if (findings.length === 0) return "no findings";
  const of = (weight: Finding["weight"], one: string, many: string) => { const n = findings.filter((finding) => finding.weight === weight).length; return n === 0 ? [] : [`${n} ${n === 1 ? one : many}`]; };
  return [...of("error", "error", "errors"), ...of("warning", "warning", "warnings"), ...of("note", "note", "notes")].join(", ");
}
