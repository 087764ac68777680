// The app's own words in Spanish: those of the first screen. `es-lazy.ts` has the others. A test checks that
// none is missing and that each keeps its facts.
import type { en } from "./en.ts";
import { esBook } from "./es/book.ts";
import { esCard } from "./es/card.ts";
import { esCloseCalls } from "./es/close-calls.ts";
import { esJobBar } from "./es/job-bar.ts";
import { esPage } from "./es/page.ts";
import { esQuestion } from "./es/question.ts";
import { esReasons } from "./es/reasons.ts";
import { esSettings } from "./es/settings.ts";
import { esState } from "./es/state.ts";
import { esTimers } from "./es/timers.ts";
import { esTolerance } from "./es/tolerance.ts";

export const es: Readonly<Record<keyof typeof en, string>> = {
  ...esPage,
  ...esBook,
  ...esSettings,
  ...esState,
  ...esQuestion,
  ...esCard,
  ...esTolerance,
  ...esCloseCalls,
  ...esReasons,
  ...esJobBar,
  ...esTimers,
};

/** What the engine says of a value, by code. */
export { esEngine } from "./es/engine.ts";
