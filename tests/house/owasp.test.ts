// The table of the OWASP Top 10 (2021) in editor/host/DESIGN.md: each item has a line there, and at least one
// test that carries its name.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const project = fileURLToPath(new URL("../..", import.meta.url));
const items = Array.from({ length: 10 }, (_, i) => `A${String(i + 1).padStart(2, "0")}`);

test("each item of the OWASP Top 10 has a line in editor/host/DESIGN.md and a test of its name", () => {
  const lines = readFileSync(join(project, "editor/host/DESIGN.md"), "utf8").split("\n");
  const titles = ["tests/editor/host", "tests/screens"].flatMap((room) =>
    readdirSync(join(project, room))
      .filter((name) => name.endsWith(".test.ts"))
      .flatMap((name) =>
        [...readFileSync(join(project, room, name), "utf8").matchAll(/^ *test\("([^"]*)"/gm)].map(
          ([, title]) => title!,
        ),
      ),
  );
  for (const item of items) {
    const [line, ...more] = lines.filter((one) => one.trimStart().startsWith(`| ${item} `));
    expect([item, more.length, line?.split("|")[2]?.trim()], "one line that says what is tried").toEqual([
      item,
      0,
      expect.stringMatching(/\w/),
    ]);
    expect([
      item,
      titles.filter((title) => new RegExp(`^(A\\d\\d, )*${item}\\b`).test(title)).length > 0,
    ]).toEqual([item, true]);
  }
});
