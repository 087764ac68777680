// Where a question's drawing can show a measurement: what it says, and how high its sheet is. Apart from the
// drawing itself, so that its place can be kept free before the drawing is there.
import type { WordKey } from "../words/en.ts";

/** All are as wide, mm on the sheet. */
export const askWidth = 88;

export interface AskPlace {
  readonly says: WordKey;
  /** mm on the sheet. */
  readonly height: number;
}

/** Anything else, and `none`, has no drawing. */
const places: Readonly<Record<string, AskPlace>> = {
  thickness: { says: "draw.ask-thickness", height: 32 },
  depth: { says: "draw.ask-depth", height: 28 },
  run: { says: "draw.ask-run", height: 28 },
  gap: { says: "draw.ask-gap", height: 28 },
  "hole-long": { says: "draw.ask-hole-long", height: 40 },
  "hole-short": { says: "draw.ask-hole-short", height: 40 },
  "edge-distance": { says: "draw.ask-edge-distance", height: 40 },
  temperature: { says: "draw.ask-temperature", height: 28 },
};

export const askPlace = (place: string | undefined): AskPlace | undefined =>
  place !== undefined && Object.hasOwn(places, place) ? places[place] : undefined;
