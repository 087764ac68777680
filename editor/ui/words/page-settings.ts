// What a person has set for this device's page: the language, the hand that holds the tablet. Remembered by
// the browser; the page works without if it may not remember.
import { useSyncExternalStore } from "react";
import type { Language } from "./words.ts";

export type Hand = "left" | "right";
export interface PageSettings {
  readonly language: Language;
  readonly hand: Hand;
}

const name = "bevelbook page";
const listeners = new Set<() => void>();
let settings: PageSettings = read();
mark();

export const usePageSettings = (): PageSettings =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    () => settings,
  );

/** The settings as they are, for what is no component. */
export const pageSettings = (): PageSettings => settings;

export function changePageSettings(part: Partial<PageSettings>): void {
  settings = { ...settings, ...part };
  mark();
  try {
    localStorage.setItem(name, JSON.stringify(settings));
  } catch {
    // Not remembered: it holds as long as the page is open.
  }
  for (const listener of listeners) listener();
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
function mark(): void {
  document.documentElement.lang = settings.language;
  document.documentElement.dataset["hand"] = settings.hand;
}
