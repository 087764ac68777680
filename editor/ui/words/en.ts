// The app's own words in English, the language that the others are checked against: those of the first
// screen. `en-lazy.ts` has the others. Each part of the page has a file in the folder `en`, and one of the
// same name in the folder of every other language.
import type { enLate } from "./en-lazy.ts";
import { enBook } from "./en/book.ts";
import { enCard } from "./en/card.ts";
import { enCloseCalls } from "./en/close-calls.ts";
import { enJobBar } from "./en/job-bar.ts";
import { enPage } from "./en/page.ts";
import { enQuestion } from "./en/question.ts";
import { enReasons } from "./en/reasons.ts";
import { enSettings } from "./en/settings.ts";
import { enState } from "./en/state.ts";
import { enTimers } from "./en/timers.ts";
import { enTolerance } from "./en/tolerance.ts";

export const en = {
  ...enPage,
  ...enBook,
  ...enSettings,
  ...enState,
  ...enQuestion,
  ...enCard,
  ...enTolerance,
  ...enCloseCalls,
  ...enReasons,
  ...enJobBar,
  ...enTimers,
} as const;

export type WordKey = keyof typeof en | keyof typeof enLate;
