// What the screens of the open job ask the engine, each an answer of its own besides the snapshot.
import type { CardRecord, JobRecord } from "../../../core/record.ts";
import type { SensitivityView, TraceView, UnitSystem } from "../../../core/view.ts";
import type { EngineClient } from "../../client/engine/client.ts";
import type { JobPageCalls } from "../../client/engine/messages.ts";
import type { WorkDrawing } from "../../ui/drawings/work-drawing.ts";

/** Each answer is undefined where the engine had to be started again. */
export interface JobQuestions {
  /** The card as it is signed, in the book's own units. */
  readonly card: () => Promise<CardRecord | undefined>;
  readonly closeCalls: () => Promise<readonly SensitivityView[] | undefined>;
  readonly why: (name: string, depth?: TraceView["depth"]) => Promise<TraceView | undefined>;
  /** What a map or a chart of the card is drawn from. */
  readonly drawing: WorkDrawing;
}

export function jobQuestions(
  engine: EngineClient<JobPageCalls>,
  text: string,
  { id, answers }: JobRecord,
  units: UnitSystem,
): JobQuestions {
  const job = { id, answers };
  return {
    card: () => engine.ask((to) => to.cardRecord(text, job)),
    closeCalls: () => engine.ask((to) => to.closeCalls(text, job)),
    why: (name, depth = "deciding") => engine.ask((to) => to.why(text, job, name, depth, units)),
    drawing: (picture) => engine.ask((to) => to.drawing(text, job, picture, units)),
  };
}
