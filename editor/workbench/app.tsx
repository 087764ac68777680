// The workbench: the title block, one view of the book or two beside each other, and the panel beside them.
import type { Workbench } from "./controller/use-workbench.ts";
import { useWorkbench } from "./controller/use-workbench.ts";
import { openFile } from "./controller/use-files.ts";
import { showsSheet, showsText } from "./controller/view-state.ts";
import { Notices } from "./bench-notices.tsx";
import { CardPane } from "./panes/card-pane.tsx";
import { EditionsPane } from "./panes/editions-pane.tsx";
import { LogPane } from "./panes/log-pane.tsx";
import { SheetPane } from "./panes/sheet-pane.tsx";
import { SheetToolbar } from "./panes/sheet-toolbar.tsx";
import { StandingPane } from "./panes/standing-pane.tsx";
import { Strips } from "./panes/strips.tsx";
import { TextPane } from "./panes/text-pane.tsx";
import { OpenPanel } from "./panels/panel-contents.tsx";
import type { WorkbenchStore } from "./store/document.ts";
import type { Shop } from "./store/shop.ts";
import { TitleBlock } from "./title-block.tsx";
import "./app.css";

export function App(props: { readonly bench: WorkbenchStore; readonly shop: Shop }) {
  const bench = useWorkbench(props.bench, props.shop);
  const { store, view, panel, book, go } = bench;
  return (
    <div className={`bench face-${view}${panel.open ? " has-side" : ""}`}>
      <TitleBlock
        state={bench.state}
        shop={bench.host}
        view={view}
        errors={book.errors}
        warnings={book.warnings}
        panel={panel.open?.is ?? ""}
        onView={go.showView}
        onUnits={store.setUnits}
        onUndo={store.undo}
        onRedo={store.redo}
        onBooks={() => panel.toggle({ is: "books" })}
        onFindings={() => panel.toggle({ is: "findings" })}
        onHelp={() => panel.toggle({ is: "help" })}
      />
      <main>
        <Strips bench={bench} />
        {showsSheet(view) && <SheetToolbar bench={bench} />}
        <div className="bench-floor">
          <Views bench={bench} />
        </div>
        <BookFile bench={bench} />
        <Notices bench={store} />
      </main>
    </div>
  );
}

/** What is shown, with the panel beside it. */
function Views({ bench }: { readonly bench: Workbench }) {
  const { view, state, snapshot, panel } = bench;
  return (
    <>
      {!snapshot && (
        <p className="waiting-note" role="status">
          {state.slow ? "Still reading the book…" : "Reading the book…"}
        </p>
      )}
      {snapshot && showsSheet(view) && <SheetPane bench={bench} snapshot={snapshot} />}
      {showsText(view) && <TextPane bench={bench} />}
      {snapshot && view === "card" && <CardPane bench={bench} snapshot={snapshot} />}
      {state.snapshot && view === "standing" && <StandingPane bench={bench} read={state.snapshot} />}
      {snapshot && view === "editions" && <EditionsPane bench={bench} snapshot={snapshot} />}
      {snapshot && view === "log" && <LogPane bench={bench} snapshot={snapshot} />}
      {snapshot && panel.open && <OpenPanel bench={bench} snapshot={snapshot} panel={panel.open} />}
    </>
  );
}

/** The hidden field that picks a book's file. */
const BookFile = ({ bench }: { readonly bench: Workbench }) => (
  <input
    ref={bench.fileField}
    type="file"
    accept=".bevel,.txt,text/plain"
    className="out-of-sight"
    tabIndex={-1}
    aria-label="A book's file"
    onChange={(event) => {
      const file = event.target.files?.[0];
      event.target.value = "";
      if (file) void openFile(bench.store, file);
    }}
  />
);
