// Calls the terminal program in this process, with streams of its own, and gives what it printed.
import { main } from "../../../../editor/terminal/main.ts";

export interface Outcome {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** `input` is what it reads from standard input. */
export async function callIn(
  cwd: string,
  args: readonly string[],
  input: string | Uint8Array = "",
): Promise<Outcome> {
  let [out, err] = ["", ""];
  const code = await main(args, {
    cwd,
    env: {},
    stdin: chunks(typeof input === "string" ? new TextEncoder().encode(input) : input),
    stdout: {
      write: (text) => {
        out += text;
      },
    },
    stderr: {
      write: (text) => {
        err += text;
      },
    },
  });
  return { code, out, err };
}

/** In two parts, as a pipe may deliver it. */
async function* chunks(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  const middle = bytes.length >> 1;
  yield bytes.subarray(0, middle);
  yield bytes.subarray(middle);
}
