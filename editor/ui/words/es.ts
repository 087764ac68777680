// The app's own words in Spanish, but for those of drawings, which are fetched with what draws. A test checks
// that none is missing and that each keeps its facts.
import type { WordKey } from "./en.ts";
import { esBook } from "./es/book.ts";
import { esCard } from "./es/card.ts";
import { esCloseCalls } from "./es/close-calls.ts";
import { esMixing } from "./es/mixing.ts";
import { esPage } from "./es/page.ts";
import { esQuestion } from "./es/question.ts";
import { esReasons } from "./es/reasons.ts";
import { esRecord } from "./es/record.ts";
import { esSettings } from "./es/settings.ts";
import { esState } from "./es/state.ts";
import { esTimers } from "./es/timers.ts";
import { esTolerance } from "./es/tolerance.ts";
import type { esDrawings } from "./es/drawings.ts";

export const es: Readonly<Record<Exclude<WordKey, keyof typeof esDrawings>, string>> = {
  ...esPage,
  ...esBook,
  ...esSettings,
  ...esState,
  ...esQuestion,
  ...esCard,
  ...esTolerance,
  ...esCloseCalls,
  ...esReasons,
  ...esMixing,
  ...esTimers,
  ...esRecord,
};

/** What the engine says of a value, by code. */
export { esEngine } from "./es/engine.ts";
