// Compares a layer with the book underneath while it is edited, so that each own line says what it changes.
import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import type { Answers } from "../../../core/view.ts";
import { startComparer } from "../../client/engine/compare-client.ts";
import { compareWorker } from "../../client/engine/compare-engine-worker.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import { useEvent } from "../use-event.ts";
import { baseOf, isLayer } from "./layer-rows.ts";
import type { LayerImpact } from "./layer-impact.ts";
import { impactByRow } from "./layer-impact.ts";

/** The comparison starts when typing has paused for so long, in milliseconds. */
const afterTyping = 1200;
/** Jobs made up beside the worked examples and the jobs in the sheet. */
const spread = 60;

const none: ReadonlyMap<string, LayerImpact> = new Map();

export function useLayerImpact(
  snapshot: Snapshot | undefined,
  shelf: readonly string[] | undefined,
  jobs: readonly { readonly name: string; readonly answers: Answers }[],
  shown: boolean,
): ReadonlyMap<string, LayerImpact> {
  const [comparer] = useState(() => startComparer(compareWorker));
  const state = useSyncExternalStore(comparer.subscribe, comparer.state);
  const text = snapshot?.text;
  const base = snapshot !== undefined && isLayer(snapshot) ? baseOf(snapshot)?.text : undefined;
  const wanted = shown && text !== undefined && base !== undefined;
  // Jobs beside count from the next edit on: adding one must not compare everything again.
  const loggedJobs = useEvent(() => jobs.map(({ name, answers }) => ({ name, answers })));
  useEffect(() => {
    if (!wanted) {
      comparer.stop();
      return undefined;
    }
    const logged = loggedJobs();
    const clock = setTimeout(
      () =>
        comparer.weigh({
          before: base,
          after: text,
          logged,
          spread,
          ...(shelf === undefined ? {} : { shelf }),
        }),
      comparer.state().wish === undefined ? 200 : afterTyping,
    );
    return () => clearTimeout(clock);
  }, [comparer, wanted, text, base, shelf, loggedJobs]);
  return useMemo(
    () => (base === undefined || text === undefined ? none : impactByRow(state, text)),
    [state, text, base],
  );
}
