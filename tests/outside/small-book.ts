// Reads a small book written in a test, refuses it if it has an error, and gives the numbers that it works
// out.
import { type Book, readBook, showJob, workJob } from "../../engine/index.ts";
import type { Answers, JobView, Shown } from "../../core/view.ts";

export interface Given {
  readonly view: JobView;
  /** The number of a value, in the unit that the book shows it in. Throws where there is none. */
  readonly number: (name: string) => number;
  readonly word: (name: string) => string;
  readonly shown: (name: string) => Shown;
}

/** Refuses a book with errors, but for those codes that the test is about. */
export function bookOf(text: string, meant: readonly string[] = []): Book {
  const book = readBook(text);
  const errors = book.findings.filter((one) => one.weight === "error" && !meant.includes(one.code));
  if (errors.length > 0)
    throw new Error(
      errors
        .map((one) => `${one.code}: ${one.says}\n  at: ${text.slice(one.at.start, one.at.end)}`)
        .join("\n"),
    );
  return book;
}

/** What a book gives for these answers. */
export function given(text: string | Book, answers: Answers = {}): Given {
  const book = typeof text === "string" ? bookOf(text) : text;
  const view = showJob(workJob(book, answers));
  const unusable = view.findings.map((one) => one.says);
  if (unusable.length > 0) throw new Error(unusable.join("\n"));
  const shown = (name: string): Shown => {
    const value = view.values.find((one) => one.name === name);
    if (value === undefined) throw new Error(`The book has no value ${name}.`);
    return value;
  };
  return {
    view,
    shown,
    number: (name) => {
      const { value, text } = shown(name);
      if (typeof value !== "number") throw new Error(`${name} is no number: ${text}`);
      return value;
    },
    word: (name) => shown(name).text,
  };
}

export { seeded } from "../../core/seeded.ts";
