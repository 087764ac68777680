// In the worker: the card as a record keeps it.
import type { CardRecord } from "../../../core/record.ts";
import { cardOf } from "../../../core/worked-again.ts";
import { engineVersion, showJob } from "../../../engine/index.ts";
import type { JobToWork } from "./shapes.ts";
import { bookOf, workOn } from "./work.ts";

/** In the book's own units, whatever the screen shows. */
export const cardRecord = (text: string, job: JobToWork): CardRecord => cardOf(showJob(workOn(bookOf(text), job), "book"), engineVersion);
