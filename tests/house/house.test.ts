// The house rules, as far as a test can keep them: which room may import which, no circles, one door into the
// engine, no code made of text, files that say what they are for and stay small, and nothing of one machine
// in the repository.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
/** Every file that git keeps, and that is still there. */
const TRACKED = execFileSync("git", ["ls-files", "-z"], { cwd: ROOT, encoding: "utf8" })
  .split("\0")
  .filter((file) => file !== "" && existsSync(join(ROOT, file)));
const SOURCES = TRACKED.filter((file) => /\.(ts|tsx|mjs|css)$/.test(file));
const CODE = SOURCES.filter((file) => /^(core|engine|editor)\/.*\.(ts|tsx|mjs)$/.test(file));
const read = (file: string) => readFileSync(join(ROOT, file), "utf8");

const PAGES = /^editor\/(workbench|technician|people|card|ui|client)\//;

/** Each room may import itself and the rooms named after it. */
const ROOMS: Readonly<Record<string, readonly string[]>> = {
  core: [],
  "core/schemas": ["core"],
  "engine/language/syntax": ["core"],
  "engine/language/layers": ["core", "engine/language/syntax"],
  "engine/language/check": ["core", "engine/language/syntax", "engine/language/layers"],
  "engine/program/plan": ["core", "engine/language/*"],
  "engine/program/eval": ["core", "engine/program/plan", "engine/language/*"],
  "engine/program/intervals": ["core", "engine/program/eval", "engine/program/plan", "engine/language/*"],
  "engine/analysis/verify": ["core", "engine/program/*", "engine/language/*"],
  "engine/analysis/sensitivity": ["core", "engine/analysis/verify", "engine/program/*", "engine/language/*"],
  "engine/analysis/mutation": ["core", "engine/analysis/verify", "engine/program/*", "engine/language/*"],
  "engine/analysis/compare": ["core", "engine/analysis/verify", "engine/program/*", "engine/language/*"],
  "engine/api": ["core", "engine", "engine/analysis/*", "engine/program/*", "engine/language/*"],
  "engine/ide": ["core", "engine/api", "engine/analysis/*", "engine/program/*", "engine/language/*"],
  engine: ["core", "engine/ide", "engine/api", "engine/language/*"],
  "editor/client": ["core", "core/schemas", "the door"],
  "editor/ui": ["core", "editor/client"],
  "editor/card": ["core", "editor/ui", "editor/client"],
  "editor/technician": ["core", "core/schemas", "the door", "editor/card", "editor/ui", "editor/client"],
  "editor/workbench": [
    "core",
    "core/schemas",
    "the door",
    "editor/card",
    "editor/ui",
    "editor/client",
    "editor/workbench/text",
  ],
  "editor/workbench/text": ["core", "the door", "editor/ui", "editor/workbench"],
  "editor/people": ["core", "core/schemas", "editor/ui", "editor/client"],
  "editor/build": [],
  "editor/host": ["core", "core/schemas", "the door", "editor/build"],
  "editor/terminal": ["core", "core/schemas", "the door", "editor/host", "editor/build"],
};
const BY_LENGTH = Object.keys(ROOMS).sort((a, b) => b.length - a.length);
/** `engine/language/*` stands for each room in that folder. */
const allows = (room: string, target: string): boolean =>
  ROOMS[room]!.some((one) => one === target || (one.endsWith("/*") && target.startsWith(one.slice(0, -1))));
const roomOf = (file: string): string | undefined => BY_LENGTH.find((room) => file.startsWith(`${room}/`));

const anyOf = (forms: readonly RegExp[], flags: string): RegExp =>
  new RegExp(forms.map((form) => form.source).join("|"), flags);

/** Paths of this repository that a file imports, and packages. */
function imports(file: string): { readonly paths: readonly string[]; readonly packages: readonly string[] } {
  const text = read(file);
  const named = [
    ...text.matchAll(
      anyOf(
        [
          /^(?:import|export)\b[^;"']*?from\s+"([^"]+)"/,
          /^import\s+"([^"]+)"/,
          /\bimport\("([^"]+)"\)/,
          /new URL\("(\.[^"]+)", import\.meta\.url\)/,
        ],
        "gm",
      ),
    ),
  ].map((match) => (match[1] ?? match[2] ?? match[3] ?? match[4])!);
  return {
    // A folder, as the host names the pages it serves, is no import.
    paths: named
      .filter((one) => one.startsWith(".") && !/[/.]$/.test(one))
      .map((one) => relative(ROOT, join(ROOT, dirname(file), one.replace(/\?.*$/, "")))),
    packages: named
      .filter((one) => !one.startsWith("."))
      .map((one) => one.replace(/^(@[^/]+\/[^/]+|[^/@][^/]*).*$/, "$1")),
  };
}

