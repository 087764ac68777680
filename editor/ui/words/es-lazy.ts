// Spanish words of what is fetched after the first question.
import type { enLate } from "./en-lazy.ts";
import { esDrawings } from "./es/drawings.ts";
import { esMixing } from "./es/mixing.ts";
import { esRecord } from "./es/record.ts";

export const esLate: Readonly<Record<keyof typeof enLate, string>> = {
  ...esDrawings,
  ...esMixing,
  ...esRecord,
};
