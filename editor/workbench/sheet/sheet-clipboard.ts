// Copying from the sheet and pasting into it.
import type { ClipboardEvent } from "react";
import { copiedText, pastedAnswers } from "./cell-answers.ts";
import { fromTabs, looksLikeStatements } from "./copying.ts";
import type { SheetIndex } from "./sheet-index.ts";
import type { SheetProps } from "./sheet-props.ts";
import type { CellBlock } from "./use-sheet-selection.ts";

export interface ClipboardListeners {
  readonly onCopy: (event: ClipboardEvent) => void;
  readonly onPaste: (event: ClipboardEvent) => void;
}

/** `busy`: a cell or a statement is being written and has the clipboard. */
export function clipboardListeners(
  props: SheetProps,
  index: SheetIndex,
  block: CellBlock | undefined,
  busy: boolean,
): ClipboardListeners {
  const { chosen, actions } = props;
  return {
    onCopy: (event) => {
      if (!block || busy) return;
      event.preventDefault();
      const copied = copiedText(block, index.byId, props.jobs, props.snapshot);
      event.clipboardData.setData("text/plain", copied.text);
      actions.notify(copied.says);
    },
    onPaste: (event) => {
      if (!chosen || busy) return;
      const pasted = event.clipboardData.getData("text/plain");
      if (pasted.trim() === "") return;
      event.preventDefault();
      if (looksLikeStatements(pasted)) {
        actions.pasteStatements(chosen.row, pasted);
        return;
      }
      const answers = pastedAnswers(fromTabs(pasted), chosen, index);
      if (answers.length === 0) {
        actions.notify("Nothing was pasted: choose a job's cell for answers, or copy whole statements.");
        return;
      }
      actions.setAnswers(answers);
      actions.notify(`Pasted ${answers.length} ${answers.length === 1 ? "answer" : "answers"}.`);
    },
  };
}
