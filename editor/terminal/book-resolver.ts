// A book with the books that it may depend on: those in its own folder and in the folders named with --shelf.
import { readFile, readdir, stat } from "node:fs/promises";
import { dirname, join, resolve } from "node:path";
import { MAX_INPUT_BYTES } from "../../core/limits.ts";
import { dependenciesOf, readBook } from "../../engine/index.ts";
import type { Book } from "../../engine/index.ts";
import { CallError, type Io, type Options, lineOf, readText } from "./call.ts";

/** The option that the commands with a book share; it may be given several times. */
export const shelfOption = { shelf: { type: "string", multiple: true } } as const;
export const SHELF_SAYS = "Books that it uses or amends are found in its own folder and in each FOLDER.";

/** More files than this in one folder are not looked through. */
const MOST_FILES = 2000;

/** Reads a book; other files are opened only where it names another book. */
export async function readBookWithOthers(
  io: Io,
  file: string | undefined,
  { shelf }: Options,
): Promise<Book> {
  const text = await readText(io, file, "book");
  const folders = Array.isArray(shelf) ? shelf.map(String) : [];
  for (const folder of folders) await mustBeFolder(io, folder);
  if (dependenciesOf(text).length === 0) return readBook(text);
  const own = file === undefined || file === "-" ? [] : [dirname(file)];
  const texts = await Promise.all([...own, ...folders].map((folder) => booksIn(resolve(io.cwd, folder))));
  return readBook(
    text,
    undefined,
    [...new Set(texts.flat())].filter((one) => one !== text),
  );
}

async function mustBeFolder(io: Io, folder: string): Promise<void> {
  const found = await stat(resolve(io.cwd, folder)).catch(() => undefined);
  if (found === undefined) throw new CallError(`There is no folder ${folder}.`);
  if (!found.isDirectory()) throw new CallError(`${folder} is a file; --shelf names a folder of books.`);
}

/**
 * The books of a folder, by the order of their names. What is no UTF-8 text is no book, and is passed over.
 */
async function booksIn(folder: string): Promise<readonly string[]> {
  const names = (await readdir(folder).catch(() => []))
    .filter((name) => name.endsWith(".bevel"))
    .sort()
    .slice(0, MOST_FILES);
  const read = async (name: string): Promise<string[]> => {
    const path = join(folder, name);
    try {
      const { size } = await stat(path);
      return size > MAX_INPUT_BYTES
        ? []
        : [new TextDecoder("utf-8", { fatal: true }).decode(await readFile(path))];
    } catch {
      return [];
    }
  };
  return (await Promise.all(names.map(read))).flat();
}

/** `road-panels, edition 4`, or the name alone. */
export const withEdition = ({
  name,
  edition,
}: {
  readonly name: string;
  readonly edition?: number;
}): string => (edition === undefined ? name : `${name}, edition ${edition}`);

/** Where a place of a book lies for a reader: its line, and the book underneath that it is a line of. */
export function placeIn(book: Book, offset: number): { readonly line: number; readonly in?: string } {
  const under = offset <= book.text.length ? undefined : book.under.findLast((one) => one.start <= offset);
  return under === undefined
    ? { line: lineOf(book.text, offset) }
    : {
        line: lineOf(under.text, offset - under.start),
        in: withEdition(under),
      };
}

/** The same in words: `line 12`, `line 12 of road-panels, edition 4`. */
export function lineWords(book: Book, offset: number): string {
  const { line, in: name } = placeIn(book, offset);
  return name === undefined ? `line ${line}` : `line ${line} of ${name}`;
}
