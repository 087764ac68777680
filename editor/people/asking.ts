// What the sign-in and people pages ask of the host, and their words.
import type { PeopleWord } from "./words/en-people.ts";
import { enPeople } from "./words/en-people.ts";
import { esPeople } from "./words/es-people.ts";
import { refusalInSpanish } from "./words/es-refusals.ts";
import { pageSettings } from "../ui/words/page-settings.ts";

export type SayPeople = (key: PeopleWord, facts?: Readonly<Record<string, string | number>>) => string;

export const sayPeople: SayPeople = (key, facts = {}) =>
  (pageSettings().language === "es" ? esPeople : enPeople)[key].replace(/\{(\w+)\}/g, (hole, name: string) =>
    Object.hasOwn(facts, name) ? String(facts[name]) : hole,
  );

/**
 * What the host says of a refusal, in the page's language. A name that it cannot take is the one thing of
 * these pages that its schemas refuse.
 */
function refusal(status: number, says: string | undefined): string {
  if (says === undefined) return sayPeople("sign.away");
  if (status === 400 && says.includes(" name: ")) return sayPeople("sign.name-wrong");
  return pageSettings().language === "es" ? refusalInSpanish(says) : says;
}

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
    const said = (await answer.json()) as T & { says?: string };
    return answer.ok ? { got: said } : { says: refusal(answer.status, said.says), status: answer.status };
  } catch {
    return { says: sayPeople("sign.away"), status: 0 };
  }
}
