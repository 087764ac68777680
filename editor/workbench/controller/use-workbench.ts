// The workbench's controller: brings its state together, one hook for each subject, with what can be done
// with it. The views and panels take it as `bench` and only draw.
import { useCallback, useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { RefObject } from "react";
import type { EditionLine } from "../../../core/schemas/host.ts";
import type { Span } from "../../../core/span.ts";
import type { Finding, SensitivityView, TraceView } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { Prover, ProvingState } from "../../client/engine/proof-client.ts";
import { makeProver } from "../../client/engine/proof-client.ts";
import { proofWorker } from "../../client/engine/proof-engine-worker.ts";
import { useFirstJobs } from "../bench-jobs.ts";
import type { SheetEdits } from "../sheet-edits.ts";
import { sheetEdits } from "../sheet-edits.ts";
import type { LayerImpact } from "../sheet/layer-impact.ts";
import type { StatementDraft } from "../sheet/sheet-props.ts";
import { useLayerImpact } from "../sheet/use-layer-impact.ts";
import { useEditions } from "../shop-host/use-editions.ts";
import { withProved } from "../standing/proved-findings.ts";
import { useProving } from "../standing/use-proving.ts";
import type { EditorPosition } from "../text/text-view.tsx";
import type { WorkbenchState, WorkbenchStore } from "../store/document.ts";
import type { Shop, ShopState } from "../store/shop.ts";
import type { BookActions } from "./book-actions.ts";
import { bookActions } from "./book-actions.ts";
import type { JobActions } from "./job-actions.ts";
import { jobActions } from "./job-actions.ts";
import type { LayerEdits } from "./layer-actions.ts";
import { layerEdits } from "./layer-actions.ts";
import type { Navigation } from "./navigation.ts";
import { navigation } from "./navigation.ts";
import type { StatementActions } from "./statement-actions.ts";
import { statementActions } from "./statement-actions.ts";
import type { BookIndex } from "./use-book-index.ts";
import { useBookIndex } from "./use-book-index.ts";
import type { Chosen } from "./use-chosen.ts";
import { useChosen } from "./use-chosen.ts";
import { useCommands } from "./use-commands.ts";
import type { ComparisonChoice } from "./use-comparison-choice.ts";
import { useComparisonChoice } from "./use-comparison-choice.ts";
import { useFiles } from "./use-files.ts";
import type { FocusCalls } from "./use-focus-calls.ts";
import { useFocusCalls } from "./use-focus-calls.ts";
import type { PanelState } from "./use-panel.ts";
import { usePanel } from "./use-panel.ts";
import type { RowFilter } from "./use-row-filter.ts";
import { useRowFilter } from "./use-row-filter.ts";
import { useTrace } from "./use-trace.ts";
import type { View } from "./view-state.ts";
import { hasTrace, showsSheet } from "./view-state.ts";
import { workbenchCommands } from "./workbench-commands.ts";

/** The state of the workbench, before what can be done with it. */
export interface WorkbenchParts {
  readonly store: WorkbenchStore;
  readonly state: WorkbenchState;
  readonly shop: Shop;
  readonly host: ShopState;
  /** The book as last read, with what is proved of it among its findings. */
  readonly snapshot: Snapshot | undefined;
  readonly prover: Prover;
  readonly proving: ProvingState;
  /** Sealed editions of this book, newest first, while they are looked at. */
  readonly editions: readonly EditionLine[] | undefined;
  /** An edition is being sealed. */
  readonly sealing: boolean;
  readonly setSealing: (sealing: boolean) => void;
  readonly view: View;
  readonly setView: (next: View | ((view: View) => View)) => void;
  readonly panel: PanelState;
  readonly book: BookIndex;
  readonly filter: RowFilter;
  readonly chosen: Chosen;
  readonly calls: FocusCalls;
  readonly comparison: ComparisonChoice;
  readonly impacts: ReadonlyMap<string, LayerImpact>;
  readonly edits: SheetEdits;
  /** The statement that is being written into the sheet. */
  readonly draft: StatementDraft | undefined;
  readonly setDraft: (draft: StatementDraft | undefined) => void;
  readonly trace: TraceState;
  /** The row and place that a trace points at. */
  readonly hovered: { readonly id: string; readonly at?: Span } | undefined;
  readonly hover: (id: string | undefined, at?: Span) => void;
  /** The row of the sheet that is pointed at. */
  readonly pointed: string | undefined;
  readonly setPointed: (row: string | undefined) => void;
  /** Findings in the chosen row. */
  readonly rowFindings: readonly Finding[];
  readonly findField: RefObject<HTMLInputElement | null>;
  readonly fileField: RefObject<HTMLInputElement | null>;
  /** Where the reader was when the text view was left. */
  readonly textPosition: RefObject<EditorPosition | undefined>;
}

/** The trace of the chosen cell, while the why is open beside it. */
interface TraceState {
  readonly canTrace: boolean;
  readonly trace: TraceView | undefined;
  readonly depth: TraceView["depth"];
  readonly setDepth: (depth: TraceView["depth"]) => void;
}

export interface Workbench extends WorkbenchParts {
  readonly go: Navigation;
  readonly jobs: JobActions;
  readonly statements: StatementActions;
  readonly layer: LayerEdits;
  readonly books: BookActions;
  readonly closeCalls: () => Promise<readonly SensitivityView[] | undefined>;
}

export function useWorkbench(store: WorkbenchStore, shop: Shop): Workbench {
  const parts = useParts(store, shop);
  const { state, snapshot, chosen } = parts;
  const current = snapshot?.text === state.desk.text;
  useFirstJobs(store, state.bare, current ? snapshot?.worked : undefined);
  useFiles(store);
  useShownCard(store, parts.view === "card" ? chosen.job?.id : undefined);
  const bench: Workbench = {
    ...parts,
    go: navigation(parts),
    jobs: jobActions(parts),
    statements: statementActions(parts),
    layer: layerEdits(parts),
    books: bookActions(parts),
    closeCalls: async () => {
      const { job } = chosen;
      if (!job) return undefined;
      return store.ask((engine) => engine.closeCalls(state.desk.text, { id: job.id, answers: job.answers }));
    },
  };
  useCommands(workbenchCommands(bench));
  return bench;
}

/** More is computed for the job whose card is on the screen. */
function useShownCard(store: WorkbenchStore, job: string | undefined): void {
  useEffect(() => store.setCard(job), [store, job]);
}

function useParts(store: WorkbenchStore, shop: Shop): WorkbenchParts {
  const state = useSyncExternalStore(store.subscribe, store.state);
  const host = useSyncExternalStore(shop.subscribe, shop.state);
  const [view, setView] = useState<View>("sheet");
  const [draft, setDraft] = useState<StatementDraft>();
  const [pointed, setPointed] = useState<string>();
  const proofs = useProofs(state, view);
  const { snapshot } = proofs;
  const book = useBookIndex(snapshot);
  const chosen = useChosen(state, book.byId);
  const panel = usePanel();
  return {
    store,
    state,
    shop,
    host,
    ...proofs,
    editions: useEditions(shop, host, state.snapshot?.name, view === "editions"),
    view,
    setView,
    panel,
    book,
    filter: useRowFilter(book.rows),
    chosen,
    calls: useFocusCalls(),
    comparison: useComparisonChoice(),
    impacts: useLayerImpact(snapshot, state.shelf, state.desk.jobs, showsSheet(view)),
    edits: useMemo(() => sheetEdits(store), [store]),
    draft,
    setDraft,
    trace: useChosenTrace(store, state, snapshot, chosen, panel.open?.is === "why"),
    ...useHovered(),
    pointed,
    setPointed,
    rowFindings: findingsIn(snapshot, chosen.row?.at),
    findField: useRef<HTMLInputElement>(null),
    fileField: useRef<HTMLInputElement>(null),
    textPosition: useRef<EditorPosition>(undefined),
  };
}

/** Proving, and the snapshot with what is proved. */
function useProofs(state: WorkbenchState, view: View) {
  const [prover] = useState(() => makeProver(proofWorker));
  const [sealing, setSealing] = useState(false);
  const read = state.snapshot;
  const text = read?.text === state.desk.text ? state.desk.text : undefined;
  const proving = useProving(
    prover,
    text,
    view === "standing" || (view === "editions" && sealing),
    state.shelf,
  );
  const { standing } = proving;
  const snapshot = useMemo(() => read && withProved(read, standing), [read, standing]);
  return { prover, proving, sealing, setSealing, snapshot };
}

function useChosenTrace(
  store: WorkbenchStore,
  state: WorkbenchState,
  snapshot: Snapshot | undefined,
  { row, job }: Chosen,
  shown: boolean,
): TraceState {
  const [depth, setDepth] = useState<TraceView["depth"]>("deciding");
  const { text } = state.desk;
  const canTrace = row !== undefined && job !== undefined && shown && hasTrace(row.keyword);
  const request = canTrace
    ? { name: row.id, job: job.id, answers: job.answers, text, units: state.units, depth }
    : undefined;
  const trace = useTrace(store, request, snapshot?.text === text);
  return { canTrace, trace, depth, setDepth };
}

function useHovered() {
  const [hovered, setHovered] = useState<WorkbenchParts["hovered"]>();
  // One function throughout: the why panel takes a new one for the end of pointing.
  const hover = useCallback(
    (id: string | undefined, at?: Span): void => setHovered(id ? { id, at } : undefined),
    [],
  );
  return { hovered, hover };
}

const findingsIn = (snapshot: Snapshot | undefined, place: Span | undefined): readonly Finding[] =>
  snapshot && place
    ? snapshot.findings.filter(({ at }) => at.start >= place.start && at.start <= place.end)
    : [];
