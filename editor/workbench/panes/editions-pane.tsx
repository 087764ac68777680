// The editions of the book: those sealed at the host, and what the text changes against another one.
import { Suspense, lazy } from "react";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Workbench } from "../controller/use-workbench.ts";
import { rivalsOf } from "../editions/rivals.ts";

const EditionsView = lazy(() =>
  import("../editions/editions-view.tsx").then((module) => ({ default: module.EditionsView })),
);
const SealedPart = lazy(() =>
  import("../shop-host/sealed-part.tsx").then((module) => ({ default: module.SealedPart })),
);

interface EditionsProps {
  readonly bench: Workbench;
  readonly snapshot: Snapshot;
}

export function EditionsPane({ bench, snapshot }: EditionsProps) {
  const { host } = bench.host;
  return (
    <section className="floor-editions" aria-label="Editions">
      <Safely what="The editions" about={snapshot}>
        <Suspense fallback={<p className="waiting-note">Opening the editions…</p>}>
          {host !== "none" && host !== "unknown" && <Sealed bench={bench} snapshot={snapshot} />}
          <Comparison bench={bench} snapshot={snapshot} />
        </Suspense>
      </Safely>
    </section>
  );
}

function Sealed({ bench, snapshot }: EditionsProps) {
  const { store, state, comparison, books } = bench;
  return (
    <SealedPart
      shop={bench.shop}
      state={bench.host}
      snapshot={snapshot}
      text={state.desk.text}
      proving={bench.proving}
      editions={bench.editions}
      readOnly={!state.mine}
      sealing={bench.sealing}
      onSealing={bench.setSealing}
      onText={store.setText}
      onHold={(edition) => comparison.compareWith(`sealed ${edition.number}`)}
      onTake={(edition) => books.takeEdition(edition.book, edition.number)}
    />
  );
}

function Comparison({ bench, snapshot }: EditionsProps) {
  const { store, state, comparison } = bench;
  const client = bench.host.host === "there" ? bench.shop.client : undefined;
  const version = comparison.version(state.key);
  const fromHost = client && {
    client,
    editions: bench.editions ?? [],
    ...(version === undefined ? {} : { version }),
  };
  return (
    <EditionsView
      name={snapshot.name}
      text={state.desk.text}
      shelf={state.shelf}
      jobs={state.desk.jobs}
      pair={comparison.pair}
      only={comparison.onlyRow}
      onPair={comparison.setPair}
      host={client}
      rivals={rivalsOf(store, fromHost)}
      onGo={bench.go.goToInSheet}
      onLay={(answers, name) => bench.jobs.addFromRecord(answers, name, snapshot.rows[0]?.id ?? "")}
    />
  );
}
