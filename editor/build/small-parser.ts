// How the build makes the parser's package small: its library of helpers, its checks of a grammar's author
// and what the grammar does not ask for are replaced by the files beside this one, and the options that lead
// to them are decided here. The tests hold what is built so against the whole.
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

const own = (name: string): string => fileURLToPath(new URL(`./${name}`, import.meta.url));
const inParser = (file: string): boolean => /[\\/]node_modules[\\/]@?chevrotain[\\/]/.test(file);

/** The numbered calls of the parser (`CONSUME2`) that the grammar makes. */
const grammar = new URL("../../engine/language/syntax/", import.meta.url);
const called = new Set(
  ["grammar", "grammar-clauses", "grammar-literals", "grammar-rules"].flatMap((name) =>
    [...readFileSync(new URL(`${name}.ts`, grammar), "utf8").matchAll(/this\.([A-Z_]+\d)/g)].map(
      ([, call]) => call,
    ),
  ),
);

/** For the pages and for their workers alike. */
export const smallParser = (): Plugin => ({
  name: "small-parser",
  enforce: "pre",
  resolveId(asked, from) {
    if (from === undefined || !inParser(from)) return undefined;
    if (asked === "lodash-es") return own("small-lodash.ts");
    if (/(^|\/)checks\.js$/.test(asked)) return own("no-grammar-checks.ts");
    if (asked === "@chevrotain/regexp-to-ast" || /(^|\/)(reg_exp|reg_exp_parser)\.js$/.test(asked))
      return own("unused-lexer-parts.ts");
    if (/(^|\/)errors_public\.js$/.test(asked)) return own("short-parser-messages.ts");
    return /(^|\/)(recoverable|context_assist|cst_visitor|tree_builder)\.js$/.test(asked)
      ? own("unused-parser-parts.ts")
      : undefined;
  },
  transform(code, file) {
    if (!inParser(file)) return undefined;
    const small = code
      .replace(/this\.(config\.)?skipValidations === false/g, "false")
      // The parser asks for no recovery; the calls that would begin it name classes that nothing else does.
      .replace(/resyncEnabledConfig && !this\.isBackTracking\(\) && this\.recoveryEnabled/, "false")
      .replace(/\bthis\.(recoveryEnabled|outputCst)\b/g, "false")
      .replace(/\bthis\.attemptInRepetitionRecovery\([^;]*\);/g, "");
    const calls = /recognizer_api\.js$/.test(file)
      ? small.replace(/^ {4}([A-Z_]+\d)\([^)]*\) \{\n(?: {8}.*\n)+? {4}\}\n/gm, (whole, name: string) =>
          called.has(name) ? whole : "",
        )
      : small;
    return calls === code ? undefined : { code: calls, map: null };
  },
});
