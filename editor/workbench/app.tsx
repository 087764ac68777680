// The workbench: the title block, the two faces of the book, and the panel beside them.
import {
  Suspense,
  lazy,
  useCallback,
  useEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
} from "react";
import type { Span } from "../../core/span.ts";
import type {
  Answers,
  Finding,
  SensitivityView,
  Keyword,
  TraceView,
  UnnoticedView,
} from "../../core/view.ts";
import { actsOn } from "./sheet-edits.ts";
import type { BenchDoes } from "./commands.ts";
import { WorkDrawingContext } from "../ui/drawings/work-drawing.ts";
import { makeProver } from "../client/engine/proof-client.ts";
import { proofWorker } from "../client/engine/proof-engine-worker.ts";
import { firstPair, rivalsOf } from "./editions/rivals.ts";
import { ClashSide } from "./shop-host/clash-side.tsx";
import { DraftStrip } from "./shop-host/draft-strip.tsx";
import { SignInLink } from "./shop-host/sign-in-link.tsx";
import { nextNumber, withEdition } from "./shop-host/edition-text.ts";
import { HistorySide } from "./shop-host/history-side.tsx";
import { HostBooks } from "./shop-host/host-books.tsx";
import { openDraft, openEdition } from "./shop-host/open-from-host.ts";
import { SealedInSpite } from "./shop-host/sealed-in-spite.tsx";
import { useEditions } from "./shop-host/use-editions.ts";
import { FindingsList, rowOf } from "./findings/findings-list.tsx";
import { CardJobs } from "./card-jobs.tsx";
import { freshId, layIn, movedJob, useFirstJobs } from "./jobs.ts";
import { lineValuesFor } from "./line-values.ts";
import { Notices } from "./notices.tsx";
import { Safely } from "../ui/parts/error-boundary.tsx";
import { filterRows } from "./sheet/filter.ts";
import { amendedBy, drawnRows, dropText, isLayer, lineAt } from "./sheet/layer-rows.ts";
import { withWords } from "./sheet/shown-row.ts";
import { Sheet } from "./sheet/sheet.tsx";
import type { SheetActions } from "./sheet/sheet-props.ts";
import { firstText } from "./sheet/statement-text.ts";
import { useLayerImpact } from "./sheet/use-layer-impact.ts";
import { AddJob } from "./panels/add-job.tsx";
import { BooksSide } from "./panels/books-side.tsx";
import { HelpSide } from "./panels/help-side.tsx";
import { JobSide } from "./panels/job-side.tsx";
import { SidePanel } from "./panels/side-panel.tsx";
import { WorkedLines } from "./panels/worked-lines.tsx";
import { WhySide } from "./panels/why-side.tsx";
import { CloseCalls } from "../card/close-calls.tsx";
import { exampleEdit } from "./standing/as-example.ts";
import { withProved } from "./standing/proved-findings.ts";
import { useProving } from "./standing/use-proving.ts";
import type { WorkbenchStore, Place } from "./store/document.ts";
import { saveToFile } from "./store/files.ts";
import type { Shop } from "./store/shop.ts";
import { writes } from "./store/shop.ts";
import { shippedBook, shippedBooks } from "../client/storage/shipped.ts";
import { textSide } from "./text-services.ts";
import type { TextView } from "./text/text-face.tsx";
import { TitleBlock } from "./title-block.tsx";
import type { Face } from "./title-block.tsx";
import { Toolbar, countChanges } from "./toolbar.tsx";
import { useCommands } from "./use-commands.ts";
import { openFile, useFiles } from "./use-files.ts";
import { useTrace } from "./use-trace.ts";
import "./app.css";
import type { JobTag } from "../client/storage/stored-work.ts";

const TextFace = lazy(() => import("./text/text-face.tsx").then((module) => ({ default: module.TextFace })));
const JobScreen = lazy(() =>
  import("../card/job-screen.tsx").then((module) => ({ default: module.JobScreen })),
);
const StandingFace = lazy(() =>
  import("./standing/standing-face.tsx").then((module) => ({ default: module.StandingFace })),
);
const EditionsFace = lazy(() =>
  import("./editions/editions-face.tsx").then((module) => ({ default: module.EditionsFace })),
);
const LogFace = lazy(() =>
  import("./shop-host/log-face.tsx").then((module) => ({ default: module.LogFace })),
);
const SealedPart = lazy(() =>
  import("./shop-host/sealed-part.tsx").then((module) => ({ default: module.SealedPart })),
);
const ChartSide = lazy(() =>
  import("./panels/chart-side.tsx").then((module) => ({ default: module.ChartSide })),
);

