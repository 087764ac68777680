// What a built page loads before and while it is used, by weight: its scripts, its styles and the scripts of its workers,
// and apart from them its fonts, pictures and books. Weighed as the host sends them.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

export interface LoadedFile {
  /** Path below the folder of the built pages, e.g. `assets/job-1a2b.js`. */
  readonly name: string;
  readonly bytes: number;
  /** Packed with gzip, which every browser takes; as it is for fonts, which are packed already. Brotli is sent where it is taken, and is smaller. */
  readonly compressed: number;
}

export interface PageSize {
  /** Scripts and styles, workers included. */
  readonly files: readonly LoadedFile[];
  /** Sum of `files` as sent, in bytes. */
  readonly compressed: number;
  readonly others: readonly LoadedFile[];
}

/** Follows every name of a file of the build from the page onwards, so that what is loaded later counts as well. */
export function pageSize(folder: string, page: string): PageSize {
  const seen = new Map<string, LoadedFile>();
  const follow = (name: string): void => {
    if (seen.has(name) || !existsSync(join(folder, name))) return;
    const content = readFileSync(join(folder, name));
    const packed = /\.(js|css|html|svg|bevel)$/.test(name);
    seen.set(name, { name, bytes: content.length, compressed: packed ? gzipSync(content, { level: 9 }).length : content.length });
    if (!/\.(js|css|html)$/.test(name)) return;
    for (const [found] of content.toString("utf8").matchAll(/[\w.-]+-[\w-]{8}\.(?:js|css|woff2|ttf|svg|bevel)\b/g)) follow(`assets/${found}`);
  };
  follow(page);
  const loaded = [...seen.values()].filter((file) => file.name !== page);
  const files = loaded.filter((file) => /\.(js|css)$/.test(file.name));
  return { files, compressed: files.reduce((sum, file) => sum + file.compressed, 0), others: loaded.filter((file) => !files.includes(file)) };
}
