// The panel beside the view, with what it holds: one component for each kind of panel.
import { Suspense, lazy } from "react";
import { CloseCalls } from "../../card/close-calls.tsx";
import type { Snapshot } from "../../client/engine/messages.ts";
import { shippedBooks } from "../../client/storage/shipped.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import type { Workbench } from "../controller/use-workbench.ts";
import type { Panel } from "../controller/view-state.ts";
import { panelHeading } from "../controller/view-state.ts";
import { FindingsList } from "../findings/findings-list.tsx";
import { isLayer, lineAt } from "../sheet/layer-rows.ts";
import { ClashPanel } from "../shop-host/clash-panel.tsx";
import { HistoryPanel } from "../shop-host/history-panel.tsx";
import { HostBooks } from "../shop-host/host-books.tsx";
import { writes } from "../store/shop.ts";
import { AddJob } from "./add-job.tsx";
import { BooksPanel } from "./books-panel.tsx";
import { HelpPanel } from "./help-panel.tsx";
import { JobPanel } from "./job-panel.tsx";
import { RowPanel } from "./row-panel.tsx";
import { SidePanel } from "./side-panel.tsx";
import { WorkedLines } from "./worked-lines.tsx";

const ChartPanel = lazy(() => import("./chart-panel.tsx").then((module) => ({ default: module.ChartPanel })));

interface ContentProps {
  readonly bench: Workbench;
  readonly snapshot: Snapshot;
}

export function OpenPanel({ bench, snapshot, panel }: ContentProps & { readonly panel: Panel }) {
  return (
    <SidePanel
      heading={panelHeading(panel)}
      wide={panel.is === "chart" || panel.is === "clash"}
      onClose={bench.go.backToSheet}
    >
      <Safely
        what="This panel"
        about={`${panel.is} ${bench.chosen.place?.row ?? ""} ${snapshot.text.length}`}
      >
        <Content bench={bench} snapshot={snapshot} panel={panel} />
      </Safely>
    </SidePanel>
  );
}

function Content({ bench, snapshot, panel }: ContentProps & { readonly panel: Panel }) {
  const content = { bench, snapshot };
  switch (panel.is) {
    case "why":
      return <Why {...content} />;
    case "chart":
      return <Chart {...content} name={panel.name} />;
    case "findings":
      return <Findings {...content} />;
    case "clash":
      return <Clash {...content} />;
    case "history":
      return <History {...content} />;
    case "help":
      return <HelpPanel />;
    case "add-job":
      return <NewJob {...content} />;
    case "job":
      return bench.state.desk.jobs
        .filter((one) => one.id === panel.id)
        .map((one) => <Job key={one.id} {...content} job={one} />);
    case "books":
      return <Books {...content} />;
  }
}

function Why({ bench, snapshot }: ContentProps) {
  const { row, job } = bench.chosen;
  if (!row) return <p>Choose a cell of the sheet to read why it says what it says.</p>;
  const { trace, go, book } = bench;
  return (
    <>
      <RowPanel
        row={row}
        layered={isLayer(snapshot)}
        job={job?.name}
        trace={trace.trace}
        depth={trace.depth}
        onDepth={trace.setDepth}
        onGo={go.goTo}
        onHover={bench.hover}
        lit={bench.pointed}
        findings={bench.rowFindings}
        onRepair={bench.statements.repair}
        rowNamed={(name) => book.byName.get(name) ?? book.byId.get(name)}
        onChooseRow={(id) => go.goTo(id)}
      >
        {row.keyword === "chart" && (
          <button
            type="button"
            className="button"
            onClick={() => bench.panel.show({ is: "chart", name: row.name ?? "" })}
          >
            Open the chart
          </button>
        )}
        {row.keyword === "worked" && (
          <WorkedLines
            worked={snapshot.worked.find((one) => one.name === row.name)}
            onLay={(one) => bench.jobs.add({ name: one.name, answers: one.answers, from: one.name })}
          />
        )}
      </RowPanel>
      {trace.canTrace && job && (
        <CloseCalls
          key={job.id}
          about={snapshot.jobs[job.id]}
          onAsk={bench.closeCalls}
          first={row.name ?? row.id}
        />
      )}
    </>
  );
}

