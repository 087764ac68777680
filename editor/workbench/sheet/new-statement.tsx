// A statement that is being written into the sheet, below the row that it will follow.
import { RuleEditor } from "./rule-editor.tsx";
import type { SheetActions, StatementDraft } from "./sheet-props.ts";

export function NewStatement(props: {
  readonly draft: StatementDraft;
  /** Px from the top of the rows. */
  readonly top: number;
  /** Offset in the book's text at which it will be put. */
  readonly at: number;
  readonly actions: SheetActions;
  readonly onHeight: (height: number) => void;
  /** After it was kept or dropped. */
  readonly onEnd: () => void;
}) {
  const { draft, actions } = props;
  const at = { start: props.at, end: props.at };
  const end = (typed: string | undefined): void => {
    actions.endDraft(typed);
    props.onEnd();
  };
  return (
    <div className="sheet-draft" style={{ transform: `translateY(${props.top}px)` }}>
      <RuleEditor
        key={draft.text}
        label="New statement"
        first={draft.text}
        caret={draft.caret}
        onHeight={props.onHeight}
        onDrop={() => end(undefined)}
        onKeep={end}
        onTry={(typed, caret) => actions.tryDraft(at, at, typed, caret)}
      />
    </div>
  );
}