test("every room imports only what stands below it, and the engine is entered by its door", () => {
  const wrong: string[] = [];
  for (const file of CODE) {
    const room = roomOf(file);
    if (room === undefined) {
      wrong.push(`${file} lives in no room`);
      continue;
    }
    for (const path of imports(file).paths) {
      if (!/\.(ts|tsx)$/.test(path)) continue;
      const target =
        file.startsWith("editor/") && path.startsWith("engine/")
          ? path === "engine/index.ts"
            ? "the door"
            : `${path}, past the door`
          : roomOf(path);
      if (target === undefined || (target !== room && !allows(room, target)))
        wrong.push(`${file} imports ${path}`);
    }
  }
  expect(wrong).toEqual([]);
});

test("every import names a file that is there, with its ending", () => {
  const wrong = CODE.flatMap((file) =>
    imports(file)
      .paths.filter((path) => !existsSync(join(ROOT, path)) || !/\.[a-z]+$/.test(path))
      .map((path) => `${file} imports ${path}`),
  );
  expect(wrong).toEqual([]);
});

test("nothing imports itself by a way round", () => {
  const state = new Map<string, "open" | "done">();
  const circles: string[] = [];
  const visit = (file: string, way: readonly string[]) => {
    if (state.get(file) === "done") return;
    if (state.get(file) === "open") {
      circles.push([...way.slice(way.indexOf(file)), file].join(" → "));
      return;
    }
    state.set(file, "open");
    // Types are gone when the program runs, and a worker is another program: neither makes a circle.
    const text = read(file)
      .replace(/^(import|export) type [^;]*;/gm, "")
      .replace(/new URL\([^)]*\)/g, "")
      .replace(/^import\s*\{\s*(?:type \w+(?: as \w+)?,?\s*)+\}\s*from[^;]*;/gm, "");
    for (const [, path] of text.matchAll(/^(?:import|export)\b[^;"']*?from\s+"(\.[^"]+\.tsx?)"/gm))
      visit(relative(ROOT, join(ROOT, dirname(file), path!)), [...way, file]);
    state.set(file, "done");
  };
  for (const file of CODE.filter((one) => /\.tsx?$/.test(one))) visit(file, []);
  expect(circles).toEqual([]);
});

test("packages stay in the rooms that know them", () => {
  const allowed: Readonly<Record<string, RegExp>> = {
    "monaco-editor": /^editor\/workbench\/text\//,
    zod: /^(core\/schemas|editor)\//,
    chevrotain: /^engine\/language\/syntax\//,
    react: PAGES,
    "react-dom": PAGES,
    zustand: PAGES,
    hono: /^editor\/host\//,
    "@hono": /^editor\/host\//,
    kysely: /^editor\/host\/database\//,
    libsql: /^editor\/host\/database\//,
    pg: /^editor\/host\/database\//,
    "@node-rs": /^editor\/host\/people\//,
    // A fingerprint is worked out, not fetched: the package is pure arithmetic.
    "@noble": /^(engine\/language\/layers|editor\/client\/storage)\//,
    vite: /^editor\/(build|host)\//,
  };
  const wrong = CODE.flatMap((file) =>
    imports(file)
      .packages.filter((name) => {
        const room = allowed[name] ?? allowed[name.split("/")[0]!];
        if (room !== undefined) return !room.test(file);
        if (/^(core|engine)\//.test(file)) return true;
        return name.startsWith("node:") && !/^editor\/(host|terminal|build)\//.test(file);
      })
      .map((name) => `${file} imports ${name}`),
  );
  expect(wrong).toEqual([]);
});

test("the engine is pure: no clock, chance, network, process or storage", () => {
  const impure =
    /\b(Date\.now|new Date|performance\.now|Math\.random|crypto\.|fetch\(|setTimeout|setInterval|process\.)/;
  const ofPages = /\b(localStorage|indexedDB|globalThis\.|window\.|document\.)/;
  const wrong = CODE.filter((file) => /^(core|engine)\//.test(file)).flatMap((file) =>
    withoutComments(read(file))
      .split("\n")
      .flatMap((line) => (impure.test(line) || ofPages.test(line) ? [`${file}: ${line.trim()}`] : [])),
  );
  expect(wrong).toEqual([]);
});

test("nothing is run or drawn that was made of text", () => {
  const forbidden = anyOf(
    [
      /\beval\s*\(|new Function\b|Function\s*\(\s*["'`]/,
      /dangerouslySetInnerHTML|\.innerHTML\s*=|\.outerHTML\s*=|insertAdjacentHTML|document\.write|srcdoc/,
    ],
    "i",
  );
  const wrong = CODE.flatMap((file) =>
    withoutComments(read(file))
      .split("\n")
      .flatMap((line) => (forbidden.test(line) ? [`${file}: ${line.trim()}`] : [])),
  );
  expect(wrong).toEqual([]);
});

test("every source file opens with a sentence that says what it is for", () => {
  const wrong = SOURCES.filter((file) => {
    const text = read(file).replace(/^#!.*\n/, "");
    return file.endsWith(".css")
      ? !/^\/\* ?[A-Z“"`]/.test(text)
      : !/^(\/\/ |\/\*\*? ?)[A-Z“"`1-9]/.test(text) && !/^\/\/ `?[a-zA-Z]/.test(text);
  });
  expect(wrong).toEqual([]);
});

test("no source file has more than 700 lines", () => {
  const long = SOURCES.filter((file) => read(file).split("\n").length > 700);
  expect(long).toEqual([]);
});

test("no line is longer than 110 columns", () => {
  const long = SOURCES.filter((file) => /^(core|engine|editor|tests)\//.test(file)).flatMap((file) =>
    read(file)
      .split("\n")
      .flatMap((line, i) => (line.length > 110 ? [`${file}:${i + 1}: ${line.length} columns`] : [])),
  );
  expect(long).toEqual([]);
});

test("nothing in the repository belongs to one machine", () => {
  // The words are put together here, so that this file does not find itself.
  const paths = new RegExp(
    ["/wo" + "rk/", "/ho" + "me/[a-z]", "/ro" + "ot/", "/Us" + "ers/", "file" + "://"].join("|"),
  );
  const known = /https?:\/\/(?!127\.0\.0\.1|localhost|www\.w3\.org|[a-z.]*\.(gov|int)\b)[^\s"'`)]*/;
  const hosts = new RegExp(`${known.source}(registry|npmjs|artifactory|nexus|verdaccio)`, "i");
  const wrong = TRACKED.filter((file) => !/\.(png|woff2?|ico)$/.test(file)).flatMap((file) =>
    read(file)
      .split("\n")
      .flatMap((line, i) =>
        paths.test(line) || hosts.test(line) ? [`${file}:${i + 1}: ${line.trim().slice(0, 120)}`] : [],
      ),
  );
  expect(wrong).toEqual([]);
});

test("the lock file names no place to load from", () => {
  expect(read("package-lock.json")).not.toContain('"resolved"');
});

const withoutComments = (text: string): string =>
  text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|[^:"'`])\/\/[^\n]*/g, "$1");

test(
  "operations of a plan are switched over without a catch-all arm, so that a new one breaks each " +
    "place that forgot it",
  () => {
    const wrong: string[] = [];
    for (const file of CODE.filter((one) => one.startsWith("engine/"))) {
      for (const match of read(file).matchAll(/^( *)switch \(op\.opcode\) \{\n([\s\S]*?)^\1\}/gm)) {
        if (/^ *default:/m.test(match[2]!)) wrong.push(file);
      }
    }
    expect(wrong).toEqual([]);
  },
);

test("what the host runs by and is built by is no development dependency", () => {
  const { dependencies } = JSON.parse(read("package.json")) as { dependencies: Record<string, string> };
  // The machine that only runs the host builds the pages and the programs with what `npm ci --omit=dev` left.
  const runs = [...CODE, "vite.config.ts"].flatMap((file) =>
    [...read(file).matchAll(/(?:\bfrom|^import) "([\w@][\w@/.-]*)";$|\bimport\("([\w@][\w@/.-]*)"\)/gm)].map(
      (found) => found[1] ?? found[2]!,
    ),
  );
  const packages = runs
    .filter((name) => !name.startsWith("node:"))
    .map((name) =>
      name
        .split("/")
        .slice(0, name.startsWith("@") ? 2 : 1)
        .join("/"),
    );
  expect([...new Set(packages)].filter((name) => dependencies[name] === undefined)).toEqual([]);
});
