// The catalogues of the app's words: whole in every language, with the same facts, and used; and no English
// word written past them on the technician's page.
import { readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseAst } from "vite";
import { describe, expect, it } from "vitest";
import { en } from "../../../editor/ui/words/en.ts";
import { enLate } from "../../../editor/ui/words/en-lazy.ts";
import { esLate } from "../../../editor/ui/words/es-lazy.ts";
import { es } from "../../../editor/ui/words/es.ts";

const bench = fileURLToPath(new URL("../../../editor/", import.meta.url));
const facts = (text: string) => [...text.matchAll(/\{(\w+)\}/g)].map(([, name]) => name!).sort();
const english: Readonly<Record<string, string>> = { ...en, ...enLate };
const spanish: Readonly<Record<string, string>> = { ...es, ...esLate };

/** Words that are the same in both languages, each on purpose. */
const alike = new Set<string>(["ask.no", "draw.panel", "draw.thickness", "record.what"]);

describe("the catalogues", () => {
  it("hold the same keys, none empty", () => {
    expect(Object.keys(spanish).sort()).toEqual(Object.keys(english).sort());
    for (const [key, text] of [...Object.entries(english), ...Object.entries(spanish)])
      expect(text.trim(), key).not.toBe("");
  });
  it("fill in the same facts", () => {
    for (const key of Object.keys(english))
      expect([key, facts(spanish[key] ?? "")]).toEqual([key, facts(english[key]!)]);
  });
  it("say nothing in English where Spanish is meant", () => {
    const same = Object.keys(english).filter(
      (key) =>
        spanish[key] === english[key] &&
        /\p{L}{2}/u.test(english[key]!.replace(/\{\w+\}/g, "")) &&
        !alike.has(key),
    );
    expect(same).toEqual([]);
  });
  it("set Spanish as Spanish is set: opened questions, angled quotation marks, like endings", () => {
    for (const [key, text] of Object.entries(spanish)) {
      expect((text.match(/\?/g) ?? []).length, key).toBe((text.match(/¿/g) ?? []).length);
      expect((text.match(/!/g) ?? []).length, key).toBe((text.match(/¡/g) ?? []).length);
      expect(text, key).not.toMatch(/[“”"]/);
      expect(/(?<!UU)[.…:?]$/.exec(text)?.[0] ?? "", key).toBe(/[.…:?]$/.exec(english[key]!)?.[0] ?? "");
    }
  });
  it("say a pot life as a limit, not as a time to wait for", () => {
    // A mixed cup has to be used up within its pot life. "Úselo en 25 min" also reads as "use it in 25 min".
    expect(english["mix.start"]).toContain("within {time}");
    expect(spanish["mix.start"]).toContain("en menos de {time}");
  });
  it("hold nothing that no screen asks for", () => {
    const texts = sources(bench)
      .map((file) => readFileSync(file, "utf8"))
      .join("\n");
    const made = /^(state|does|settings\.units|settings\.hand|why)\./;
    const unused = Object.keys(english).filter(
      (key) => !texts.includes(`"${key}"`) && !made.test(key) && !madeOf(key, texts),
    );
    expect(unused).toEqual([]);
  });
});

describe("the words of the first screen", () => {
  it("hold all that is drawn before the others are fetched", () => {
    const first = importedBy(join(bench, "technician/job-page.tsx"));
    expect(first.size).toBeGreaterThan(60);
    const late = Object.keys(enLate).filter((key) =>
      [...first].some((file) => readFileSync(file, "utf8").includes(`"${key}"`)),
    );
    expect(late).toEqual([]);
  });
});

/** The file and all that it imports, but for types and for what is fetched by `import(…)`. */
function importedBy(file: string, found = new Set<string>()): ReadonlySet<string> {
  if (found.has(file)) return found;
  found.add(file);
  const named = /^(?:import|export)(?! type\b)[^;"']*?from\s+"(\.[^"]+\.tsx?)"/gm;
  for (const [, path] of readFileSync(file, "utf8").matchAll(named))
    importedBy(join(file, "..", path!), found);
  return found;
}

/** Every source of the bench but the catalogues. */
function sources(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sources(path);
    return /\.tsx?$/.test(entry.name) && !/words\/(en|es)(-late|\/[\w-]+)?\.ts$/.test(path) ? [path] : [];
  });
}

/** A key put together from a beginning and a part: `say(`draw.${shape}`)`. */
const madeOf = (key: string, texts: string): boolean =>
  key.split(/[.-]/).length > 1 &&
  [...key.matchAll(/[.-]/g)].some((at) => texts.includes(`\`${key.slice(0, at.index + 1)}\${`));

// ───────────── bare words ─────────────

interface Node {
  readonly type: string;
  readonly [part: string]: unknown;
}

/** The page's own rooms, and the parts that it shares with the workbench. */
const onThePage = [
  ...sources(join(bench, "card")),
  ...sources(join(bench, "technician")),
  ...sources(join(bench, "ui/drawings")),
  ...["state-mark", "unit-switch", "pieces-text", "why-panel", "why-line", "pick-one", "dimension-line"].map(
    (name) => join(bench, "ui/parts", `${name}.tsx`),
  ),
].filter((file) => file.endsWith(".tsx"));

/** Attributes that a person hears or reads. */
const spoken =
  /^(aria-label|aria-description|aria-roledescription|alt|title|placeholder|legend|says|heading|label)$/;
const isWord = (text: string): boolean => /\p{L}{2}/u.test(text);

/**
 * Texts that stand in an element as they are: between its tags, in what a person hears, or as one way of a
 * choice.
 */
function bareWords(file: string): readonly string[] {
  const found: string[] = [];
  const shown = (node: Node): void => {
    switch (node.type) {
      case "Literal":
        if (typeof node["value"] === "string" && isWord(node["value"])) found.push(node["value"]);
        return;
      case "TemplateLiteral":
        for (const part of node["quasis"] as readonly Node[]) {
          const { cooked } = part["value"] as { readonly cooked: string };
          if (isWord(cooked)) found.push(cooked);
        }
        for (const part of node["expressions"] as readonly Node[]) shown(part);
        return;
      case "ConditionalExpression":
        shown(node["consequent"] as Node);
        shown(node["alternate"] as Node);
        return;
      case "LogicalExpression":
        shown(node["right"] as Node);
        if (node["operator"] !== "&&") shown(node["left"] as Node);
        return;
      case "BinaryExpression":
        shown(node["left"] as Node);
        shown(node["right"] as Node);
        return;
    }
  };
  const walk = (node: unknown): void => {
    if (Array.isArray(node)) {
      node.forEach(walk);
      return;
    }
    if (node === null || typeof node !== "object" || !("type" in node)) return;
    const one = node as Node;
    if (one.type === "JSXText" && isWord(String(one["value"]))) found.push(String(one["value"]).trim());
    if (one.type === "JSXElement" || one.type === "JSXFragment")
      for (const child of one["children"] as readonly Node[])
        if (child.type === "JSXExpressionContainer") shown(child["expression"] as Node);
    if (one.type === "JSXAttribute" && spoken.test(String((one["name"] as Node)["name"]))) {
      const value = one["value"] as Node | null;
      if (value?.type === "Literal") shown(value);
      else if (
        value?.type === "JSXExpressionContainer" &&
        (value["expression"] as Node).type !== "CallExpression"
      )
        shown(value["expression"] as Node);
    }
    for (const part of Object.values(one)) if (part !== null && typeof part === "object") walk(part);
  };
  walk(parseAst(readFileSync(file, "utf8"), { lang: "tsx" }));
  return found;
}

describe("the technician's page", () => {
  /** Signs and units that are written alike everywhere. */
  const written = new Set(["inch"]);
  it("is looked through in all its rooms", () => {
    expect(onThePage.length).toBeGreaterThan(20);
  });
  it.each(onThePage.map((file) => [file.slice(bench.length), file]))(
    "%s says its words by the catalogue",
    (_name, file) => {
      expect(bareWords(file).filter((text) => !written.has(text.trim()))).toEqual([]);
    },
  );
  it("would be found out", () => {
    // The rule itself is tried on a page that breaks it in each way.
    expect(
      found(
        // biome-ignore lint/suspicious/noTemplateCurlyInString: it is source text of a page
        'const A = () => <p title="Two words">{yes ? "Three words" : `and ${n} more`} ' +
          'and bare {b && "once"}</p>;',
      ),
    ).toEqual(expect.arrayContaining(["Two words", "Three words", "once"]));
    expect(found('const A = () => <p className="two words" data-x="no word">{say("a.key")}</p>;')).toEqual(
      [],
    );
  });
});

function found(text: string): readonly string[] {
  const file = join(process.env["TMPDIR"] ?? "/tmp", `bare-words-${process.pid}.tsx`);
  writeFileSync(file, text);
  try {
    return bareWords(file);
  } finally {
    rmSync(file);
  }
}
