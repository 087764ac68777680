// The app's own words in Spanish, as spoken in a workshop, but for those of drawings, which come with what
// draws. A test holds that none is missing and that each keeps its facts.
import type { WordKey } from "./en.ts";
import type { esDraw } from "./es-draw.ts";
import { esPage } from "./es-page.ts";
import { esRecord } from "./es-record.ts";

export const es: Readonly<Record<Exclude<WordKey, keyof typeof esDraw>, string>> = {
  ...esPage,
  ...esRecord,
  "card.heading": "Hoja de trabajo",
  "card.defers":
    "La etiqueta del material, las normas locales y la práctica autorizada van antes que esta hoja. Si difieren, sígalas y avise al responsable.",
};
