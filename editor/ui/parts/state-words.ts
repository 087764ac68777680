// The words for the states of a job and for what a line of a trace does, in one place so that every screen
// says the same.
import type { JobState } from "../../../core/job-state.ts";
import type { TraceStep } from "../../../core/view.ts";
import { english } from "../words/words.ts";
import type { Say } from "../words/words.ts";

export const stateWord = (state: JobState, say: Say = english): string => say(`state.${state}`);

/** What a state means for the person at the panel, in one sentence. */
export const stateMeans = (state: JobState, say: Say = english): string => say(`state.${state}.means`);

export const doesWord = (does: TraceStep["does"], say: Say = english): string => say(`does.${does}`);

/** A basis as the book writes it (`standard "…"`) said as a reader would. */
export function basisWords(basis: string, say: Say = english): string {
  const [, word = basis, quoted] = /^(\S+)\s*(?:"(.*)")?$/s.exec(basis.trim()) ?? [];
  switch (word) {
    case "practice":
      return say("basis.practice");
    case "label":
      return say("basis.label");
    case "memory":
      return say("basis.memory");
    case "standard":
      return quoted === undefined ? say("basis.standard") : quoted;
    case "house":
      return quoted === undefined ? say("basis.house") : say("basis.house-of", { source: quoted });
    case "test":
      return quoted === undefined ? say("basis.test") : say("basis.test-of", { source: quoted });
    default:
      return basis;
  }
}

/**
 * Minutes as a person says them: `35 min`, `1 h 5 min`, `2 days 3 h 20 min`. Less than half a minute is said
 * as such; 0 is `none`.
 */
export function minutesWords(minutes: number, say: Say = english): string {
  if (minutes <= 0) return say("time.none");
  const whole = Math.round(minutes);
  if (whole === 0) return say("time.under");
  const days = Math.floor(whole / 1440);
  const hours = Math.floor((whole % 1440) / 60);
  const rest = whole % 60;
  const parts: string[] = [];
  if (days > 0) parts.push(days === 1 ? say("time.day") : say("time.days", { count: days }));
  if (hours > 0) parts.push(`${hours} h`);
  if (rest > 0) parts.push(`${rest} min`);
  return parts.join(" ");
}
