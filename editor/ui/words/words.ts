// Which language the app's own words are in, and a word by its key. The book's texts are the shop's and stay
// as they are.
import { createContext, useContext } from "react";
import type { Decision, Reason, WordsByCode } from "../../../core/reason.ts";
import { en } from "./en.ts";
import type { WordKey } from "./en.ts";

export type Language = "en" | "es";

/** Each by its own name, for those who read it. */
export const languages: Readonly<Record<Language, string>> = { en: "English", es: "Español" };

export type Say = (key: WordKey, facts?: Readonly<Record<string, string | number>>) => string;

type Words = Readonly<Partial<Record<WordKey, string>>>;

/** What the engine says of a value, in a language other than English: English is the engine's own. */
export interface EngineWords {
  readonly reasons: WordsByCode<Reason>;
  readonly decisions: WordsByCode<Decision>;
  /** Names of asks; none where it is not known what the value waits for. */
  readonly waitsFor: (asks: readonly string[]) => string;
}

/**
 * Those at hand. The English words of the first screen are part of the page; another language, and the words
 * of what is fetched later, are fetched when they are needed.
 */
const catalogues: Record<Language, Words> = { en, es: {} };

const engineTables: { es?: EngineWords } = {};

const filledIn =
  (language: Language): Say =>
  (key, facts = {}) =>
    (catalogues[language][key] ?? catalogues.en[key] ?? key).replace(/\{(\w+)\}/g, (hole, name: string) =>
      Object.hasOwn(facts, name) ? String(facts[name]) : hole,
    );

const says: Readonly<Record<Language, Say>> = { en: filledIn("en"), es: filledIn("es") };

/** Adds words of a language. */
export function holdWords(language: Language, words: Words, engine?: EngineWords): void {
  if (engine !== undefined && language !== "en") engineTables[language] = engine;
  catalogues[language] = { ...catalogues[language], ...words };
}

/**
 * The words of one language up to the first question, once they are at hand. Rejects where they cannot be
 * fetched.
 */
export async function fetchWords(language: Language): Promise<Say> {
  if (language === "es") {
    const { es, esEngine } = await import("./es.ts");
    holdWords("es", es, esEngine);
  }
  return wordsIn(language);
}

/**
 * The words of drawings and of the panel; whoever draws those fetches them first. English is always fetched:
 * it stands in where another language cannot be. Rejects where English cannot be fetched.
 */
export async function fetchLateWords(language = languageOfPage()): Promise<void> {
  const english = import("./en-lazy.ts").then(({ enLate }) => holdWords("en", enLate));
  const other =
    language === "es"
      ? import("./es-lazy.ts").then(
          ({ esLate }) => holdWords("es", esLate),
          () => undefined,
        )
      : undefined;
  await Promise.all([english, other]);
}

/** The page is marked with the language that its words are in. */
const languageOfPage = (): Language => (document.documentElement.lang === "es" ? "es" : "en");

/**
 * The words of one language, the same function every time; `{fact}` in a text is filled with the fact of that
 * name. English stands in for a language that is not at hand.
 */
export const wordsIn = (language: Language): Say => says[language];

/** The engine's words in the language of `say`; undefined for English, and for a language not at hand. */
export const engineWordsOf = (say: Say): EngineWords | undefined =>
  say === says.es ? engineTables.es : undefined;

/** English, for what is asked outside a page: tests, and screens that know one language. */
export const english: Say = wordsIn("en");

export const WordsContext = createContext<Say>(english);

/** `const say = useWords(); say("card.heading")`. */
export const useWords = (): Say => useContext(WordsContext);
