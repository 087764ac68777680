// Which language the app's own words are in, and a word by its key. The book's texts are the shop's and stay as they are.
import { createContext, useContext } from "react";
import { en } from "./en.ts";
import type { WordKey } from "./en.ts";
import { es } from "./es.ts";

export type Language = "en" | "es";

/** Each by its own name, for those who read it. */
export const languages: Readonly<Record<Language, string>> = { en: "English", es: "Español" };

export type Say = (key: WordKey, facts?: Readonly<Record<string, string | number>>) => string;

const catalogues: Readonly<Record<Language, Readonly<Record<WordKey, string>>>> = { en, es };

const filledIn = (language: Language): Say => (key, facts = {}) =>
  catalogues[language][key].replace(/\{(\w+)\}/g, (hole, name: string) => (Object.hasOwn(facts, name) ? String(facts[name]) : hole));

const says: Readonly<Record<Language, Say>> = { en: filledIn("en"), es: filledIn("es") };

/** The words of one language, the same function every time; `{fact}` in a text is filled with the fact of that name. */
export const wordsIn = (language: Language): Say => says[language];

/** English, for what is asked outside a page: tests, and screens that know one language. */
export const english: Say = wordsIn("en");

export const WordsContext = createContext<Say>(english);

/** `const say = useWords(); say("card.heading")`. */
export const useWords = (): Say => useContext(WordsContext);
