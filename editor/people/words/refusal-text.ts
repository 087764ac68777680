// A refusal of the host as one sentence in the page's language.
import { type RefusalCode, type RefusalValues, refusalSentence } from "../../../core/schemas/refusal.ts";
import type { Language } from "../../ui/words/words.ts";
import { enPeople } from "./en-people.ts";
import { esPeople } from "./es-people.ts";
import { esRefusals } from "./es-refusals.ts";

/** As the host sends it: a sentence in English, and for those of these pages a code and values. */
export interface Refused {
  readonly says?: string;
  readonly code?: string;
  readonly values?: Readonly<Record<string, unknown>>;
}

const hasWords = (code: string): code is RefusalCode => Object.hasOwn(esRefusals, code);

/**
 * In English as the host says it where its code is not known; undefined where it says nothing. A name that
 * it cannot take is the one thing of these pages that its schemas refuse.
 */
export function refusalText({ says, code, values = {} }: Refused, language: Language): string | undefined {
  const { fields } = values;
  if (code === "not-understood" && Array.isArray(fields) && fields.includes("name"))
    return (language === "es" ? esPeople : enPeople)["sign.name-wrong"];
  return language === "es" && code !== undefined && hasWords(code)
    ? refusalSentence(esRefusals, code, values as unknown as RefusalValues[typeof code])
    : says;
}
