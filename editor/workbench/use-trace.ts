// The trace of what is chosen, asked for anew whenever the book, the job or the units change.
import { useEffect, useState } from "react";
import type { Answers, TraceView, UnitSystem } from "../../core/view.ts";
import type { WorkbenchStore } from "./store/document.ts";

export interface TraceWish {
  readonly name: string;
  readonly job: string;
  readonly answers: Answers;
  readonly text: string;
  readonly units: UnitSystem;
  readonly depth: TraceView["depth"];
}

/** While not `ready` (the book is being worked anew) the last trace of the same cell stays. */
export function useTrace(
  store: WorkbenchStore,
  wish: TraceWish | undefined,
  ready: boolean,
): TraceView | undefined {
  const [trace, setTrace] = useState<{ readonly of: string; readonly trace: TraceView | undefined }>();
  const of = wish ? `${wish.job}\n${wish.name}` : "";
  const key = wish ? JSON.stringify([wish.name, wish.job, wish.answers, wish.units, wish.depth]) : "";
  useEffect(() => {
    if (!wish || !ready) return undefined;
    let current = true;
    const { text, job, answers, name, depth, units } = wish;
    void store
      .ask((engine) => engine.why(text, { id: job, answers }, name, depth, units))
      .then((found) => {
        if (current) setTrace({ of, trace: found });
      });
    return () => {
      current = false;
    };
  }, [store, key, wish?.text, ready]);
  return wish && trace?.of === of ? trace.trace : undefined;
}
