// The sheet with what can be done from it.
import type { Workbench } from "../controller/use-workbench.ts";
import { focusPanel } from "../controller/use-focus-calls.ts";
import { Safely } from "../../ui/parts/error-boundary.tsx";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { SheetActions } from "../sheet/sheet-props.ts";
import { Sheet } from "../sheet/sheet.tsx";

export function SheetPane({ bench, snapshot }: { readonly bench: Workbench; readonly snapshot: Snapshot }) {
  return (
    <section className="floor-sheet" aria-label="Sheet">
      <Safely what="The sheet" about={snapshot}>
        <Sheet
          snapshot={snapshot}
          jobs={bench.state.desk.jobs}
          rows={bench.filter.rows}
          chosen={bench.chosen.place}
          lit={bench.hovered?.id}
          readOnly={!bench.state.mine}
          focusCall={bench.calls.sheet}
          amendCall={bench.calls.amend}
          draft={bench.draft}
          impacts={bench.impacts}
          actions={sheetActions(bench)}
        />
      </Safely>
    </section>
  );
}

function sheetActions(bench: Workbench): SheetActions {
  const { store, edits, panel, layer, statements, go, chosen } = bench;
  return {
    choose: go.choose,
    setRule: (id, typed) => void edits.rule(id, typed),
    setName: (id, typed) => void edits.name(id, typed),
    setBasis: (id, typed) => void edits.basis(id, typed),
    setAnswers: store.setAnswers,
    endDraft: statements.endDraft,
    pasteStatements: (after, text) => void edits.insert(after, text),
    shift: (id, by) => void edits.shift(id, by),
    remove: layer.remove,
    amend: (id, typed) => void edits.amend(id, typed),
    amendWhole: layer.amendWhole,
    tryDraft: edits.attempt,
    tryAmend: edits.tryAmend,
    repair: statements.repair,
    openChart: (name) => panel.show({ is: "chart", name }),
    openWhy: () => {
      panel.show({ is: "why" });
      focusPanel();
    },
    openJob: (id) => {
      chosen.setJob(id);
      panel.show({ is: "job", id });
    },
    addJob: () => panel.show({ is: "add-job" }),
    showImpact: (row) => {
      bench.comparison.compareWith("under", row);
      go.showView("editions");
    },
    pointAt: bench.setPointed,
    notify: store.tell,
    requestColours: (rules) => store.ask((engine) => engine.colourEach(rules)),
  };
}
