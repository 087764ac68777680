// What is typed at the questions of a job and not yet given as an answer.
import type { Draft } from "../client/storage/stored-work.ts";

/** By the name of the question. */
export type Drafts = Readonly<Record<string, Draft>>;
