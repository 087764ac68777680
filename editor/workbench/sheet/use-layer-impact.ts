// A layer on the bench weighed against the book underneath, so that each own line says what it moves.
import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { Answers } from "../../../core/view.ts";
import { startComparer } from "../../client/engine/compare-client.ts";
import { compareWorker } from "../../client/engine/compare-engine-worker.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { baseOf, isLayer } from "./layer-rows.ts";
import type { Moves } from "./layer-impact.ts";
import { movesByRow } from "./layer-impact.ts";

/** Typing that pauses for so long is weighed, in milliseconds. */
const afterTyping = 1200;
/** Jobs made up beside the worked examples and those laid alongside. */
const spread = 60;

const noMoves: ReadonlyMap<string, Moves> = new Map();

export function useMoves(
  snapshot: Snapshot | undefined,
  shelf: readonly string[] | undefined,
  jobs: readonly { readonly name: string; readonly answers: Answers }[],
  looked: boolean,
): ReadonlyMap<string, Moves> {
  const [weigher] = useState(() => startComparer(compareWorker));
  const state = useSyncExternalStore(weigher.subscribe, weigher.state);
  const text = snapshot?.text;
  const base = snapshot !== undefined && isLayer(snapshot) ? baseOf(snapshot)?.text : undefined;
  const wanted = looked && text !== undefined && base !== undefined;
  useEffect(() => {
    if (!wanted) {
      weigher.stop();
      return undefined;
    }
    const clock = setTimeout(
      () =>
        weigher.weigh({
          before: base,
          after: text,
          logged: jobs.map(({ name, answers }) => ({ name, answers })),
          spread,
          ...(shelf === undefined ? {} : { shelf }),
        }),
      weigher.state().wish === undefined ? 200 : afterTyping,
    );
    return () => clearTimeout(clock);
    // Jobs laid alongside count from the next edit on: laying one shall not weigh everything again.
  }, [weigher, wanted, text, base, shelf]);
  return useMemo(
    () => (base === undefined || text === undefined ? noMoves : movesByRow(state, text)),
    [state, text, base],
  );
}
