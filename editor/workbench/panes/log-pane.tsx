// The shop's log: the jobs of all tablets, and who did what.
import { Suspense, lazy } from "react";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Workbench } from "../controller/use-workbench.ts";

const LogView = lazy(() =>
  import("../shop-host/shop-log.tsx").then((module) => ({ default: module.LogView })),
);

export function LogPane({ bench, snapshot }: { readonly bench: Workbench; readonly snapshot: Snapshot }) {
  return (
    <section className="floor-editions" aria-label="Log">
      <Safely what="The log" about={bench.host.host}>
        <Suspense fallback={<p className="waiting-note">Opening the log…</p>}>
          <LogView
            shop={bench.shop}
            state={bench.host}
            book={snapshot.name}
            onLay={(answers, name) => bench.jobs.addFromRecord(answers, name, snapshot.rows[0]?.id ?? "")}
          />
        </Suspense>
      </Safely>
    </section>
  );
}
