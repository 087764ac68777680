// In the worker: the card as a record keeps it.
import type { CardRecord } from "../../../core/record.ts";
import { cardOf } from "../../../core/compare-card.ts";
import { engineVersion, showJob } from "../../../engine/index.ts";
import type { JobToWork } from "./messages.ts";
import { jobHere } from "./served.ts";

/** In the book's own units, whatever the screen shows. */
export const cardRecord = (text: string, job: JobToWork): CardRecord =>
  cardOf(showJob(jobHere(text, job), "book"), engineVersion);
