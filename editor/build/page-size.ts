// What a built page loads, by weight and by when: up to its first screen, or later. Scripts and styles with
// those of its workers; apart from them its fonts, pictures and books. Weighed as the host sends them: with
// brotli where the browser takes it, else with gzip.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

export interface Weight {
  readonly bytes: number;
  /**
   * Packed with gzip, which every browser takes; fonts and pictures, which are packed already, as they are.
   */
  readonly gzip: number;
  /** Packed with brotli, which browsers take over https and from their own machine. */
  readonly brotli: number;
}

interface LoadedFile extends Weight {
  /** Path below the folder of the built pages, e.g. `assets/job-1a2b.js`. */
  readonly name: string;
  /** Loaded before the first screen can stand; else later, or only when it is needed. */
  readonly first: boolean;
}

export interface PageSize {
  /** The page itself, its scripts and styles, those of its workers, and the script that keeps it offline. */
  readonly files: readonly LoadedFile[];
  /** Sums of `files`. */
  readonly first: Weight;
  readonly later: Weight;
  readonly all: Weight;
  readonly others: readonly LoadedFile[];
}

/**
 * Scripts and styles that the page names, imports that stand at a script's head, and workers: none of these
 * waits for a person.
 */
const atOnce = new RegExp(
  [
    /(?:\bfrom|\bimport|<script[^>]*\bsrc=|<link[^>]*\bhref=|new URL\()/,
    /\s*["'`](?:\.\/)?(?:assets\/)?([\w.-]+-[\w-]{8}\.(?:js|css))["'`]/,
  ]
    .map((part) => part.source)
    .join(""),
  "g",
);
const anyName = /[\w.-]+-[\w-]{8}\.(?:js|css|woff2|ttf|svg|bevel)\b|\bjob-offline\.js\b/g;

/**
 * Follows every name of a file of the build from the page onwards, so that what is loaded later counts as
 * well.
 */
export function pageSize(folder: string, page: string): PageSize {
  const seen = new Map<string, LoadedFile>();
  const follow = (name: string, first: boolean): void => {
    const known = seen.get(name);
    if ((known !== undefined && (known.first || !first)) || !existsSync(join(folder, name))) return;
    const content = readFileSync(join(folder, name));
    seen.set(name, { name, first, ...(known ?? weigh(name, content)), ...(first ? { first } : {}) });
    // The script that keeps the page offline lists all files, and loads them after the page.
    if (!/\.(js|css|html)$/.test(name) || name === "job-offline.js") return;
    const text = content.toString("utf8");
    if (first) for (const [, found] of text.matchAll(atOnce)) follow(`assets/${found}`, true);
    for (const [found] of text.matchAll(anyName))
      follow(found === "job-offline.js" ? found : `assets/${found}`, false);
  };
  follow(page, true);
  const loaded = [...seen.values()];
  const files = loaded.filter((file) => /\.(js|css|html)$/.test(file.name));
  const [first, later] = [files.filter((file) => file.first), files.filter((file) => !file.first)];
  return {
    files,
    first: sumOf(first),
    later: sumOf(later),
    all: sumOf(files),
    others: loaded.filter((file) => !files.includes(file)),
  };
}

function weigh(name: string, content: Buffer): Weight {
  if (!/\.(js|css|html|svg|bevel|ttf)$/.test(name))
    return { bytes: content.length, gzip: content.length, brotli: content.length };
  // As `packing.ts` packs it.
  return {
    bytes: content.length,
    gzip: gzipSync(content, { level: 9 }).length,
    brotli: brotliCompressSync(content, {
      params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: content.length },
    }).length,
  };
}

const sumOf = (files: readonly Weight[]): Weight => ({
  bytes: files.reduce((sum, file) => sum + file.bytes, 0),
  gzip: files.reduce((sum, file) => sum + file.gzip, 0),
  brotli: files.reduce((sum, file) => sum + file.brotli, 0),
});
