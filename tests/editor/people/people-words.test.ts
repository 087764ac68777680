// The words of the sign-in and people pages: every refusal that the host can give there has its Spanish,
// found in the host's own sources.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { parseAst, transformWithOxc } from "vite";
import { expect, test } from "vitest";
import { enPeople } from "../../../editor/people/words/en-people.ts";
import { esPeople } from "../../../editor/people/words/es-people.ts";
import { refusalInSpanish } from "../../../editor/people/words/es-refusals.ts";

const host = fileURLToPath(new URL("../../../editor/host/", import.meta.url));
const sources = [
  ...readdirSync(join(host, "people")).map((name) => join(host, "people", name)),
  ...["api/people.ts", "api/who.ts", "database/database-errors.ts"].map((name) => join(host, name)),
];

type Node = { readonly type: string; readonly [part: string]: unknown };
const isNode = (part: unknown): part is Node => typeof part === "object" && part !== null && "type" in part;

/** Every way in which an expression of texts can come out; what is no text stands as 7. */
function texts(node: Node): readonly string[] {
  if (node.type === "Literal" && typeof node["value"] === "string") return [node["value"]];
  if (node.type === "ConditionalExpression")
    return [...texts(node["consequent"] as Node), ...texts(node["alternate"] as Node)];
  if (node.type !== "TemplateLiteral") return ["7"];
  const fixed = (node["quasis"] as readonly { readonly value: { readonly cooked: string } }[]).map(
    (one) => one.value.cooked,
  );
  return (node["expressions"] as readonly Node[]).reduce<readonly string[]>(
    (all, one, i) => all.flatMap((before) => texts(one).map((middle) => before + middle + fixed[i + 1]!)),
    [fixed[0]!],
  );
}

async function refusals(file: string): Promise<readonly string[]> {
  const { code } = await transformWithOxc(readFileSync(file, "utf8"), file);
  const found: string[] = [];
  const walk = (part: unknown): void => {
    if (Array.isArray(part)) part.forEach(walk);
    if (!isNode(part)) return;
    if (part.type === "NewExpression" && (part["callee"] as Node)["name"] === "Trouble")
      found.push(...texts((part["arguments"] as readonly Node[])[1]!));
    for (const value of Object.values(part)) walk(value);
  };
  walk(parseAst(code));
  return found;
}

test("every refusal of the host on these pages is said in Spanish, with its figures", async () => {
  const all = (await Promise.all(sources.map(refusals))).flat();
  expect(all.length).toBeGreaterThan(20);
  expect(all.filter((says) => refusalInSpanish(says) === says)).toEqual([]);
  expect(refusalInSpanish("Too many tries have failed. Wait 12 minutes and try again.")).toBe(
    "Han fallado demasiados intentos. Espere 12 minutos e inténtelo otra vez.",
  );
  expect(refusalInSpanish("This needs a lead; R. Vane is a technician.")).toBe(
    "Para esto hace falta ser responsable; R. Vane es técnico.",
  );
  expect(refusalInSpanish("Something new.")).toBe("Something new.");
});

test("both languages fill the same facts", () => {
  const facts = (text: string): readonly string[] =>
    [...text.matchAll(/\{\w+\}/g)].map(([fact]) => fact).sort();
  for (const key of Object.keys(enPeople) as (keyof typeof enPeople)[])
    expect([key, facts(esPeople[key])]).toEqual([key, facts(enPeople[key])]);
});
