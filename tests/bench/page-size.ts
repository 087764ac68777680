// The compressed size of what a page of dist/bench loads before anyone acts: its html, its styles, its scripts and what
// those import in turn. Fonts and workers come beside and are counted apart.
import { existsSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { gzipSync } from "node:zlib";

export interface PageSize { readonly files: readonly { readonly name: string; readonly bytes: number }[]; readonly total: number; readonly monaco: boolean; readonly workers: number }

export function pageSize(root: string, page: string): PageSize | undefined {
  const html = join(root, "dist/bench", page);
  if (!existsSync(html)) return undefined;
  const base = dirname(html);
  const seen = new Map<string, number>();
  const workers = new Map<string, number>();
  let monaco = false;
  const visit = (file: string) => {
    if (seen.has(file) || !existsSync(file)) return;
    const content = readFileSync(file);
    seen.set(file, gzipSync(content, { level: 9 }).length);
    const text = content.toString("utf8");
    if (/monaco-editor|MonacoEnvironment|monaco-workbench|\.monaco-editor/.test(text) && !file.endsWith(".html")) monaco = true;
    const from = dirname(file);
    if (file.endsWith(".html")) for (const [, address] of text.matchAll(/(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)) visit(join(base, address!));
    else if (file.endsWith(".js")) {
      // Static imports only: `import(...)` is loaded when someone asks for it.
      for (const [, address] of text.matchAll(/(?:\bfrom|\bimport)\s*"(\.[^"]+\.js)"/g)) visit(join(from, address!));
      for (const [, address] of text.matchAll(/new URL\(\s*["'`]([^"'`]*worker[^"'`]*\.js)["'`]/gi)) { const worker = join(address!.startsWith("/") ? base : from, address!); if (existsSync(worker)) workers.set(worker, gzipSync(readFileSync(worker), { level: 9 }).length); }
    }
  };
  visit(html);
  const files = [...seen].map(([name, bytes]) => ({ name: relative(base, name), bytes }));
  return { files, total: files.reduce((sum, file) => sum + file.bytes, 0), monaco, workers: [...workers.values()].reduce((a, b) => a + b, 0) };
}
