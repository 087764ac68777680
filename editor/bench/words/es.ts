// The app's own words in Spanish, as spoken in a workshop. A test holds that none is missing and that each keeps its facts.
import type { WordKey } from "./en.ts";
import { esDraw } from "./es-draw.ts";
import { esPage } from "./es-page.ts";
import { esRecord } from "./es-record.ts";

export const es: Readonly<Record<WordKey, string>> = {
  ...esPage,
  ...esDraw,
  ...esRecord,
  "card.heading": "Hoja de trabajo",
  "card.defers": "La etiqueta del material, las normas locales y la práctica autorizada van antes que esta hoja. Si difieren, sígalas y avise al responsable.",
};
