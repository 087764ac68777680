// The host: what it sends and in which form, what it refuses, and when it builds anew.
import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliDecompressSync, gunzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { needsBuild } from "../../../editor/host/page-build.ts";
import { packFolder } from "../../../editor/build/packing.ts";
import { pageSize } from "../../../editor/build/page-size.ts";
import { pagesApp } from "../../../editor/host/pages.ts";
import { readSettings } from "../../../editor/host/settings.ts";

let folder = "";
const script = `// ${"a line that packs well ".repeat(50)}`;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "bevelbook-host-"));
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "job.html"), '<script type="module" src="./assets/job-12345678.js"></script>');
  writeFileSync(join(folder, "index.html"), "<p>the bench</p>");
  writeFileSync(
    join(folder, "assets", "job-12345678.js"),
    `${script}\nnew Worker(new URL("work-abcdefgh.js", import.meta.url)); const ` +
      `later = () => import("./after-11112222.js")`,
  );
  writeFileSync(join(folder, "assets", "work-abcdefgh.js"), script);
  writeFileSync(
    join(folder, "assets", "after-11112222.js"),
    `import{a}from"./work-abcdefgh.js";import"./deep-33334444.js";${script}`,
  );
  writeFileSync(join(folder, "assets", "deep-33334444.js"), script);
  writeFileSync(join(folder, "assets", "other-87654321.js"), script);
  packFolder(folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const get = (path: string, takes = "identity") =>
  pagesApp(folder).request(path, { headers: { "Accept-Encoding": takes } });

test("each browser gets the smallest form that it takes", async () => {
  const plain = Buffer.from(await (await get("/assets/job-12345678.js")).arrayBuffer());
  expect(plain.toString()).toContain("new Worker");
  const br = await get("/assets/job-12345678.js", "gzip, br");
  expect(br.headers.get("content-encoding")).toBe("br");
  expect(br.headers.get("vary")).toMatch(/accept-encoding/i);
  expect(brotliDecompressSync(Buffer.from(await br.arrayBuffer()))).toEqual(plain);
  const gz = await get("/assets/job-12345678.js", "gzip");
  expect(gz.headers.get("content-encoding")).toBe("gzip");
  expect(gz.headers.get("content-type")).toMatch(/javascript/);
  expect(gunzipSync(Buffer.from(await gz.arrayBuffer()))).toEqual(plain);
});

test("pages are asked for anew each time, named files are kept", async () => {
  expect((await get("/")).headers.get("cache-control")).toBe("no-cache");
  expect((await get("/assets/job-12345678.js")).headers.get("cache-control")).toMatch(/immutable/);
});

test("no text is run as a script, on pages, files and refusals alike", async () => {
  for (const path of ["/", "/job.html", "/assets/job-12345678.js", "/nothing"]) {
    const policy = (await get(path)).headers.get("content-security-policy") ?? "";
    expect(policy).toContain("script-src 'self'");
    expect(policy).not.toMatch(/unsafe-eval|script-src[^;]*unsafe-inline/);
  }
});

test("nothing outside the folder is sent", async () => {
  for (const path of [
    "/../package.json",
    "/..%2fpackage.json",
    "/assets/..%2f..%2f..%2fetc%2fpasswd",
    "/%2e%2e/package.json",
  ]) {
    const answer = await get(path);
    expect(answer.status, path).toBe(404);
  }
  expect(await (await get("/nothing")).text()).toContain("/job.html");
  expect((await get("/job")).headers.get("location")).toBe("/job.html");
});

test("what a page loads is summed with its workers, at once and later", () => {
  const { files, first, later, all } = pageSize(folder, "job.html");
  const named = (wanted: boolean) =>
    files
      .filter((file) => file.first === wanted)
      .map((file) => file.name)
      .sort();
  expect(named(true)).toEqual(["assets/job-12345678.js", "assets/work-abcdefgh.js", "job.html"]);
  // What is imported at the head of a part that comes later comes later too.
  expect(named(false)).toEqual(["assets/after-11112222.js", "assets/deep-33334444.js"]);
  for (const unit of ["bytes", "gzip", "brotli"] as const) {
    expect(first[unit]).toBe(files.filter((file) => file.first).reduce((sum, file) => sum + file[unit], 0));
    expect(all[unit]).toBe(first[unit] + later[unit]);
  }
  expect(first.brotli).toBeLessThan(first.bytes);
});

test("settings are read, or told in a sentence", () => {
  expect(readSettings({})).toEqual({ host: "127.0.0.1", port: 4173 });
  expect(readSettings({ PORT: "0", HOST: "::1" })).toEqual({ host: "::1", port: 0 });
  for (const PORT of ["65536", "-1", "4e3", "a", "80.5"])
    expect(readSettings({ PORT })).toHaveProperty("wrong");
});

test("pages are built anew when a source is newer, and only then", () => {
  const project = mkdtempSync(join(tmpdir(), "bevelbook-project-"));
  try {
    mkdirSync(join(project, "core"));
    writeFileSync(join(project, "core", "unit.ts"), "");
    const dist = join(project, "dist");
    expect(needsBuild(project, dist)).toBe(true);
    mkdirSync(dist);
    for (const page of ["index.html", "job.html"]) writeFileSync(join(dist, page), "");
    utimesSync(join(project, "core", "unit.ts"), 1000, 1000);
    expect(needsBuild(project, dist)).toBe(false);
    utimesSync(join(dist, "job.html"), 999, 999);
    expect(needsBuild(project, dist)).toBe(true);
  } finally {
    rmSync(project, { recursive: true, force: true });
  }
});
