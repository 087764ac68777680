// An answer typed into a job's cell: a measure with its unit, a word of a kind, yes, no or unknown.
import { useId, useLayoutEffect, useRef, useState } from "react";
import type { KeyboardEvent, RefObject } from "react";
import type { AskView } from "../../../core/view.ts";
import { answerHint, fittingWords, pickedAnswer, wordsOf } from "./answer-cell-words.ts";
import { OfferList, offerId } from "./offer-list.tsx";

/** Where the sheet goes after an answer is kept. */
export type After = "stay" | "down" | "right";

export interface AnswerEditorProps {
  readonly label: string;
  readonly ask: AskView | undefined;
  readonly first: string;
  readonly onKeep: (text: string, after: After) => void;
  readonly onDrop: () => void;
}

export function AnswerEditor(props: AnswerEditorProps) {
  const [draft, setDraft] = useState(props.first);
  const [chosen, setChosen] = useState(-1);
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const offers = fittingWords(wordsOf(props.ask), draft);
  const { keep, drop } = useOneEnd(props);
  useFocusOnOpen(field, props.first);
  const press = (event: KeyboardEvent): void => {
    event.stopPropagation();
    if (event.key === "Escape") {
      event.preventDefault();
      drop();
    } else if (event.key === "Enter" || event.key === "Tab") {
      event.preventDefault();
      keep(pickedAnswer(props.ask, draft, chosen), event.key === "Enter" ? "down" : "right");
    } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && offers.length > 0) {
      event.preventDefault();
      setChosen((now) =>
        event.key === "ArrowDown" ? (now + 1) % offers.length : (now <= 0 ? offers.length : now) - 1,
      );
    }
  };
  return (
    <div className="answer-editor">
      <input
        ref={field}
        className="field"
        role="combobox"
        aria-label={props.label}
        value={draft}
        spellCheck={false}
        autoComplete="off"
        autoCapitalize="off"
        placeholder={answerHint(props.ask)}
        aria-expanded={offers.length > 0}
        aria-controls={list}
        aria-activedescendant={chosen >= 0 ? offerId(list, chosen) : undefined}
        onChange={(event) => {
          setDraft(event.target.value);
          setChosen(-1);
        }}
        onKeyDown={press}
        onBlur={() => keep(draft, "stay")}
      />
      <OfferList
        id={list}
        label="Answers that fit"
        offers={offers}
        chosen={chosen}
        onTake={(index) => keep(offers[index]?.word ?? draft, "stay")}
      />
    </div>
  );
}

/** Keeps or drops once: closing the field blurs it, which would keep it a second time. */
function useOneEnd(props: AnswerEditorProps) {
  const done = useRef(false);
  return {
    keep: (text: string, after: After): void => {
      if (done.current) return;
      done.current = true;
      props.onKeep(text, after);
    },
    drop: (): void => {
      done.current = true;
      props.onDrop();
    },
  };
}

/** Takes the focus; an answer that was there is selected, a letter typed over the cell is gone on from. */
function useFocusOnOpen(field: RefObject<HTMLInputElement | null>, first: string): void {
  const [opened] = useState(first);
  useLayoutEffect(() => {
    field.current?.focus();
    if (opened.length > 1) field.current?.select();
  }, [field, opened]);
}
