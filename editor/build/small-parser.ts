// How the build makes the parser's package small: its library of helpers and its checks of a grammar's author
// are replaced by the two files beside this one, and its option to skip such checks is decided here. The
// tests hold what is built so against the whole.
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const own = (name: string): string => fileURLToPath(new URL(`./${name}`, import.meta.url));
const inParser = (file: string): boolean => /[\\/]node_modules[\\/]@?chevrotain[\\/]/.test(file);

/** For the pages and for their workers alike. */
export const smallParser = (): Plugin => ({
  name: "small-parser",
  enforce: "pre",
  resolveId(asked, from) {
    if (from === undefined || !inParser(from)) return undefined;
    if (asked === "lodash-es") return own("small-lodash.ts");
    return /(^|\/)checks\.js$/.test(asked) ? own("no-grammar-checks.ts") : undefined;
  },
  transform(code, file) {
    if (!inParser(file)) return undefined;
    const asks = /this\.(config\.)?skipValidations === false/g;
    return asks.test(code) ? { code: code.replace(asks, "false"), map: null } : undefined;
  },
});
