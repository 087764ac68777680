// The words for the states of a job and for what a line of a trace does, in one place so that every screen says the same.
import type { JobState, TraceStep } from "../../../core/view.ts";

export function stateWord(state: JobState): string {
  switch (state) {
    case "ready": return "Ready";
    case "waiting": return "Waiting";
    case "stopped": return "Stopped";
    case "impossible": return "Impossible";
  }
}

/** What a state means for the person at the panel, in one sentence. */
export function stateMeans(state: JobState): string {
  switch (state) {
    case "ready": return "Everything that matters is answered; the steps are released.";
    case "waiting": return "Some answers are still missing; no steps yet.";
    case "stopped": return "A stop holds; the steps are withheld.";
    case "impossible": return "These answers lead to no work that the book can give.";
  }
}

export function doesWord(does: TraceStep["does"]): string {
  switch (does) {
    case "answer": return "answered";
    case "taken": return "taken, not told";
    case "unanswered": return "not answered";
    case "dial": return "house number";
    case "figure": return "worked out";
    case "chart": return "read off a chart";
    case "list": return "list";
    case "step": return "step";
    case "caution": return "caution";
    case "stop": return "stop";
    case "promise": return "promise";
  }
}

/** A basis as the book writes it (`standard "…"`) said as a reader would. */
export function basisWords(basis: string): string {
  const [, word = basis, quoted] = /^(\S+)\s*(?:"(.*)")?$/s.exec(basis.trim()) ?? [];
  switch (word) {
    case "practice": return "common practice";
    case "label": return "the material's label";
    case "memory": return "someone's memory";
    case "standard": return quoted === undefined ? "a standard" : quoted;
    case "house": return quoted === undefined ? "the house" : `the house: ${quoted}`;
    case "test": return quoted === undefined ? "a test" : `a test: ${quoted}`;
    default: return basis;
  }
}

/** Minutes as a person says them: `35 min`, `1 h 5 min`, `2 days 3 h 20 min`. Less than half a minute is said as such; 0 is `none`. */
export function minutesWords(minutes: number): string {
  if (minutes <= 0) return "none";
  const whole = Math.round(minutes);
  if (whole === 0) return "under 1 min";
  const days = Math.floor(whole / 1440);
  const hours = Math.floor((whole % 1440) / 60);
  const rest = whole % 60;
  const parts: string[] = [];
  if (days > 0) parts.push(days === 1 ? "1 day" : `${days} days`);
  if (hours > 0) parts.push(`${hours} h`);
  if (rest > 0) parts.push(`${rest} min`);
  return parts.join(" ");
}
