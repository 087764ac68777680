// An answer typed into a job's cell: a measure with its unit, a word of a kind, yes, no or unknown.
import { useId, useLayoutEffect, useRef, useState } from "react";
import type { KeyboardEvent } from "react";
import type { AskView } from "../../../core/view.ts";
import { fitOffers } from "./fit-offers.ts";

export type After = "stay" | "down" | "right";

export function AnswerEditor(props: {
  readonly label: string;
  readonly ask: AskView | undefined;
  readonly first: string;
  readonly onKeep: (text: string, after: After) => void;
  readonly onDrop: () => void;
}) {
  const [draft, setDraft] = useState(props.first);
  const [chosen, setChosen] = useState(-1);
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const words = wordsOf(props.ask);
  const whole = words.some((one) => one.word === draft.trim());
  const offers = whole
    ? words
    : words.filter((one) => one.word.toLowerCase().includes(draft.trim().toLowerCase()));
  const done = useRef(false);

  useLayoutEffect(() => {
    field.current?.focus();
    if (props.first.length > 1) field.current?.select();
  }, []);

  const keep = (text: string, after: After): void => {
    if (done.current) return;
    done.current = true;
    props.onKeep(text, after);
  };
  const press = (event: KeyboardEvent): void => {
    event.stopPropagation();
    const picked =
      offers[chosen]?.word ??
      (!whole && draft.trim() !== "" && offers.length === 1 && props.ask?.answer.is !== "quantity"
        ? offers[0]?.word
        : undefined) ??
      draft;
    if (event.key === "Escape") {
      event.preventDefault();
      done.current = true;
      props.onDrop();
    } else if (event.key === "Enter") {
      event.preventDefault();
      keep(picked, "down");
    } else if (event.key === "Tab") {
      event.preventDefault();
      keep(picked, "right");
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
        placeholder={hintFor(props.ask)}
        aria-expanded={offers.length > 0}
        aria-controls={list}
        aria-activedescendant={chosen >= 0 ? `${list}-${chosen}` : undefined}
        onChange={(event) => {
          setDraft(event.target.value);
          setChosen(-1);
        }}
        onKeyDown={press}
        onBlur={() => keep(draft, "stay")}
      />
      {offers.length > 0 && (
        <ul className="offers" ref={fitOffers} id={list} role="listbox" aria-label="Answers that fit">
          {offers.map((offer, place) => (
            <li
              key={offer.word}
              id={`${list}-${place}`}
              role="option"
              aria-selected={place === chosen}
              onMouseDown={(event) => {
                event.preventDefault();
                keep(offer.word, "stay");
              }}
            >
              <b>{offer.word}</b>
              <span>{offer.means}</span>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}

/** What can be typed whole: the words of the kind, yes and no, and always that it is not known. */
function wordsOf(ask: AskView | undefined): readonly { readonly word: string; readonly means: string }[] {
  const unknown = { word: "unknown", means: ask?.ifUnknown ? `takes ${ask.ifUnknown.take}` : "cannot tell" };
  if (!ask) return [];
  switch (ask.answer.is) {
    case "quantity":
      return [unknown];
    case "kind":
      return [...ask.answer.words, unknown];
    case "yes-no":
      return [{ word: "yes", means: "" }, { word: "no", means: "" }, unknown];
  }
}

function hintFor(ask: AskView | undefined): string {
  if (!ask) return "";
  switch (ask.answer.is) {
    case "quantity":
      return ask.answer.unit === "" ? "4" : `… ${ask.answer.unit}`;
    case "kind":
      return "a word";
    case "yes-no":
      return "yes or no";
  }
}
