// The registers of names: allocated at the first mention and kept, so that blocks stay valid after an edit.
import type { OfSteps } from "../../language/check/rule.ts";
import type { Registers } from "./plan.ts";

/** The register of a statement's value, allocated at the first mention and kept. */
export function registerOf(registers: Registers, name: string): number {
  const known = registers.byName.get(name);
  if (known !== undefined) return known;
  const register = registers.next++;
  registers.byName.set(name, register);
  registers.owner.set(register, name);
  return register;
}

/** The slot of a list, or of a chart that keeps every row: where the frame holds its rows. */
export const slotOf = (registers: Registers, name: string): number => {
  const known = registers.slots.get(name);
  if (known !== undefined) return known;
  const slot = registers.nextSlot++;
  registers.slots.set(name, slot);
  return slot;
};

/** The name of one value column of a chart with several. */
export const columnName = (name: string, column: number): string => `${name}.${column}`;
/** The name of the number of rows of a list. */
export const listName = (name: string): string => `${name}!`;
/** The name of the value that says whether any stop holds. */
export const STOPPED_NAME = "stopped!";
/** The name of a total over all steps. */
export const stepsName = (what: OfSteps): string => `steps!${what}`;
