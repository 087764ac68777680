// The record of what is proved of the book.
import { Suspense, lazy } from "react";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Workbench } from "../controller/use-workbench.ts";

const StandingView = lazy(() =>
  import("../standing/standing-view.tsx").then((module) => ({ default: module.StandingView })),
);

/** `read` is the book as the checker reads it, without what is proved. */
export function StandingPane({ bench, read }: { readonly bench: Workbench; readonly read: Snapshot }) {
  const { prover, go, statements } = bench;
  return (
    <section className="floor-standing" aria-label="Standing">
      <Safely what="The standing" about={read}>
        <Suspense fallback={<p className="waiting-note">Opening the record…</p>}>
          <StandingView
            snapshot={read}
            proving={bench.proving}
            readOnly={!bench.state.mine}
            onStop={prover.stop}
            onGoOn={prover.goOn}
            onKeep={prover.setKeep}
            onGo={go.goToInSheet}
            onLay={bench.jobs.addFromRecord}
            onExample={statements.addExample}
            onRepair={statements.repair}
          />
        </Suspense>
      </Safely>
    </section>
  );
}
