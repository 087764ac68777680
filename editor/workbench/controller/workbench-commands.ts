// What the keys of the workbench do, wherever the focus is.
import type { BenchCommands } from "../commands.ts";
import type { Workbench } from "./use-workbench.ts";
import { showsSheet } from "./view-state.ts";

export function workbenchCommands(bench: Workbench): BenchCommands {
  const { store, go, findField } = bench;
  return {
    undo: store.undo,
    redo: store.redo,
    accept: store.accept,
    save: bench.books.save,
    find: () => {
      bench.setView((view) => (showsSheet(view) ? view : "sheet"));
      requestAnimationFrame(() => {
        findField.current?.focus();
        findField.current?.select();
      });
    },
    help: () => bench.panel.show({ is: "help" }),
    show: go.showViewByKey,
    addStatement: () => bench.statements.begin("figure"),
    repairHere: bench.statements.repairHere,
    nextFinding: go.goToNextFinding,
    backToSheet: go.backToSheet,
  };
}
