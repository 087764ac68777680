// The places that names own: handed out at the first mention and kept, so that blocks serve on after an edit.
import type { OfSteps } from "../../language/check/rule.ts";
import type { Registers } from "./plan.ts";

/** The place of a statement's value, handed out at the first mention and kept. */
export function registerOf(registers: Registers, name: string): number {
  const known = registers.byName.get(name);
  if (known !== undefined) return known;
  const register = registers.next++;
  registers.byName.set(name, register);
  registers.owner.set(register, name);
  return register;
}

/** The slot of a list, or of a chart that keeps every row: where its rows stand beside the frame. */
export const slotOf = (registers: Registers, name: string): number => {
  const known = registers.slots.get(name);
  if (known !== undefined) return known;
  const slot = registers.nextSlot++;
  registers.slots.set(name, slot);
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
