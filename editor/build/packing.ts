// Packs the built files once, when they are built, so that the host sends the smallest form without working
// for it.
import { readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const texts = /\.(js|css|html|svg|bevel|ttf|webmanifest)$/;

/** Above this many bytes the last few hundredths cost seconds of every build. */
const large = 1_000_000;

/**
 * Writes `name.br` and `name.gz` beside every text in the folder and below it; what was packed since it was
 * written is left.
 */
export function packFolder(folder: string): void {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) packFolder(path);
    else if (texts.test(entry.name) && !isPacked(path)) {
      const content = readFileSync(path);
      writeFileSync(`${path}.gz`, gzipSync(content, { level: 9 }));
      writeFileSync(
        `${path}.br`,
        brotliCompressSync(content, {
          params: {
            [constants.BROTLI_PARAM_QUALITY]: content.length > large ? 9 : 11,
            [constants.BROTLI_PARAM_SIZE_HINT]: content.length,
          },
        }),
      );
    }
  }
}

function isPacked(path: string): boolean {
  const packed = [`${path}.br`, `${path}.gz`].map(
    (one) => statSync(one, { throwIfNoEntry: false })?.mtimeMs ?? 0,
  );
  return Math.min(...packed) > statSync(path).mtimeMs;
}
