// The field in which one cell of a chart is written, over the cell itself, with the words of its kind offered
// in a list. It reports how it was left; the grid moves on.
import { useEffect, useId, useRef, useState } from "react";
import type { KeyboardEvent, RefObject } from "react";
import type { ChartColumn } from "../../../core/view.ts";
import { CellOffers } from "./cell-offers.tsx";
import { lastWord, withWord, wordsThatFit } from "./cell-words.ts";

export type Leave = "down" | "up" | "right" | "left" | "stay";

export interface ChartCellProps {
  readonly column: ChartColumn;
  readonly hint: string;
  readonly words: readonly string[];
  readonly startWith: string;
  /** All of it selected, to be replaced by what is typed. */
  readonly selectAll: boolean;
  readonly label: string;
  onDone(text: string, leave: Leave): void;
  onEscape(): void;
}

export function ChartCell(props: ChartCellProps) {
  const { column, words, label } = props;
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const cell = useCellText(props);
  const { text, pick, offered } = cell;
  useFirstSelection(field, props.startWith.length, props.selectAll);
  const combobox =
    words.length === 0
      ? {}
      : ({
          role: "combobox",
          "aria-expanded": offered.length > 0,
          "aria-controls": list,
          "aria-autocomplete": "list",
        } as const);
  return (
    <>
      <input
        ref={field}
        className="chart-field"
        value={text}
        aria-label={label}
        {...combobox}
        aria-activedescendant={pick >= 0 ? `${list}-${pick}` : undefined}
        spellCheck={false}
        autoComplete="off"
        autoCapitalize="off"
        onChange={(event) => cell.type(event.target.value)}
        onBlur={() => cell.done(text, "stay")}
        onKeyDown={(event) => press(event, cell)}
      />
      <CellOffers
        field={field}
        list={list}
        label={`Words for ${column.name}`}
        words={words}
        offered={offered}
        pick={pick}
        hint={props.hint}
        onTake={cell.takeByHand}
      />
    </>
  );
}

type CellState = ReturnType<typeof useCellText>;

/** The text of the cell while it is written, and the words that fit it. */
function useCellText({ column, words, startWith, onDone, onEscape }: ChartCellProps) {
  const [text, setText] = useState(startWith);
  const [pick, setPick] = useState(-1);
  const [touched, setTouched] = useState(false);
  const left = useRef(false);
  const several = column.role === "condition";
  const { before, typed } = lastWord(text, several);
  const done = (value: string, leave: Leave): void => {
    if (left.current) return;
    left.current = true;
    onDone(value.replace(/[\s|]+/g, " ").trim(), leave);
  };
  const take = (word: string): string => {
    const next = withWord(word, before);
    setText(next);
    setPick(-1);
    return next;
  };
  return {
    text,
    pick,
    setPick,
    offered: wordsThatFit(words, touched ? typed : "", before),
    done,
    take,
    type: (next: string): void => {
      setText(next);
      setTouched(true);
      setPick(-1);
    },
    /** A word taken by a press ends the cell, unless more words may follow it. */
    takeByHand: (word: string): void => {
      const next = take(word);
      if (!several) done(next, "stay");
    },
    escape: (): void => {
      left.current = true;
      onEscape();
    },
  };
}

function press(event: KeyboardEvent, cell: CellState): void {
  const { text, pick, offered } = cell;
  event.stopPropagation();
  if (event.nativeEvent.isComposing) return;
  const chosen = pick >= 0 ? offered[pick] : undefined;
  switch (event.key) {
    case "ArrowDown":
    case "ArrowUp": {
      event.preventDefault();
      const by = event.key === "ArrowDown" ? 1 : -1;
      if (offered.length > 0)
        cell.setPick((pick + by + offered.length + (pick < 0 && by < 0 ? 1 : 0)) % offered.length);
      else cell.done(text, by > 0 ? "down" : "up");
      return;
    }
    case "Enter":
    case "Tab":
      event.preventDefault();
      cell.done(chosen === undefined ? text : cell.take(chosen), leaveBy(event));
      return;
    case "Escape":
      event.preventDefault();
      cell.escape();
      return;
  }
}

function leaveBy(event: KeyboardEvent): Leave {
  if (event.key === "Enter") return event.shiftKey ? "up" : "down";
  return event.shiftKey ? "left" : "right";
}

/** Takes the focus when the field opens, with all of the text selected or the cursor at its end. */
function useFirstSelection(field: RefObject<HTMLInputElement | null>, length: number, all: boolean): void {
  const [first] = useState({ length, all });
  useEffect(() => {
    field.current?.focus();
    if (first.all) field.current?.select();
    else field.current?.setSelectionRange(first.length, first.length);
  }, [field, first]);
}
