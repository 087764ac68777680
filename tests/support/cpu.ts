// Time as the processor spent it on this program: it does not grow when a busy machine lets the program wait.
import { cpuUsage } from "node:process";

/** Runs, and gives what came of it with the milliseconds of work that it took. */
export function spent<T>(run: () => T): { readonly out: T; readonly milliseconds: number } {
  const before = cpuUsage();
  const out = run();
  return { out, milliseconds: cpuUsage(before).user / 1000 };
}