type Side =
  | { readonly is: "why" }
  | { readonly is: "chart"; readonly name: string }
  | { readonly is: "findings" }
  | { readonly is: "help" }
  | { readonly is: "books" }
  | { readonly is: "clash" }
  | { readonly is: "history" }
  | { readonly is: "job"; readonly id: string }
  | { readonly is: "add-job" };

export function App(props: { readonly bench: WorkbenchStore; readonly shop: Shop }) {
  const { bench: store } = props;
  const state = useSyncExternalStore(store.subscribe, store.state);
  const shop = useSyncExternalStore(props.shop.subscribe, props.shop.state);
  const { desk: document, chosen } = state;
  const acts = useMemo(() => actsOn(store), [store]);
  const inks = useCallback(
    (statements: readonly string[]) => store.ask((engine) => engine.colourEach(statements)),
    [store],
  );
  const [face, setFace] = useState<Face>("sheet");
  const [prover] = useState(() => makeProver(proofWorker));
  const [pair, setPair] = useState(firstPair);
  const [heldVersion, setHeldVersion] = useState<{ readonly key: string; readonly version: number }>();
  const [sealing, setSealing] = useState(false);
  const proving = useProving(
    prover,
    state.snapshot?.text === document.text ? document.text : undefined,
    face === "standing" || (face === "editions" && sealing),
    state.shelf,
  );
  const editions = useEditions(props.shop, shop, state.snapshot?.name, face === "editions");
  const snapshot = useMemo(
    () => state.snapshot && withProved(state.snapshot, proving.standing),
    [state.snapshot, proving.standing],
  );
  const [side, setSide] = useState<Side>();
  const [find, setFind] = useState("");
  const [part, setPart] = useState("");
  const [depth, setDepth] = useState<TraceView["depth"]>("deciding");
  const [hovered, setHovered] = useState<{ readonly id: string; readonly at?: Span }>();
  const [pointed, setPointed] = useState<string>();
  const [focusCall, setFocusCall] = useState(0);
  const [textCall, setTextCall] = useState(0);
  const [draft, setDraft] = useState<{
    readonly after: string | undefined;
    readonly text: string;
    readonly caret?: number;
  }>();
  const [amendCall, setAmendCall] = useState(0);
  const [onlyRow, setOnlyRow] = useState<string>();
  const [lastJob, setLastJob] = useState("");
  const findField = useRef<HTMLInputElement>(null);
  const fileField = useRef<HTMLInputElement>(null);

  useFirstJobs(store, state.bare, snapshot?.text === document.text ? snapshot.worked : undefined);
  useFiles(store);

  const rows = useMemo(
    () => filterRows(snapshot ? withWords(drawnRows(snapshot.rows), snapshot.kinds) : [], part, find),
    [snapshot?.rows, snapshot?.kinds, part, find],
  );
  const parts = useMemo(
    () => [
      ...new Set((snapshot?.rows ?? []).filter((row) => row.keyword === "part").map((row) => row.title)),
    ],
    [snapshot?.rows],
  );
  const rowsByName = useMemo(
    () =>
      new Map(
        (snapshot?.rows ?? []).flatMap((row) => (row.name === undefined ? [] : [[row.name, row] as const])),
      ),
    [snapshot?.rows],
  );
  const rowsById = useMemo(
    () => new Map((snapshot?.rows ?? []).map((row) => [row.id, row])),
    [snapshot?.rows],
  );
  const row = chosen ? rowsById.get(chosen.row) : undefined;
  const jobId = chosen && typeof chosen.column === "object" ? chosen.column.job : lastJob;
  const job = document.jobs.find((one) => one.id === jobId) ?? document.jobs[0];
  const onCard = face === "card" ? job?.id : undefined;
  useEffect(() => store.setCard(onCard), [store, onCard]);
  const closeCalls = (): Promise<readonly SensitivityView[] | undefined> =>
    job
      ? store.ask((engine) => engine.closeCalls(document.text, { id: job.id, answers: job.answers }))
      : Promise.resolve(undefined);
  const errors = snapshot?.findings.filter((finding) => finding.weight === "error").length ?? 0;
  const warnings = snapshot?.findings.filter((finding) => finding.weight === "warning").length ?? 0;
  const changed = useMemo(
    () => (snapshot ? countChanges(snapshot, document.jobs) : undefined),
    [snapshot, document.jobs],
  );
  const canTrace = row !== undefined && job !== undefined && side?.is === "why" && traced(row.keyword);
  const trace = useTrace(
    store,
    canTrace
      ? { name: row.id, job: job.id, answers: job.answers, text: document.text, units: state.units, depth }
      : undefined,
    snapshot?.text === document.text,
  );

  const choose = useCallback(
    (place: Place): void => {
      store.choose(place);
      if (typeof place.column === "object") setLastJob(place.column.job);
      const chart = place.column === "name" || place.column === "rule" ? chartNamed(place.row) : undefined;
      setSide((now) =>
        now?.is === "chart" && chart !== undefined
          ? { is: "chart", name: chart }
          : now === undefined || now.is === "why" || now.is === "job" || now.is === "add-job"
            ? wideEnough(face) || now?.is === "why"
              ? { is: "why" }
              : undefined
            : now,
      );
    },
    [store, face],
  );
  const goTo = useCallback(
    (id: string, at?: Span): void => {
      setPart("");
      setFind("");
      store.choose({ row: id, column: "rule" });
      setHovered(at ? { id, at } : undefined);
      setFocusCall((n) => n + 1);
    },
    [store],
  );
  // One function for good: the panel takes a new one for leaving the old.
  const hover = useCallback(
    (id: string | undefined, at?: Span): void => setHovered(id ? { id, at } : undefined),
    [],
  );
  const goToFinding = (finding: Finding): void => {
    const found = snapshot && rowOf(finding, snapshot.rows);
    if (found) goTo(found.id, finding.at);
    else setFace((now) => (now === "sheet" ? "both" : now));
  };
  const goFromRecord = (id: string, at?: Span): void => {
    setFace("sheet");
    goTo(id, at);
  };
  const layFromRecord = (answers: Answers, name: string, id: string): void => {
    const job = freshId(document.jobs);
    store.setJobs([...document.jobs, { id: job, name, answers }]);
    store.tell(`Laid ${name} alongside. It is the last job on the right.`);
    setFace("sheet");
    setPart("");
    setFind("");
    setLastJob(job);
    store.choose({ row: rowsById.has(id) ? id : (snapshot?.rows[0]?.id ?? id), column: { job } });
    setSide({ is: "why" });
    setFocusCall((n) => n + 1);
  };
  const makeExample = async (change: UnnoticedView): Promise<void> => {
    const fresh = await store.fresh();
    if (
      fresh &&
      change.worked !== undefined &&
      (await store.statement(exampleEdit(change.worked, fresh.rows)))
    )
      store.tell(`Wrote a worked example that guards ${change.id}. Undo takes it out.`);
    else store.tell("The example could not be written into the book.", "trouble");
  };
  const takeEdition = async (book: string, number: number): Promise<void> => {
    const found = await props.shop.client.edition(book, number).catch(() => undefined);
    if (found === undefined) {
      store.tell("That edition could not be fetched.", "trouble");
      return;
    }
    store.setText(withEdition(found.text, nextNumber("", editions?.[0]?.number)));
    store.tell(
      `The text of edition ${number} stands on the bench, begun as the next one. Undo brings back what stood there.`,
    );
  };
  const impacts = useLayerImpact(snapshot, state.shelf, document.jobs, face === "sheet" || face === "both");
  const showMoves = (id: string): void => {
    setPair({ after: "bench", before: "under" });
    setOnlyRow(id);
    show("editions");
  };
  const amendWhole = async (id: string): Promise<void> => {
    const text = await store.ask((engine) => engine.insteadOf(document.text, id));
    if (text === undefined) store.tell("This cannot be written anew here. It can be left out with Drop.");
    else setDraft({ after: id, text });
  };
  const take = (id: string): void => {
    const gone = rowsById.get(id);
    if (gone === undefined || gone.own) {
      void acts.remove(id);
      return;
    }
    const drop = dropText(gone);
    if (drop === undefined) store.tell(`This stands in ${gone.layer} and is kept as it is there.`);
    // Where the language wants a reason the statement is left open for it.
    else if (drop.because) setDraft({ after: id, text: drop.text, caret: drop.text.length - 1 });
    else
      void acts
        .insert(id, drop.text)
        .then(() =>
          store.tell(
            `${gone.keyword} ${gone.name ?? ""} is left out here; ${gone.layer} keeps it. Undo brings it back.`,
          ),
        );
  };
  const amendRow = (id: string): void => {
    const under = rowsById.get(id);
    if (under === undefined) return;
    switch (amendedBy(under)) {
      case "chart":
        setSide({ is: "chart", name: under.name ?? "" });
        return;
      case "rule":
        store.choose({ row: id, column: "rule" });
        setAmendCall((n) => n + 1);
        return;
      case "statement":
        void amendWhole(id);
        return;
      case "not":
        store.tell(`This stands in ${under.layer} and is kept as it is there.`);
        return;
    }
  };
  const begin = (keyword: Keyword): void => {
    setDraft({
      after: chosen?.row ?? snapshot?.rows.at(-1)?.id,
      text: firstText(keyword, new Set(rowsByName.keys())),
    });
  };
  const addJob = (made: Omit<JobTag, "id">): void => {
    const id = freshId(document.jobs);
    store.setJobs([...document.jobs, { ...made, id }]);
    setLastJob(id);
    setSide({ is: "job", id });
  };
  /** A new statement is not hidden by the search or the part that it was written under. */
  const showChosen = (): void => {
    const now = store.state();
    if (
      now.snapshot === undefined ||
      now.chosen === undefined ||
      filterRows(drawnRows(now.snapshot.rows), part, find).some((one) => one.id === now.chosen?.row)
    )
      return;
    setPart("");
    setFind("");
  };
  const beginLayer = (text: string, name: string): void => {
    void store.openText(text, name);
    setSide(undefined);
  };
  const namesTaken = useMemo(() => shop.books.map((book) => book.name), [shop.books]);
  const save = (): void => saveToFile(snapshot?.name || state.key, document.text);
  const rowFindings =
    row && snapshot
      ? snapshot.findings.filter(
          (finding) => finding.at.start >= row.at.start && finding.at.start <= row.at.end,
        )
      : [];

  const show = (to: Face): void => {
    setFace(to);
    if (to === "card" || to === "standing" || to === "editions" || to === "log" || !wideEnough(to))
      setSide((now) => (now?.is === "why" ? undefined : now));
  };

  const does: BenchDoes = {
    undo: store.undo,
    redo: store.redo,
    accept: store.accept,
    save,
    find: () => {
      setFace((now) => (now === "sheet" || now === "both" ? now : "sheet"));
      requestAnimationFrame(() => {
        findField.current?.focus();
        findField.current?.select();
      });
    },
    help: () => setSide({ is: "help" }),
    // By a key the focus goes along, to where it was in that face.
    face: (to) => {
      show(to);
      if (to === "text") setTextCall((n) => n + 1);
      else if (to !== "card" && to !== "standing" && to !== "editions") setFocusCall((n) => n + 1);
    },
    addStatement: () => begin("figure"),
    repairHere: () => {
      const finding = rowFindings.find((one) => one.repairs.length > 0);
      if (finding) void acts.repair(finding);
      else store.tell("No repair is offered for the chosen rule.");
    },
    nextFinding: (by) => {
      const at = row?.at.start ?? -1;
      const places = (snapshot?.findings ?? [])
        .filter((finding) => finding.weight !== "note")
        .sort((a, b) => a.at.start - b.at.start);
      const next =
        by > 0
          ? (places.find((finding) => finding.at.start > (row?.at.end ?? -1)) ?? places[0])
          : (places.filter((finding) => finding.at.start < at).at(-1) ?? places.at(-1));
      if (next) goToFinding(next);
      else store.tell("There are no findings.");
    },
    backToSheet: () => {
      setSide(undefined);
      setFocusCall((n) => n + 1);
    },
  };
  useCommands(does);

  const editable = state.mine;
  const sheetActions: SheetActions = {
    choose,
    setRule: (id, typed) => void acts.rule(id, typed),
    setName: (id, typed) => void acts.name(id, typed),
    setBasis: (id, typed) => void acts.basis(id, typed),
    setAnswers: store.setAnswers,
    endDraft: (typed) => {
      const at = draft?.after;
      setDraft(undefined);
      if (typed !== undefined) void acts.insert(at, typed).then(showChosen);
    },
    pasteStatements: (after, text) => void acts.insert(after, text),
    shift: (id, by) => void acts.shift(id, by),
    remove: take,
    amend: (id, typed) => void acts.amend(id, typed),
    tryAmend: acts.tryAmend,
    amendWhole: (id) => void amendWhole(id),
    showImpact: showMoves,
    openChart: (name) => setSide({ is: "chart", name }),
    pointAt: setPointed,
    openWhy: () => {
      setSide({ is: "why" });
      focusSide();
    },
    openJob: (id) => {
      setLastJob(id);
      setSide({ is: "job", id });
    },
    addJob: () => setSide({ is: "add-job" }),
    repair: (finding) => void acts.repair(finding),
    tryDraft: acts.attempt,
    notify: store.tell,
    requestColours: inks,
  };
  const sheet = snapshot && (
    <Sheet
      snapshot={snapshot}
      jobs={document.jobs}
      rows={rows}
      chosen={chosen}
      lit={hovered?.id}
      readOnly={!editable}
      focusCall={focusCall}
      draft={draft}
      impacts={impacts}
      amendCall={amendCall}
      actions={sheetActions}
    />
  );
  const textView = useRef<TextView>(undefined);
  const textual = useMemo(() => textSide(store), [store]);
  const lineValues = useMemo(
    () => (snapshot && job && face !== "sheet" ? lineValuesFor(snapshot, job) : []),
    [snapshot, job, face],
  );
  const text = (
    <Suspense fallback={<p className="waiting-note">Opening the text…</p>}>
      <TextFace
        text={document.text}
        onEdit={textual.onEdit}
        findings={snapshot?.findings ?? []}
        services={textual.services}
        chosen={hovered?.at ?? row?.at}
        readFrom={snapshot?.text}
        onChoose={(offset) => {
          const found = snapshot?.rows.find((one) => offset >= one.lead.start && offset <= one.at.end);
          if (found && found.id !== chosen?.row)
            store.choose({ row: found.id, column: chosen?.column ?? "rule" });
        }}
        lineValues={lineValues}
        readOnly={!editable}
        onUndo={store.undo}
        onRedo={store.redo}
        view={textView}
        focusCall={textCall}
      />
    </Suspense>
  );

  return (
    <div className={`bench face-${face}${side ? " has-side" : ""}`}>
      <TitleBlock
        state={state}
        shop={shop}
        face={face}
        errors={errors}
        warnings={warnings}
        panel={side?.is ?? ""}
        onFace={show}
        onUnits={store.setUnits}
        onUndo={store.undo}
        onRedo={store.redo}
        onBooks={() => setSide(toggled(side, { is: "books" }))}
        onFindings={() => setSide(toggled(side, { is: "findings" }))}
        onHelp={() => setSide(toggled(side, { is: "help" }))}
      />
      <main>
        {!state.mine && (
          <div className="strip" role="status">
            <span>This book is being edited in another tab of this browser. Here it can only be read.</span>
            <button type="button" className="button main" onClick={() => void store.takeOver()}>
              Edit it here instead
            </button>
          </div>
        )}
        {(shop.host === "refused" || shop.draft?.is === "signed-out") && (
          <div className="strip" role="alert">
            <span>
              You are not signed in at the shop’s host. What you type is kept in this browser, and saved there
              once you have signed in.
            </span>
            <SignInLink />
          </div>
        )}
        {shop.draft && (
          <DraftStrip
            draft={shop.draft}
            you={shop.you?.name ?? ""}
            onClash={() => setSide({ is: "clash" })}
            onGoOn={props.shop.goOnWith}
            onAgain={props.shop.again}
          />
        )}
        {(face === "sheet" || face === "both") && (
          <Toolbar
            find={find}
            findField={findField}
            found={rows.length}
            part={part}
            parts={parts}
            chosen={editable ? row : undefined}
            changed={changed}
            slow={state.slow}
            onFind={setFind}
            onFound={() => {
              const first = rows.find((one) => one.keyword !== "part") ?? rows[0];
              if (first && !rows.some((one) => one.id === chosen?.row))
                store.choose({ row: first.id, column: "rule" });
              setFocusCall((n) => n + 1);
            }}
            onPart={setPart}
            onNew={begin}
            onShift={(by) => row && void acts.shift(row.id, by)}
            onToPart={(to) => row && void acts.toPart(row.id, to)}
            onRemove={() => row && take(row.id)}
            onAmend={() => row && amendRow(row.id)}
            onAccept={store.accept}
            onPutBack={store.putBack}
          />
        )}
        <div className="bench-floor">
          {!snapshot && (
            <p className="waiting-note" role="status">
              {state.slow ? "Still reading the book…" : "Reading the book…"}
            </p>
          )}
          {snapshot && (face === "sheet" || face === "both") && (
            <section className="floor-sheet" aria-label="Sheet">
              <Safely what="The sheet" about={snapshot}>
                {sheet}
              </Safely>
            </section>
          )}
          {(face === "text" || face === "both") && (
            <section className="floor-text" aria-label="Text">
              <Safely what="The text" about={face}>
                {text}
              </Safely>
            </section>
          )}
          {snapshot &&
            face === "card" &&
            (job && snapshot.jobs[job.id] ? (
              <section className="floor-card" aria-label="Card">
                <CardJobs jobs={document.jobs} current={job.id} onPick={setLastJob} />
                {shop.host === "there" && (
                  <SealedInSpite client={props.shop.client} snapshot={snapshot} sealings={shop.sealings} />
                )}
                <WorkDrawingContext.Provider
                  value={(picture) =>
                    store.ask((engine) =>
                      engine.drawing(
                        document.text,
                        { id: job.id, answers: job.answers },
                        picture,
                        state.units,
                      ),
                    )
                  }
                >
                  <JobScreen
                    key={job.id}
                    title={snapshot.title || snapshot.name}
                    edition={snapshot.edition}
                    under={snapshot.under.filter((one) => one.as === "amended")}
                    asks={snapshot.asks}
                    answers={job.answers}
                    job={snapshot.jobs[job.id]!}
                    units={state.units}
                    onAnswer={(name, given) =>
                      store.setAnswers([{ job: job.id, ask: name, text: given ?? "" }])
                    }
                    onWhy={(name, deep) =>
                      store.ask((engine) =>
                        engine.why(document.text, job, name, deep ?? "deciding", state.units),
                      )
                    }
                    invented={job.from !== undefined}
                    proofs={snapshot.card?.job === job.id ? snapshot.card : undefined}
                    onCloseCalls={closeCalls}
                    ticked={job.ticked ?? nothingTicked}
                    onTicked={(ticked) =>
                      store.setJobs(
                        document.jobs.map((one) => (one.id === job.id ? { ...one, ticked } : one)),
                      )
                    }
                  />
                </WorkDrawingContext.Provider>
              </section>
            ) : (
              <p className="waiting-note">
                No job is laid alongside yet.{" "}
                <button type="button" className="button" onClick={() => setSide({ is: "add-job" })}>
                  Lay one alongside
                </button>
              </p>
            ))}
          {state.snapshot && face === "standing" && (
            <section className="floor-standing" aria-label="Standing">
              <Safely what="The standing" about={state.snapshot}>
                <Suspense fallback={<p className="waiting-note">Opening the record…</p>}>
                  <StandingFace
                    snapshot={state.snapshot}
                    proving={proving}
                    readOnly={!editable}
                    onStop={prover.stop}
                    onGoOn={prover.goOn}
                    onKeep={prover.setKeep}
                    onGo={goFromRecord}
                    onLay={layFromRecord}
                    onExample={(change) => void makeExample(change)}
                    onRepair={(finding) => void acts.repair(finding)}
                  />
                </Suspense>
              </Safely>
            </section>
          )}
          {snapshot && face === "editions" && (
            <section className="floor-editions" aria-label="Editions">
              <Safely what="The editions" about={snapshot}>
                <Suspense fallback={<p className="waiting-note">Opening the editions…</p>}>
                  {shop.host !== "none" && shop.host !== "unknown" && (
                    <SealedPart
                      shop={props.shop}
                      state={shop}
                      snapshot={snapshot}
                      text={document.text}
                      proving={proving}
                      editions={editions}
                      readOnly={!editable}
                      sealing={sealing}
                      onSealing={setSealing}
                      onText={store.setText}
                      onHold={(edition) => setPair({ after: "bench", before: `sealed ${edition.number}` })}
                      onTake={(edition) => void takeEdition(edition.book, edition.number)}
                    />
                  )}
                  <EditionsFace
                    name={snapshot.name}
                    text={document.text}
                    shelf={state.shelf}
                    jobs={document.jobs}
                    pair={pair}
                    only={onlyRow}
                    onPair={(next) => {
                      setOnlyRow(undefined);
                      setPair(next);
                    }}
                    host={shop.host === "there" ? props.shop.client : undefined}
                    rivals={rivalsOf(
                      store,
                      shop.host === "there"
                        ? {
                            client: props.shop.client,
                            editions: editions ?? [],
                            ...(heldVersion?.key === state.key ? { version: heldVersion.version } : {}),
                          }
                        : undefined,
                    )}
                    onGo={goFromRecord}
                    onLay={(answers, name) => layFromRecord(answers, name, snapshot.rows[0]?.id ?? "")}
                  />
                </Suspense>
              </Safely>
            </section>
          )}
          {snapshot && face === "log" && (
            <section className="floor-editions" aria-label="Log">
              <Safely what="The log" about={shop.host}>
                <Suspense fallback={<p className="waiting-note">Opening the log…</p>}>
                  <LogFace
                    shop={props.shop}
                    state={shop}
                    book={snapshot.name}
                    onLay={(answers, name) => layFromRecord(answers, name, snapshot.rows[0]?.id ?? "")}
                  />
                </Suspense>
              </Safely>
            </section>
          )}
          {side && snapshot && (
            <SidePanel
              heading={headingOf(side)}
              wide={side.is === "chart" || side.is === "clash"}
              onClose={does.backToSheet}
            >
              <Safely what="This panel" about={`${side.is} ${chosen?.row ?? ""} ${snapshot.text.length}`}>
                {side.is === "why" &&
                  (row ? (
                    <>
                      <WhySide
                        row={row}
                        layered={isLayer(snapshot)}
                        job={job?.name}
                        trace={trace}
                        depth={depth}
                        onDepth={setDepth}
                        onGo={goTo}
                        onHover={hover}
                        lit={pointed}
                        findings={rowFindings}
                        onRepair={(finding) => void acts.repair(finding)}
                        rowNamed={(name) => rowsByName.get(name) ?? rowsById.get(name)}
                        onChooseRow={(id) => goTo(id)}
                      >
                        {row.keyword === "chart" && (
                          <button
                            type="button"
                            className="button"
                            onClick={() => setSide({ is: "chart", name: row.name ?? "" })}
                          >
                            Open the chart
                          </button>
                        )}
                        {row.keyword === "worked" && (
                          <WorkedLines
                            worked={snapshot.worked.find((one) => one.name === row.name)}
                            onLay={(one) => addJob({ name: one.name, answers: one.answers, from: one.name })}
                          />
                        )}
                      </WhySide>
                      {canTrace && (
                        <CloseCalls
                          key={job.id}
                          about={snapshot.jobs[job.id]}
                          onAsk={closeCalls}
                          first={row.name ?? row.id}
                        />
                      )}
                    </>
                  ) : (
                    <p>Choose a cell of the sheet to read why it says what it says.</p>
                  ))}
                {side.is === "chart" && (
                  <Suspense fallback={<p>Opening the chart…</p>}>
                    <ChartSide
                      key={side.name}
                      bench={store}
                      name={side.name}
                      onName={(name) => setSide({ is: "chart", name })}
                      jobs={document.jobs}
                      job={job}
                      snapshot={snapshot}
                      standing={proving.standing}
                      readOnly={!editable}
                    />
                  </Suspense>
                )}
                {side.is === "findings" && (
                  <FindingsList
                    findings={snapshot.findings}
                    rows={snapshot.rows}
                    lineAt={isLayer(snapshot) ? (at) => lineAt(snapshot, at) : undefined}
                    onGo={goToFinding}
                    onRepair={(finding) => void acts.repair(finding)}
                  />
                )}
                {side.is === "clash" && shop.draft && (
                  <ClashSide
                    draft={shop.draft}
                    text={document.text}
                    onSettle={(text) => {
                      props.shop.settle(text);
                      setSide(undefined);
                    }}
                  />
                )}
                {side.is === "history" &&
                  (shop.draft && shop.draft.version > 0 ? (
                    <HistorySide
                      client={props.shop.client}
                      book={shop.draft.book}
                      version={shop.draft.version}
                      readOnly={!editable}
                      onHold={(version) => {
                        setHeldVersion({ key: state.key, version });
                        setPair({ after: "bench", before: `version ${version}` });
                        show("editions");
                        setSide(undefined);
                      }}
                      onTakeBack={(version, text) => {
                        store.setText(text);
                        store.tell(
                          `The text of version ${version} stands on the bench again. Undo brings back what stood there.`,
                        );
                      }}
                    />
                  ) : (
                    <p>The host keeps no draft of this book yet. One begins with the first change.</p>
                  ))}
                {side.is === "help" && <HelpSide />}
                {side.is === "add-job" && (
                  <AddJob
                    worked={snapshot.worked}
                    onBlank={() => addJob({ name: `Job ${document.jobs.length + 1}`, answers: {} })}
                    onWorked={(one) => addJob({ name: one.name, answers: one.answers, from: one.name })}
                  />
                )}
                {side.is === "job" &&
                  document.jobs
                    .filter((one) => one.id === side.id)
                    .map((one) => (
                      <JobSide
                        key={one.id}
                        job={one}
                        view={snapshot.jobs[one.id]}
                        onRename={(name) =>
                          store.setJobs(
                            document.jobs.map((other) => (other.id === one.id ? { ...other, name } : other)),
                          )
                        }
                        onCard={() => {
                          setLastJob(one.id);
                          setFace("card");
                          setSide(undefined);
                        }}
                        onCopy={() => addJob({ name: `${one.name}, copy`, answers: one.answers })}
                        onRemove={() => {
                          store.setJobs(document.jobs.filter((other) => other.id !== one.id));
                          setSide(undefined);
                          store.tell(`Took away ${one.name}. Undo brings it back.`);
                        }}
                        onMove={(by) => store.setJobs(movedJob(document.jobs, one.id, by))}
                        onWhy={(id) => {
                          store.choose({ row: id, column: { job: one.id } });
                          setLastJob(one.id);
                          setSide({ is: "why" });
                          setFocusCall((n) => n + 1);
                        }}
                        onLayIn={() => void layIn(store, one)}
                      />
                    ))}
                {side.is === "books" && (
                  <HostBooks
                    state={shop}
                    current={snapshot.name}
                    onHistory={() => setSide({ is: "history" })}
                    onDraft={(book) =>
                      void openDraft(store, props.shop, book).then((done) => {
                        if (done) setSide(undefined);
                      })
                    }
                    onEdition={(book, number) =>
                      void openEdition(store, props.shop, book, number).then((done) => {
                        if (done) setSide(undefined);
                      })
                    }
                    textOf={(book, number) =>
                      props.shop.client.edition(book, number).then(
                        (one) => one.text,
                        () => undefined,
                      )
                    }
                    onLayer={writes(shop.you) ? beginLayer : undefined}
                  />
                )}
                {side.is === "books" && (
                  <BooksSide
                    current={state.key}
                    books={state.books}
                    shipped={shippedBooks}
                    onSave={save}
                    onFile={() => fileField.current?.click()}
                    onOpen={(key) => void store.open(key).then(() => setSide(undefined))}
                    onShipped={(name) =>
                      void shippedBook(name).then((book) => {
                        if (book !== undefined) {
                          void store.openText(book, name);
                          setSide(undefined);
                        }
                      })
                    }
                    onNew={() => {
                      void store.openText(
                        'book new-book, edition 1\n    "A book of our own"\n\npart "What the technician measures"\n',
                        "new-book",
                      );
                      setSide(undefined);
                    }}
                    onDrop={(key) => void store.drop(key)}
                    textOf={(from, key) =>
                      from === "shipped"
                        ? shippedBook(key)
                        : key === state.key
                          ? Promise.resolve(document.accepted)
                          : store.acceptedOf(key)
                    }
                    others={namesTaken}
                    onLayer={beginLayer}
                  />
                )}
              </Safely>
            </SidePanel>
          )}
        </div>
        <input
          ref={fileField}
          type="file"
          accept=".bevel,.txt,text/plain"
          className="out-of-sight"
          tabIndex={-1}
          aria-label="A book's file"
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = "";
            if (file) void openFile(store, file);
          }}
        />
        <Notices bench={store} />
      </main>
    </div>
  );
}

