// How the pages and the programs are built, and which files the test runner takes.
import { defineConfig } from "vite";
import type { Plugin, UserConfig } from "vite";
import react from "@vitejs/plugin-react";
import { fileURLToPath } from "node:url";
import { readFileSync } from "node:fs";
import { offlineWorker, webManifest, withFiles } from "./editor/build/offline-list.ts";
import { packFolder } from "./editor/build/packing.ts";
import { bundleList } from "./editor/build/programs.ts";
import { secondPass } from "./editor/build/second-pass.ts";
import { smallParser } from "./editor/build/small-parser.ts";
import { readsOnly } from "./editor/build/without-sentences.ts";
import { programs } from "./editor/build/start-program.mjs";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The technician's page is drawn by the small library of the same calls; the sources know one name only. */
const smallReact = {
  "react/jsx-runtime": "preact/jsx-runtime",
  "react-dom/client": "preact/compat/client",
  "react-dom": "preact/compat",
  react: "preact/compat",
};

/** And its texts are hashed by that one function of the package. */
const smallHash = {
  "@noble/hashes/sha2.js": here("editor/build/small-sha256.ts"),
  "@noble/hashes/utils.js": here("editor/build/small-sha256.ts"),
};

/**
 * A module of the engine or the core does nothing but say what it holds, so the one door may lead to parts
 * that are fetched apart.
 */
const treeshake = {
  moduleSideEffects: (file: string): boolean =>
    ![here("engine/"), here("core/")].some((room) => file.startsWith(room)),
};

/** After the last file is written. */
const packed = (): Plugin => {
  let folder = "";
  return {
    name: "packed",
    apply: "build",
    configResolved: (config) => {
      folder = config.build.outDir;
    },
    closeBundle: () => packFolder(folder),
  };
};

/**
 * The technician's page without a network: what belongs to its start screen, and the list of its files in the
 * worker that keeps them.
 */
const offline = (): Plugin => ({
  name: "offline",
  apply: "build",
  enforce: "post",
  transformIndexHtml: () => [
    { tag: "link", attrs: { rel: "manifest", href: "./job.webmanifest" }, injectTo: "head" },
    { tag: "link", attrs: { rel: "apple-touch-icon", href: "./mark-192.png" }, injectTo: "head" },
  ],
  generateBundle: {
    order: "post",
    handler(_options, bundle) {
      const { [offlineWorker]: worker, ...rest } = bundle;
      const icons = ["mark.svg", "mark-192.png", "mark-512.png"].map((name) => ({
        name,
        content: readFileSync(here(`editor/ui/look/${name}`)),
      }));
      const own = [{ name: "job.webmanifest", content: webManifest }, ...icons];
      for (const { name, content } of own) this.emitFile({ type: "asset", fileName: name, source: content });
      const files = Object.values(rest).map((file) => ({
        name: file.fileName,
        content: file.type === "chunk" ? file.code : file.source,
      }));
      if (worker?.type !== "chunk") throw new Error("The offline worker was not built.");
      worker.code = withFiles(worker.code, [...files, ...own]);
    },
  },
});

/**
 * The two pages are built apart, so that the technician's carries nothing of the bench: `vite build`, then
 * `vite build --mode job`.
 */
const page = (mode: string): UserConfig => ({
  root: here("editor"),
  base: "./",
  plugins: [react(), smallParser(), ...(mode === "job" ? [secondPass(), offline()] : []), packed()],
  resolve: { alias: mode === "job" ? { ...smallReact, ...smallHash } : {} },
  // The engine's worker is a module of its own, so that no page waits for it.
  worker: {
    format: "es",
    plugins: () => [
      smallParser(),
      ...(mode === "job" ? [readsOnly(here("engine/language/check/findings/")), secondPass()] : []),
    ],
    rollupOptions: { treeshake },
  },
  build: {
    outDir: here("dist/pages"),
    emptyOutDir: mode !== "job",
    target: "es2022",
    // No file is folded into a page as a data address: the content policy allows files of this host only.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 4000,
    rollupOptions:
      mode === "job"
        ? {
            treeshake,
            input: {
              job: here("editor/job.html"),
              "job-offline": here("editor/technician/offline/job-offline.ts"),
            },
            // The worker's name stays, so that the browser finds the next one.
            output: {
              entryFileNames: ({ name }) =>
                name === "job-offline" ? offlineWorker : "assets/[name]-[hash].js",
            },
          }
        : { input: ["index", "sign-in", "people"].map((name) => here(`editor/${name}.html`)) },
  },
  server: { host: "127.0.0.1", fs: { allow: [here(".")] } },
});

/** Packages with machine code, or that load others by name as they run: they stay in node_modules. */
const outside = ["libsql", "@node-rs/argon2", "pg"];

/** `vite build --mode programs`: the terminal, the host and its engine thread for Node. */
const bundles = (): UserConfig => {
  const began = Date.now();
  const folder = `${began}-${process.pid}`;
  const all = here("dist/programs");
  return {
    root: here("."),
    plugins: [smallParser(), bundleList(here("."), all, folder, began)],
    ssr: { noExternal: true, external: outside },
    build: {
      ssr: true,
      outDir: `${all}/${folder}`,
      target: "node20",
      rollupOptions: {
        treeshake,
        input: Object.fromEntries(Object.entries(programs).map(([name, file]) => [name, here(file)])),
        output: { entryFileNames: "[name].mjs", chunkFileNames: "[name]-[hash].mjs" },
      },
    },
  };
};

/** Tests of what only computes share a process, and so load the engine once; the others get one for each file. */
const computing = ["agreement", "core", "engine", "outside", "rulesets", "editor/{card,client,ui}"];

/**
 * Three kinds of tests, each with what it needs: `rules` needs nothing, `programs` a database server, and
 * `screens` a browser and the built pages. What takes long to set up is made once for a whole run.
 */
const tests = {
  root: here("."),
  test: {
    root: here("."),
    // One hand for each core: the browser's and the database's own work leaves gaps.
    maxWorkers: 2,
    projects: [
      {
        test: {
          name: "rules",
          include: computing.map((folder) => `tests/${folder}/**/*.test.ts`),
          isolate: false,
          // Only ends a test that hangs. What has to be quick counts processor time itself.
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: "programs",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/screens/**", ...computing.map((folder) => `tests/${folder}/**`)],
          globalSetup: ["tests/editor/host/support/setup.ts"],
          testTimeout: 30_000,
        },
      },
      {
        test: {
          name: "screens",
          include: ["tests/screens/*.test.ts"],
          globalSetup: ["tests/screens/support/server.ts"],
          isolate: false,
          testTimeout: 60_000,
          hookTimeout: 90_000,
        },
      },
    ],
  },
};

export default defineConfig(({ mode }) => {
  if (process.env["VITEST"]) return tests as UserConfig;
  return mode === "programs" ? bundles() : page(mode);
});
