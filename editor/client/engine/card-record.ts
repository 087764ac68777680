// In the worker: the card as a record keeps it.
import type { CardRecord } from "../../../core/record.ts";
import { cardOf } from "../../../core/compare-card.ts";
import { engineVersion, showJob } from "../../../engine/index.ts";
import type { JobToWork } from "./messages.ts";
import { bookOf, workOn } from "./open-books.ts";

/** In the book's own units, whatever the screen shows. */
export const cardRecord = (text: string, job: JobToWork): CardRecord =>
  cardOf(showJob(workOn(bookOf(text), job), "book"), engineVersion);
