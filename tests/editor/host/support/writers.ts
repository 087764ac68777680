// Starts writers (writer.ts), built once so that two hundred of them start quickly, and keeps some ready
// ahead.
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import type { Order } from "./writer.ts";

const root = fileURLToPath(new URL("../../../..", import.meta.url));

interface Writer {
  start(order: Order): void;
  /** Lines so far, whole ones only: what the writer had said when it was killed. */
  lines(): Said[];
  /** Resolves when it has said something that fits, or has ended. */
  until(what: (said: Said) => boolean): Promise<void>;
  kill(): Promise<void>;
  ended(): Promise<void>;
}

export interface Said {
  readonly open?: true;
  readonly entries?: string[];
  readonly book?: string;
  readonly version?: number;
  readonly trouble?: string;
  readonly status?: number;
  readonly fault?: string;
  readonly read?: { readonly rows: number; readonly holds: boolean };
  readonly verdict?: { readonly holds: boolean; readonly troubles: string[] };
}

export interface Writers {
  next(): Writer;
  command(before: string): Writer;
  close(): void;
}

/** `ahead` writers are started before they are asked for. */
export async function buildWriters(ahead: number): Promise<Writers> {
  // Beside the modules that it uses, so that they are found.
  const out = mkdtempSync(join(root, "node_modules", ".writers-"));
  await build({
    configFile: false,
    root,
    logLevel: "error",
    ssr: { noExternal: true, external: ["libsql", "pg"] },
    build: {
      ssr: join(root, "tests/editor/host/support/writer.ts"),
      outDir: out,
      minify: false,
      target: "node20",
      emptyOutDir: true,
      rollupOptions: { output: { entryFileNames: "writer.mjs" } },
    },
  });
  const ready: Writer[] = [];
  const all = new Set<ChildProcess>();
  const file = join(out, "writer.mjs");
  const made = (child: ChildProcess): Writer => {
    all.add(child);
    child.once("exit", () => all.delete(child));
    return writerOf(child);
  };
  const fill = (): void => {
    while (ready.length < ahead)
      ready.push(made(spawn(process.execPath, [file], { stdio: ["pipe", "pipe", "inherit"] })));
  };
  fill();
  return {
    next: () => {
      const one =
        ready.shift() ?? made(spawn(process.execPath, [file], { stdio: ["pipe", "pipe", "inherit"] }));
      fill();
      return one;
    },
    command: (before) =>
      made(
        spawn("sh", ["-c", `${before} exec "$0" "$1"`, process.execPath, file], {
          stdio: ["pipe", "pipe", "inherit"],
        }),
      ),
    close: () => {
      for (const child of all) child.kill("SIGKILL");
      rmSync(out, { recursive: true, force: true });
    },
  };
}

function writerOf(child: ChildProcess): Writer {
  let text = "";
  let over = false;
  const waiting = new Set<() => void>();
  const wake = (): void => {
    for (const one of [...waiting]) one();
  };
  child.stdout!.on("data", (chunk: Buffer) => {
    text += chunk.toString("utf8");
    wake();
  });
  const end = new Promise<void>((resolve) => {
    child.once("close", () => {
      over = true;
      wake();
      resolve();
    });
  });
  child.stdin!.on("error", () => undefined);
  const lines = (): Said[] =>
    text
      .split("\n")
      .slice(0, -1)
      .map((line) => JSON.parse(line) as Said);
  return {
    start: (order) => {
      child.stdin!.end(`${JSON.stringify(order)}\n`);
    },
    lines,
    until: (what) =>
      new Promise((resolve) => {
        const look = (): void => {
          if (over || lines().some(what)) {
            waiting.delete(look);
            resolve();
          }
        };
        waiting.add(look);
        look();
      }),
    kill: async () => {
      child.kill("SIGKILL");
      await end;
    },
    ended: () => end,
  };
}
