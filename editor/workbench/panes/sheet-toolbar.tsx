// The toolbar above the sheet, with what it does.
import { useMemo } from "react";
import type { Workbench } from "../controller/use-workbench.ts";
import { Toolbar, countChanges } from "../toolbar.tsx";

export function SheetToolbar({ bench }: { readonly bench: Workbench }) {
  const { store, state, snapshot, filter, chosen, edits, layer } = bench;
  const { row } = chosen;
  const { jobs } = state.desk;
  const changed = useMemo(() => snapshot && countChanges(snapshot, jobs), [snapshot, jobs]);
  /** Goes to the first row found, unless the chosen one is among them. */
  const goToFound = (): void => {
    const first = filter.rows.find((one) => one.keyword !== "part") ?? filter.rows[0];
    if (first && !filter.rows.some((one) => one.id === chosen.place?.row))
      store.choose({ row: first.id, column: "rule" });
    bench.calls.focusSheet();
  };
  return (
    <Toolbar
      find={filter.find}
      findField={bench.findField}
      found={filter.rows.length}
      part={filter.part}
      parts={bench.book.parts}
      chosen={state.mine ? row : undefined}
      changed={changed}
      slow={state.slow}
      onFind={filter.setFind}
      onFound={goToFound}
      onPart={filter.setPart}
      onNew={bench.statements.begin}
      onShift={(by) => row && void edits.shift(row.id, by)}
      onToPart={(to) => row && void edits.toPart(row.id, to)}
      onRemove={() => row && layer.remove(row.id)}
      onAmend={() => row && layer.amendRow(row.id)}
      onAccept={store.accept}
      onPutBack={store.putBack}
    />
  );
}
