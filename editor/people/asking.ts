// What the sign-in and people pages ask of the host, and their words.
import type { PeopleWord } from "./words/en-people.ts";
import { enPeople } from "./words/en-people.ts";
import { esPeople } from "./words/es-people.ts";
import { type Refused, refusalText } from "./words/refusal-text.ts";
import { pageSettings } from "../ui/words/page-settings.ts";

export type SayPeople = (key: PeopleWord, facts?: Readonly<Record<string, string | number>>) => string;

export const sayPeople: SayPeople = (key, facts = {}) =>
  (pageSettings().language === "es" ? esPeople : enPeople)[key].replace(/\{(\w+)\}/g, (hole, name: string) =>
    Object.hasOwn(facts, name) ? String(facts[name]) : hole,
  );

/** The answer, or the sentence of a refusal. */
export type Answer<T> = { readonly got: T } | { readonly says: string; readonly status: number };

export async function ask<T>(
  method: "GET" | "POST" | "PUT" | "DELETE",
  path: string,
  body?: unknown,
): Promise<Answer<T>> {
  try {
    const answer = await fetch(path, {
      method,
      ...(body === undefined
        ? {}
        : { headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) }),
    });
    const said = (await answer.json()) as T & Refused;
    if (answer.ok) return { got: said };
    return {
      says: refusalText(said, pageSettings().language) ?? sayPeople("sign.away"),
      status: answer.status,
    };
  } catch {
    return { says: sayPeople("sign.away"), status: 0 };
  }
}
