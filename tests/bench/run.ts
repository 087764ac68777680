// `npm run bench`: builds the workbench and the engine as the pages are built (a loader for development slows
// the parser by a third), then measures in a process of its own, the heap in a second one, proofs in a third,
// the bytes between page and worker in a fourth; then the job page in a browser. `npm run bench host
// [seconds]` measures the shop's host instead, `npm run bench volume [jobs] [editions]` the workbench at a
// host that holds many.
import { mkdtemp, rm } from "node:fs/promises";
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { jobPage } from "./job-page.ts";

const here = fileURLToPath(new URL(".", import.meta.url));
const root = fileURLToPath(new URL("../..", import.meta.url));
if (process.argv[2] === "host" || process.argv[2] === "volume")
  process.exit(
    spawnSync(
      process.execPath,
      ["--import", "tsx", join(here, `${process.argv[2]}.ts`), ...process.argv.slice(3)],
      { cwd: root, stdio: "inherit" },
    ).status ?? 1,
  );
// Beside the modules that it uses, so that the rival is found.
const out = await mkdtemp(join(root, "node_modules", ".bench-"));
try {
  await build({
    configFile: false,
    root,
    logLevel: "error",
    build: {
      ssr: true,
      outDir: out,
      minify: false,
      target: "node20",
      rollupOptions: {
        input: {
          measure: join(here, "measure.ts"),
          heap: join(here, "heap.ts"),
          prove: join(here, "prove.ts"),
          replies: join(here, "replies.ts"),
        },
      },
    },
  });
  for (const [file, flags] of [
    ["measure.js", []],
    ["heap.js", ["--expose-gc"]],
    ["prove.js", []],
    ["replies.js", []],
  ] as const) {
    const { status } = spawnSync(
      process.execPath,
      [...flags, join(out, file), root, ...process.argv.slice(2)],
      { stdio: "inherit" },
    );
    if (status !== 0) process.exitCode = status ?? 1;
  }
  await jobPage();
} finally {
  await rm(out, { recursive: true, force: true });
}
