// The host's refusals: an error with the status and the sentence of the answer, and the English sentences of
// those that the sign-in and people pages also say in other languages.
import {
  type RefusalCode,
  type RefusalValues,
  type RefusalWords,
  refusalSentence,
  waitIn,
} from "../../core/schemas/refusal.ts";

type Status = 400 | 401 | 403 | 404 | 409 | 413 | 422 | 429 | 500 | 503 | 507;

/** A refusal as JSON: the sentence, and where a page words it itself the code with its values. */
interface RefusalJson {
  says: string;
  code?: RefusalCode;
  values?: Record<string, unknown>;
}

/** A refusal that a person reads; `status` is the one of the answer over HTTP. */
export class Trouble extends Error {
  readonly status: Exclude<Status, 500>;
  readonly refusal: RefusalJson;
  constructor(status: Trouble["status"], refusal: string | RefusalJson) {
    const whole = typeof refusal === "string" ? { says: refusal } : refusal;
    super(whole.says);
    this.name = "Trouble";
    this.status = status;
    this.refusal = whole;
  }
}

/** Left out where the code has no values. */
type ValuesOf<Code extends RefusalCode> = keyof RefusalValues[Code] extends never
  ? []
  : [values: RefusalValues[Code]];

/** The JSON of a refusal that has a code. */
export function refusalOf<Code extends RefusalCode>(
  code: Code,
  ...[values]: ValuesOf<Code>
): RefusalJson & { code: Code } {
  const filled = (values ?? {}) as RefusalValues[Code];
  return { says: refusalSentence(enRefusals, code, filled), code, values: { ...filled } };
}

/** The error of a refusal that has a code. */
export const trouble = <Code extends keyof typeof statuses>(code: Code, ...values: ValuesOf<Code>): Trouble =>
  new Trouble(statuses[code], refusalOf(code, ...values));

/** The refusal of a text with marks that no keyboard makes, wherever it comes in. */
export const unplain = (where = ""): Trouble =>
  new Trouble(
    422,
    `This is not plain text: it holds marks that no keyboard makes${where && ` (in ${where})`}. ` +
      "Nothing was saved.",
  );

const statuses = {
  "sign-in-wrong": 401,
  "sign-in-busy": 503,
  "sign-in-wait": 429,
  "sign-in-not-asked": 403,
  "password-wrong": 422,
  "password-short": 422,
  "password-long": 422,
  "password-common": 422,
  "password-of-nobody": 403,
  "invitation-over": 404,
  "invitation-over-no-lead": 404,
  "invitation-unknown": 404,
  "name-missing": 422,
  "name-taken": 422,
  "name-mixed": 422,
  "person-unknown": 404,
  "last-lead": 422,
  "not-signed-in": 401,
  "role-too-low": 403,
  "other-origin": 403,
  "disk-full": 507,
  "disk-error": 507,
  "data-read-only": 503,
  "data-busy": 503,
  "data-damaged": 503,
  "database-unreachable": 503,
} as const satisfies Partial<Record<RefusalCode, Status>>;

export const enRefusals: RefusalWords = {
  "sign-in-wrong": "The name or the password is not right.",
  "sign-in-busy": "Too many are signing in at this moment. Try again in a few seconds.",
  "sign-in-wait": ({ seconds }) => {
    const { count, unit } = waitIn(seconds);
    return `Too many tries have failed. Wait ${count} ${unit} and try again.`;
  },
  "sign-in-not-asked": "Nobody signs in here: the host serves its own machine only.",
  "password-wrong": "The present password is not right.",
  "password-short": ({ least }) =>
    `A password has at least ${least} characters. Several words in a row are easy to keep in mind.`,
  "password-long": ({ most }) => `A password has at most ${most} characters.`,
  "password-common":
    "This password is among the first that are tried. " +
    "Take another; several words in a row are easy to keep in mind.",
  "password-of-nobody": "The shop's own desk has no password.",
  "invitation-over": "This invitation was used, or its time is over. Ask a lead for another.",
  "invitation-over-no-lead":
    "This invitation was used, or its time is over. " +
    "There is no lead yet: start the host again, and it prints another.",
  "invitation-unknown": "There is no such invitation any more.",
  "name-missing": "Say the name by which you are known in the shop.",
  "name-taken": "This name is taken, or was once. Take another.",
  "name-mixed": "Write your name in the letters of one alphabet.",
  "person-unknown": "There is no such person.",
  "last-lead": "This is the last lead. Make someone else a lead first.",
  "not-signed-in":
    "The host does not know who you are. Sign in; a host that asks nobody serves the browsers of its " +
    "own machine only.",
  "role-too-low": ({ name, role, needed }) => `This needs a ${needed}; ${name} is a ${role}.`,
  "other-origin": "A page of another place may not write here.",
  "disk-full":
    "The disk is full, so nothing of this was saved. What was saved before is safe. " +
    "Free some space and do it again.",
  "disk-error":
    "The disk did not take what was to be written, so nothing of this was saved. " +
    "What was saved before is safe. Look whether the disk is full or failing.",
  "data-read-only":
    "The data folder cannot be written, so nothing of this was saved. What was saved before is safe.",
  "data-busy":
    "Another program is writing to the shop's data just now, so nothing of this was saved. " +
    "Do it again in a moment.",
  "data-damaged": "The data file is damaged. Put the last backup back with bevelbook restore FILE.",
  "database-unreachable": ({ detail }) =>
    `The database server does not answer as it should (${detail}), so nothing of this was saved.`,
  "too-large": ({ bytes }) => `This is too large: at most ${bytes} bytes are taken here.`,
  "not-understood": ({ detail }) => `This cannot be understood: ${detail}`,
  "host-fault": "The host made a mistake with this. Nothing of it was saved.",
};
