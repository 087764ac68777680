// What the commands share: their shape, reading books and job files, and writing reports.
import { readFile, stat } from "node:fs/promises";
import { resolve } from "node:path";
import { MAX_INPUT_BYTES } from "../../core/limits.ts";
import type { Answers } from "../../core/view.ts";
import type { Book } from "../../engine/index.ts";

/** What a call reads from, writes to and starts at, so that tests can call a command without a process. */
export interface Io {
  /** Relative paths start here. */
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly stdin: AsyncIterable<Uint8Array>;
  readonly stdout: Output;
  readonly stderr: Output;
}
interface Output {
  write(text: string): unknown;
  /** A person watches, so progress is shown. */
  readonly isTTY?: boolean;
}

/** Values of options as `parseArgs` gives them. */
export type Options = Readonly<Record<string, string | boolean | readonly string[] | undefined>>;

export interface Command {
  readonly usage: string;
  readonly says: string;
  readonly options: Readonly<
    Record<string, { readonly type: "string" | "boolean"; readonly short?: string; readonly multiple?: true }>
  >;
  /** Comes back with the exit code. Throws a `CallError` where the call is wrong. */
  readonly run: (files: readonly string[], options: Options, io: Io) => Promise<ExitCode>;
}

/** 0 fine, 1 findings, 3 a job worked by a book with errors. A call that is wrong ends with 2. */
export type ExitCode = 0 | 1 | 3;

/** The call cannot be carried out; the message is the sentence that says why. */
export class CallError extends Error {}

/** The text of a file, or of standard input for `-`. It must be UTF-8; a byte order mark is dropped. */
export async function readText(io: Io, file: string | undefined, what: string): Promise<string> {
  if (file === undefined) throw new CallError(`Name the ${what}, or - to read it from standard input.`);
  const bytes = await (file === "-" ? readInput(io, what) : readBytes(resolve(io.cwd, file), file, what));
  if (bytes.length > MAX_INPUT_BYTES)
    throw new CallError(`${file} has ${bytes.length} bytes; no ${what} is that large.`);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new CallError(
      `${file === "-" ? "Standard input" : file} is not UTF-8 text; save it as UTF-8 and try again.`,
    );
  }
}

async function readInput(io: Io, what: string): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  for await (const chunk of io.stdin) {
    size += chunk.length;
    if (size > MAX_INPUT_BYTES)
      throw new CallError(`Standard input has more than ${MAX_INPUT_BYTES} bytes; no ${what} is that large.`);
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

/** `file` is the name as it was typed, for the sentences. */
async function readBytes(path: string, file: string, what: string): Promise<Uint8Array> {
  try {
    if ((await stat(path)).size > MAX_INPUT_BYTES)
      throw new CallError(`${file} is larger than ${MAX_INPUT_BYTES} bytes; no ${what} is that large.`);
    return await readFile(path);
  } catch (error) {
    if (error instanceof CallError) throw error;
    const code = (error as { code?: string }).code;
    if (code === "ENOENT") throw new CallError(`There is no file ${file}.`);
    if (code === "EISDIR") throw new CallError(`${file} is a folder; name a ${what}.`);
    if (code === "EACCES") throw new CallError(`${file} may not be read by this user.`);
    throw new CallError(`${file} could not be read (${code ?? "unknown reason"}).`);
  }
}

/** A job file's answers; numbers and true/false are taken as typed. */
export async function readJob(io: Io, file: string | undefined): Promise<Answers> {
  if (file === undefined)
    throw new CallError("Name the job's file with --job FILE, or --job - for standard input.");
  const text = await readText(io, file, "job file");
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (error) {
    throw new CallError(`${file} is not JSON: ${(error as Error).message}`);
  }
  // Loaded here, so that commands that read no job do not wait for the schemas.
  const { jobFile } = await import("../../core/schemas/report.ts");
  const parsed = jobFile.safeParse(data);
  if (!parsed.success) {
    const issue = parsed.error.issues[0]!;
    const at = issue.path.length > 0 ? ` (at ${issue.path.join(".")})` : "";
    throw new CallError(
      `${file} is no job file${at}: it is a JSON object of answers as they are typed, ` +
        'such as {"thickness": "6 mm"}.',
    );
  }
  return asTyped(parsed.data);
}

/** Answers of a job file as a person types them. */
export const asTyped = (data: Readonly<Record<string, string | number | boolean>>): Answers =>
  Object.fromEntries(
    Object.entries(data).map(([ask, answer]) => [
      ask,
      answer === true ? "yes" : answer === false ? "no" : String(answer),
    ]),
  );

/** Ends the text with a line break where it has none. */
export const print = (io: Io, text: string): void => {
  io.stdout.write(text.endsWith("\n") ? text : `${text}\n`);
};
export const printJson = (io: Io, data: unknown): void => print(io, JSON.stringify(data, null, 2));

/** `1 row`, `2 rows`. */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

export const lineOf = (text: string, offset: number): number => text.slice(0, offset).split("\n").length;

/** A book that cannot be worked with says so before anything else. */
export const hasErrors = (book: Book): boolean => book.findings.some((finding) => finding.weight === "error");