function Chart({ bench, snapshot, name }: ContentProps & { readonly name: string }) {
  return (
    <Suspense fallback={<p>Opening the chart…</p>}>
      <ChartPanel
        key={name}
        bench={bench.store}
        name={name}
        onName={(other) => bench.panel.show({ is: "chart", name: other })}
        jobs={bench.state.desk.jobs}
        job={bench.chosen.job}
        snapshot={snapshot}
        standing={bench.proving.standing}
        readOnly={!bench.state.mine}
      />
    </Suspense>
  );
}

const Findings = ({ bench, snapshot }: ContentProps) => (
  <FindingsList
    findings={snapshot.findings}
    rows={snapshot.rows}
    lineAt={isLayer(snapshot) ? (at) => lineAt(snapshot, at) : undefined}
    onGo={bench.go.goToFinding}
    onRepair={bench.statements.repair}
  />
);

function Clash({ bench }: ContentProps) {
  const { draft } = bench.host;
  if (!draft) return null;
  return (
    <ClashPanel
      draft={draft}
      text={bench.state.desk.text}
      onSettle={(text) => {
        bench.shop.settle(text);
        bench.panel.close();
      }}
    />
  );
}

function History({ bench }: ContentProps) {
  const { host, state, comparison, panel } = bench;
  const { draft } = host;
  if (!draft || draft.version <= 0)
    return <p>The host keeps no draft of this book yet. One begins with the first change.</p>;
  return (
    <HistoryPanel
      client={bench.shop.client}
      book={draft.book}
      version={draft.version}
      readOnly={!state.mine}
      onHold={(version) => {
        comparison.compareVersion(state.key, version);
        bench.go.showView("editions");
        panel.close();
      }}
      onTakeBack={bench.books.takeVersion}
    />
  );
}

const NewJob = ({ bench, snapshot }: ContentProps) => (
  <AddJob
    worked={snapshot.worked}
    onBlank={() => bench.jobs.add({ name: `Job ${bench.state.desk.jobs.length + 1}`, answers: {} })}
    onWorked={(one) => bench.jobs.add({ name: one.name, answers: one.answers, from: one.name })}
  />
);

function Job({ bench, snapshot, job }: ContentProps & { readonly job: JobTag }) {
  const { jobs } = bench;
  return (
    <JobPanel
      job={job}
      view={snapshot.jobs[job.id]}
      onRename={(name) => jobs.change(job.id, { name })}
      onCard={() => jobs.openCard(job.id)}
      onCopy={() => jobs.add({ name: `${job.name}, copy`, answers: job.answers })}
      onRemove={() => jobs.remove(job)}
      onMove={(by) => jobs.move(job.id, by)}
      onWhy={(row) => jobs.showWhy(job.id, row)}
      onLayIn={() => jobs.writeIntoBook(job)}
    />
  );
}

/** Books of the shop's host, then those of this browser. */
function Books({ bench, snapshot }: ContentProps) {
  const { host, state, books } = bench;
  return (
    <>
      <HostBooks
        state={host}
        current={snapshot.name}
        onHistory={() => bench.panel.show({ is: "history" })}
        onDraft={books.openDraft}
        onEdition={books.openEdition}
        textOf={books.editionText}
        onLayer={writes(host.you) ? books.openLayer : undefined}
      />
      <BooksPanel
        current={state.key}
        books={state.books}
        shipped={shippedBooks}
        onSave={books.save}
        onFile={() => bench.fileField.current?.click()}
        onOpen={books.openKept}
        onShipped={books.openShipped}
        onNew={books.openNew}
        onDrop={(key) => void bench.store.drop(key)}
        textOf={books.textOf}
        others={host.books.map((book) => book.name)}
        onLayer={books.openLayer}
      />
    </>
  );
}
