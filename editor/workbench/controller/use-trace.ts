// The trace of the chosen cell, requested again whenever the book, the job or the units change.
import { useEffect, useRef, useState } from "react";
import type { Answers, TraceView, UnitSystem } from "../../../core/view.ts";
import type { WorkbenchStore } from "../store/document.ts";

export interface TraceRequest {
  readonly name: string;
  readonly job: string;
  readonly answers: Answers;
  readonly text: string;
  readonly units: UnitSystem;
  readonly depth: TraceView["depth"];
}

/** While not `ready` (the book is being read again) the last trace of the same cell stays. */
export function useTrace(
  store: WorkbenchStore,
  wanted: TraceRequest | undefined,
  ready: boolean,
): TraceView | undefined {
  const [trace, setTrace] = useState<{ readonly cell: string; readonly trace: TraceView | undefined }>();
  const request = useUnchanged(wanted);
  const cell = cellOf(request);
  useEffect(() => {
    if (!request || !ready) return undefined;
    let current = true;
    const { text, job, answers, name, depth, units } = request;
    void store
      .ask((engine) => engine.why(text, { id: job, answers }, name, depth, units))
      .then((found) => {
        if (current) setTrace({ cell: cellOf(request), trace: found });
      });
    return () => {
      current = false;
    };
  }, [store, request, ready]);
  return request && trace?.cell === cell ? trace.trace : undefined;
}

const cellOf = (request: TraceRequest | undefined): string =>
  request ? `${request.job}\n${request.name}` : "";

/** The same object while what it asks is the same: a render makes a new one each time. */
function useUnchanged(request: TraceRequest | undefined): TraceRequest | undefined {
  const kept = useRef(request);
  if (!sameRequest(kept.current, request)) kept.current = request;
  return kept.current;
}

function sameRequest(a: TraceRequest | undefined, b: TraceRequest | undefined): boolean {
  if (a === undefined || b === undefined) return a === b;
  return (
    a.name === b.name &&
    a.job === b.job &&
    a.units === b.units &&
    a.depth === b.depth &&
    a.text === b.text &&
    (a.answers === b.answers || JSON.stringify(a.answers) === JSON.stringify(b.answers))
  );
}
