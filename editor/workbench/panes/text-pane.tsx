// The text of the book in the editor, with what each line gives for the chosen job.
import { Suspense, lazy, useMemo } from "react";
import type { Finding } from "../../../core/view.ts";
import type { Workbench } from "../controller/use-workbench.ts";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import { lineValuesFor } from "./line-values.ts";
import { textController } from "./text-services.ts";

const TextView = lazy(() => import("../text/text-view.tsx").then((module) => ({ default: module.TextView })));

const noFindings: readonly Finding[] = [];

export function TextPane({ bench }: { readonly bench: Workbench }) {
  const { store, state, snapshot, chosen, view } = bench;
  const text = useMemo(() => textController(store), [store]);
  const { job, row, place } = chosen;
  const lineValues = useMemo(() => (snapshot && job ? lineValuesFor(snapshot, job) : []), [snapshot, job]);
  const choose = (offset: number): void => {
    const found = snapshot?.rows.find((one) => offset >= one.lead.start && offset <= one.at.end);
    if (found && found.id !== place?.row) store.choose({ row: found.id, column: place?.column ?? "rule" });
  };
  return (
    <section className="floor-text" aria-label="Text">
      <Safely what="The text" about={view}>
        <Suspense fallback={<p className="waiting-note">Opening the text…</p>}>
          <TextView
            text={state.desk.text}
            onEdit={text.onEdit}
            findings={snapshot?.findings ?? noFindings}
            services={text.services}
            chosen={bench.hovered?.at ?? row?.at}
            readFrom={snapshot?.text}
            onChoose={choose}
            lineValues={lineValues}
            readOnly={!state.mine}
            onUndo={store.undo}
            onRedo={store.redo}
            position={bench.textPosition}
            focusCall={bench.calls.text}
          />
        </Suspense>
      </Safely>
    </section>
  );
}
