// The words of the sign-in and people pages: every refusal that the host can give there has its Spanish, with
// the same figures and names.
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { type RefusalCode, type RefusalValues, refusalSentence } from "../../../core/schemas/refusal.ts";
import { enRefusals, refusalOf } from "../../../editor/host/trouble.ts";
import { enPeople } from "../../../editor/people/words/en-people.ts";
import { esPeople } from "../../../editor/people/words/es-people.ts";
import { esRefusals } from "../../../editor/people/words/es-refusals.ts";
import { refusalText } from "../../../editor/people/words/refusal-text.ts";

const host = fileURLToPath(new URL("../../../editor/host/", import.meta.url));
const sources = [
  ...readdirSync(join(host, "people")).map((name) => join(host, "people", name)),
  ...["api/app.ts", "api/people-routes.ts", "api/who.ts", "database/database-errors.ts"].map((name) =>
    join(host, name),
  ),
];

/** Values that turn up nowhere else in a sentence. */
const values: { readonly [Code in RefusalCode]?: RefusalValues[Code] } = {
  "sign-in-wait": { seconds: 73 },
  "password-short": { least: 71 },
  "password-long": { most: 72 },
  "role-too-low": { name: "R. Vane", role: "viewer", needed: "lead" },
  "database-unreachable": { detail: "08006" },
  "too-large": { bytes: 74 },
  "not-understood": { detail: "why.", fields: [] },
};
const codes = Object.keys(enRefusals) as RefusalCode[];

test("every refusal on these pages has a code, and every code its Spanish with the same figures", () => {
  // A sentence without a code has no Spanish.
  expect(sources.filter((file) => readFileSync(file, "utf8").includes("new Trouble("))).toEqual([]);
  expect(codes.length).toBeGreaterThan(20);
  expect(Object.keys(esRefusals).sort()).toEqual([...codes].sort());
  const spanish = codes.map((code) => refusalSentence(esRefusals, code, (values[code] ?? {}) as never));
  codes.forEach((code, i) => {
    const english = refusalSentence(enRefusals, code, (values[code] ?? {}) as never);
    expect(spanish[i], code).toMatch(/^[A-ZÁÉÍÓÚ¿¡].*\.$/);
    expect(spanish[i], code).not.toBe(english);
    expect(spanish[i], code).not.toMatch(/undefined|\[object|[{}]/);
    // How large is too large and what a database answers are for whoever keeps the host.
    if (code !== "too-large" && code !== "database-unreachable")
      expect(spanish[i]!.match(/\d+/g), code).toEqual(english.match(/\d+/g));
  });
  expect(new Set(spanish).size).toBe(codes.length);
});

test("a refusal is said in the page's language, and in English where its code is not known", () => {
  const sent = (refused: object) => JSON.parse(JSON.stringify(refused)) as object;
  const wait = sent(refusalOf("sign-in-wait", { seconds: 12 * 60 - 1 }));
  expect(refusalText(wait, "en")).toBe("Too many tries have failed. Wait 12 minutes and try again.");
  expect(refusalText(wait, "es")).toBe(
    "Han fallado demasiados intentos. Espere 12 minutos e inténtelo otra vez.",
  );
  expect(refusalText(sent(refusalOf("sign-in-wait", { seconds: 90 })), "es")).toContain("90 segundos");
  const role = sent(refusalOf("role-too-low", { name: "R. Vane", role: "technician", needed: "lead" }));
  expect(refusalText(role, "en")).toBe("This needs a lead; R. Vane is a technician.");
  expect(refusalText(role, "es")).toBe("Para esto hace falta ser responsable; R. Vane es técnico.");
  const name = sent(refusalOf("not-understood", { detail: "name: too long.", fields: ["name"] }));
  expect(refusalText(name, "en")).toBe(enPeople["sign.name-wrong"]);
  expect(refusalText(name, "es")).toBe(esPeople["sign.name-wrong"]);
  expect(refusalText({ says: "Something new.", code: "something-new" }, "es")).toBe("Something new.");
  expect(refusalText({ says: "Something new." }, "es")).toBe("Something new.");
  expect(refusalText({}, "es")).toBeUndefined();
});

test("both languages fill the same facts", () => {
  const facts = (text: string): readonly string[] =>
    [...text.matchAll(/\{\w+\}/g)].map(([fact]) => fact).sort();
  for (const key of Object.keys(enPeople) as (keyof typeof enPeople)[])
    expect([key, facts(esPeople[key])]).toEqual([key, facts(enPeople[key])]);
});
