// `bevelbook WORD …`: finds the command, reads its options, and turns what goes wrong with the call into a
// sentence. Exit codes: 0 fine, 1 the book or the job has findings, 2 the call is wrong.
import { parseArgs } from "node:util";
import { type Command, type ExitCode, CallError, type Io, type Options } from "./call.ts";
import { checkCommand } from "./check.ts";
import { backupCommand, restoreCommand, salvageCommand } from "./backup.ts";
import { hostCommand } from "./host.ts";
import { logCommand } from "./log.ts";
import { peopleCommand } from "./people.ts";
import { tidyCommand } from "./tidy.ts";
import { whyCommand } from "./why.ts";
import { weighCommand } from "./weigh.ts";
import { workCommand } from "./work.ts";

const COMMANDS: Readonly<Record<string, Command>> = {
  check: checkCommand,
  work: workCommand,
  why: whyCommand,
  tidy: tidyCommand,
  weigh: weighCommand,
  host: hostCommand,
  backup: backupCommand,
  restore: restoreCommand,
  salvage: salvageCommand,
  log: logCommand,
  people: peopleCommand,
};

/** The streams, folder and settings of this process. */
const processIo = (): Io => ({
  cwd: process.cwd(),
  env: process.env,
  stdin: process.stdin,
  stdout: process.stdout,
  stderr: process.stderr,
});

/** Carries out a call and comes back with its exit code. Throws only for a fault of the program. */
export async function main(args: readonly string[], io: Io = processIo()): Promise<ExitCode | 2> {
  const [word, ...rest] = args;
  if (word === undefined || word === "help" || word === "--help" || word === "-h") {
    io.stdout.write(help());
    return word === undefined ? 2 : 0;
  }
  const command = Object.hasOwn(COMMANDS, word) ? COMMANDS[word] : undefined;
  if (command === undefined)
    return complain(io, `There is no command “${word}”. There are: ${Object.keys(COMMANDS).join(", ")}.`);
  try {
    const { values, positionals } = parseArgs({
      args: rest,
      allowPositionals: true,
      options: { help: { type: "boolean", short: "h" }, ...command.options },
    });
    if (values.help) {
      io.stdout.write(`bevelbook ${word} ${command.usage}\n    ${command.says}\n`);
      return 0;
    }
    return await command.run(positionals, values as Options, io);
  } catch (error) {
    if (error instanceof CallError) return complain(io, error.message);
    if (error instanceof TypeError && "code" in error)
      return complain(io, `${wrongOption(error)} Usage: bevelbook ${word} ${command.usage}`);
    throw error;
  }
}

/** What the option reader says, as one sentence without its advice about dashes. */
function wrongOption(error: TypeError): string {
  const unknown = /^Unknown option '([^']*)'/.exec(error.message)?.[1];
  if (unknown !== undefined) return `There is no option ${unknown} here.`;
  return error.message.split("\n")[0]!.replace(/[^.]$/, "$&.");
}

function complain(io: Io, sentence: string): 2 {
  io.stderr.write(`${sentence}\n`);
  return 2;
}

function help(): string {
  const lines = Object.entries(COMMANDS).map(
    ([word, { usage, says }]) => `  bevelbook ${word} ${usage}\n      ${says}`,
  );
  return [
    "Bevelbook: a shop's house standard as rules, and jobs worked by them.",
    "",
    ...lines,
    "",
    "A file named - is read from standard input. Exit: 0 fine, 1 findings, 2 the call is wrong.",
    "",
  ].join("\n");
}
