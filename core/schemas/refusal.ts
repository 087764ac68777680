// The host's refusals that a page shows in its own language: each is a code and the values of its sentence.
// The host words them in English, the sign-in and people pages in Spanish.
import type { Role } from "./host.ts";

type None = Readonly<Record<never, never>>;

/** The values of each code's sentence. */
export interface RefusalValues {
  readonly "sign-in-wrong": None;
  readonly "sign-in-busy": None;
  readonly "sign-in-wait": { readonly seconds: number };
  readonly "sign-in-not-asked": None;
  readonly "password-wrong": None;
  readonly "password-short": { readonly least: number };
  readonly "password-long": { readonly most: number };
  readonly "password-common": None;
  readonly "password-of-nobody": None;
  readonly "invitation-over": None;
  readonly "invitation-over-no-lead": None;
  readonly "invitation-unknown": None;
  readonly "name-missing": None;
  readonly "name-taken": None;
  readonly "name-mixed": None;
  readonly "person-unknown": None;
  readonly "last-lead": None;
  readonly "not-signed-in": None;
  readonly "role-too-low": { readonly name: string; readonly role: Role; readonly needed: Role };
  readonly "other-origin": None;
  readonly "disk-full": None;
  readonly "disk-error": None;
  readonly "data-read-only": None;
  readonly "data-busy": None;
  readonly "data-damaged": None;
  readonly "database-unreachable": { readonly detail: string };
  readonly "too-large": { readonly bytes: number };
  /** `fields`: the names of what was sent wrongly; none where it could not be read at all. */
  readonly "not-understood": { readonly detail: string; readonly fields: readonly string[] };
  readonly "host-fault": None;
}
export type RefusalCode = keyof RefusalValues;

/** A sentence for each code, in one language. */
export type RefusalWords = {
  readonly [Code in RefusalCode]: string | ((values: RefusalValues[Code]) => string);
};

export function refusalSentence<Code extends RefusalCode>(
  words: RefusalWords,
  code: Code,
  values: RefusalValues[Code],
): string {
  const found: string | ((values: RefusalValues[Code]) => string) = words[code];
  return typeof found === "string" ? found : found(values);
}

/** A time to wait: seconds, or minutes rounded up where it is more than 90 seconds. */
export const waitIn = (seconds: number): { readonly count: number; readonly unit: "seconds" | "minutes" } =>
  seconds > 90 ? { count: Math.ceil(seconds / 60), unit: "minutes" } : { count: seconds, unit: "seconds" };
