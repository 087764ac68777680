// The app's own words in English: the language that the others are held against. `{name}` stands for a fact.
import { enDraw } from "./en-draw.ts";
import { enPage } from "./en-page.ts";
import { enRecord } from "./en-record.ts";

export const en = {
  ...enPage,
  ...enDraw,
  ...enRecord,
  "card.heading": "Job card",
  "card.defers":
    "The material’s own label, local codes and licensed practice come before this card. Where they differ, follow them and tell the lead.",
} as const;

export type WordKey = keyof typeof en;
