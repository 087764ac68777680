// The app's own words in English: the language that the others are held against. Each part of the page has a
// file in the folder `en`, and one of the same name in the folder of every other language.
import { enBook } from "./en/book.ts";
import { enCard } from "./en/card.ts";
import { enCloseCalls } from "./en/close-calls.ts";
import { enDrawings } from "./en/drawings.ts";
import { enMixing } from "./en/mixing.ts";
import { enPage } from "./en/page.ts";
import { enQuestion } from "./en/question.ts";
import { enReasons } from "./en/reasons.ts";
import { enRecord } from "./en/record.ts";
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
  ...enDrawings,
  ...enMixing,
  ...enTimers,
  ...enRecord,
} as const;

export type WordKey = keyof typeof en;
