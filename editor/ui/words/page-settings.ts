// What a person has set for this device's page: the language, the hand that holds the tablet. Remembered by
// the browser; the page works without if it may not remember.
import { useSyncExternalStore } from "react";
import { createStore } from "zustand/vanilla";
import type { Language } from "./words.ts";

export type Hand = "left" | "right";
export interface PageSettings {
  readonly language: Language;
  readonly hand: Hand;
}

const name = "bevelbook page";
const store = createStore<PageSettings>()(read);
mark(store.getState());

export const usePageSettings = (): PageSettings => useSyncExternalStore(store.subscribe, store.getState);

/** The settings as they are, for what is no component. */
export const pageSettings = store.getState;

export function changePageSettings(part: Partial<PageSettings>): void {
  const settings = { ...store.getState(), ...part };
  mark(settings);
  try {
    localStorage.setItem(name, JSON.stringify(settings));
  } catch {
    // Not remembered: it holds as long as the page is open.
  }
  store.setState(settings);
}

function read(): PageSettings {
  const first: PageSettings = { language: /^es\b/i.test(navigator.language) ? "es" : "en", hand: "right" };
  try {
    const kept = JSON.parse(localStorage.getItem(name) ?? "{}") as Partial<PageSettings>;
    return {
      language: kept.language === "es" || kept.language === "en" ? kept.language : first.language,
      hand: kept.hand === "left" ? "left" : "right",
    };
  } catch {
    return first;
  }
}

/** The page says which language its words are in, and style sheets know the hand. */
function mark(settings: PageSettings): void {
  document.documentElement.lang = settings.language;
  document.documentElement.dataset["hand"] = settings.hand;
}