function traced(keyword: Keyword): boolean {
  switch (keyword) {
    case "ask":
    case "dial":
    case "figure":
    case "chart":
    case "list":
    case "step":
    case "caution":
    case "stop":
    case "promise":
      return true;
    case "book":
    case "part":
    case "kind":
    case "formula":
    case "picture":
    case "worked":
    case "use":
    case "drop":
    case "unreadable":
      return false;
  }
}

function headingOf(side: Side): string {
  switch (side.is) {
    case "why":
      return "Why";
    case "chart":
      return `Chart ${side.name}`;
    case "findings":
      return "Findings";
    case "help":
      return "Keys and help";
    case "books":
      return "Books";
    case "clash":
      return "Changed by both";
    case "history":
      return "History of the draft";
    case "job":
      return "Job";
    case "add-job":
      return "Lay a job alongside";
  }
}

const nothingTicked = {};
/** The chart that a row of the sheet stands for. */
const chartNamed = (row: string): string | undefined =>
  row.startsWith("chart ") ? row.slice("chart ".length) : undefined;
const toggled = (now: Side | undefined, wish: Side): Side | undefined =>
  now?.is === wish.is ? undefined : wish;
/** Whether the why may open by itself beside what is shown. */
const wideEnough = (face: Face): boolean => window.innerWidth >= (face === "both" ? 1600 : 1180);
const focusSide = (): void => {
  requestAnimationFrame(() =>
    document.querySelector<HTMLElement>(".side-body button, .side-body [tabindex]")?.focus(),
  );
};
