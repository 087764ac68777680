// The places that names own: handed out at the first mention and kept, so that blocks serve on after an edit.
import type { OfSteps } from "../../language/check/rule.ts";
import type { Places } from "./plan.ts";

/** The place of a statement's value, handed out at the first mention and kept. */
export function placeOf(places: Places, name: string): number {
  const known = places.byName.get(name);
  if (known !== undefined) return known;
  const place = places.next++;
  places.byName.set(name, place);
  places.owner.set(place, name);
  return place;
}

/** The slot of a list, or of a chart that keeps every row: where its rows stand beside the frame. */
export const slotOf = (places: Places, name: string): number => {
  const known = places.slots.get(name);
  if (known !== undefined) return known;
  const slot = places.nextSlot++;
  places.slots.set(name, slot);
  return slot;
};

/** The name of a place of a chart with more than one value. */
export const columnName = (name: string, column: number): string => `${name}.${column}`;
/** Where the number of rows of a list stands. */
export const listName = (name: string): string => `${name}!`;
/** Where it stands whether any stop holds. */
export const STOPPED_NAME = "stopped!";
/** Where that stands which all steps come to. */
export const stepsName = (what: OfSteps): string => `steps!${what}`;
