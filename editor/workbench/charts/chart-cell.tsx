// The field in which one cell of a chart is written, over the cell itself, with the
// words of its kind offered in a list. It reports how it was left; moving on is the grid's.
import { useEffect, useId, useLayoutEffect, useRef, useState } from "react";
import { createPortal } from "react-dom";
import type { ChartColumn } from "../../../core/view.ts";

export type Leave = "down" | "up" | "right" | "left" | "stay";

export interface ChartCellProps {
  readonly column: ChartColumn;
  readonly hint: string;
  readonly words: readonly string[];
  readonly startWith: string;
  /** All of it selected, as when one opens a cell to write it anew. */
  readonly selectAll: boolean;
  readonly label: string;
  onDone(text: string, leave: Leave): void;
  onEscape(): void;
}

export function ChartCell({
  column,
  hint,
  words,
  startWith,
  selectAll,
  label,
  onDone,
  onEscape,
}: ChartCellProps) {
  const [text, setText] = useState(startWith);
  const [pick, setPick] = useState(-1);
  const [touched, setTouched] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const left = useRef(false);
  const list = useId();
  const several = column.role === "condition";
  const { before, typed } = lastWord(text, several);
  const offered = wordsThatFit(words, touched ? typed : "", before);
  const place = usePlaceBelow(field);

  useEffect(() => {
    field.current?.focus();
    if (selectAll) field.current?.select();
    else field.current?.setSelectionRange(startWith.length, startWith.length);
  }, []);

  const done = (value: string, leave: Leave) => {
    if (left.current) return;
    left.current = true;
    onDone(value.replace(/[\s|]+/g, " ").trim(), leave);
  };
  const take = (word: string): string => {
    // A word after commas joins those before it; `any` stands alone.
    const next = word === "any" ? word : `${before}${word}`;
    setText(next);
    setPick(-1);
    return next;
  };

  return (
    <>
      <input
        ref={field}
        className="chart-field"
        value={text}
        aria-label={label}
        role={words.length > 0 ? "combobox" : undefined}
        aria-expanded={words.length > 0 ? offered.length > 0 : undefined}
        aria-controls={words.length > 0 ? list : undefined}
        aria-activedescendant={pick >= 0 ? `${list}-${pick}` : undefined}
        aria-autocomplete={words.length > 0 ? "list" : undefined}
        spellCheck={false}
        autoComplete="off"
        autoCapitalize="off"
        onChange={(event) => {
          setText(event.target.value);
          setTouched(true);
          setPick(-1);
        }}
        onBlur={() => done(text, "stay")}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.nativeEvent.isComposing) return;
          const chosen = pick >= 0 ? offered[pick] : undefined;
          switch (event.key) {
            case "ArrowDown":
            case "ArrowUp": {
              event.preventDefault();
              const by = event.key === "ArrowDown" ? 1 : -1;
              if (offered.length > 0)
                setPick((pick + by + offered.length + (pick < 0 && by < 0 ? 1 : 0)) % offered.length);
              else done(text, by > 0 ? "down" : "up");
              return;
            }
            case "Enter":
            case "Tab":
              event.preventDefault();
              done(
                chosen === undefined ? text : take(chosen),
                event.key === "Enter" ? (event.shiftKey ? "up" : "down") : event.shiftKey ? "left" : "right",
              );
              return;
            case "Escape":
              event.preventDefault();
              left.current = true;
              onEscape();
              return;
          }
        }}
      />
      {place !== undefined &&
        (words.length > 0 || hint !== "") &&
        createPortal(
          <div className="chart-offers" style={place}>
            {words.length > 0 && (
              <ul role="listbox" id={list} aria-label={`Words for ${column.name}`}>
                {offered.map((word, i) => (
                  <li
                    key={word}
                    id={`${list}-${i}`}
                    role="option"
                    aria-selected={i === pick}
                    ref={i === pick ? (node) => node?.scrollIntoView({ block: "nearest" }) : undefined}
                    // The field keeps the focus, so that leaving it is not mistaken for being done.
                    onPointerDown={(event) => event.preventDefault()}
                    onClick={() => {
                      const next = take(word);
                      if (!several) done(next, "stay");
                    }}
                  >
                    {word}
                  </li>
                ))}
                {offered.length === 0 && (
                  <li className="chart-offers-none" role="option" aria-selected={false} aria-disabled>
                    No word of this kind
                  </li>
                )}
              </ul>
            )}
            {hint !== "" && <p className="chart-hint">{hint}</p>}
          </div>,
          document.body,
        )}
    </>
  );
}

/** The word being typed, and what stands before it. */
function lastWord(text: string, several: boolean): { before: string; typed: string } {
  const comma = several ? text.lastIndexOf(",") : -1;
  return comma < 0
    ? { before: "", typed: text.trim() }
    : { before: `${text.slice(0, comma)}, `, typed: text.slice(comma + 1).trim() };
}

/**
 * Words that hold what is typed, those that begin with it first; words that stand in the cell already are
 * left out.
 */
function wordsThatFit(words: readonly string[], typed: string, before: string): readonly string[] {
  const there = new Set(before.split(",").map((word) => word.trim()));
  const sought = typed.toLowerCase();
  const fit = words.filter((word) => !there.has(word) && word.toLowerCase().includes(sought));
  return [
    ...fit.filter((word) => word.toLowerCase().startsWith(sought)),
    ...fit.filter((word) => !word.toLowerCase().startsWith(sought)),
  ];
}

/** Where the list stands: below the field, or above it near the lower edge of the window. */
function usePlaceBelow(field: React.RefObject<HTMLInputElement | null>) {
  const [place, setPlace] = useState<React.CSSProperties>();
  useLayoutEffect(() => {
    const put = () => {
      const box = field.current?.getBoundingClientRect();
      if (box === undefined) return;
      const below = innerHeight - box.bottom;
      const left = Math.max(4, Math.min(box.left - 1, innerWidth - 250));
      setPlace(
        below > 200 || below > box.top
          ? { left, top: box.bottom + 2, minWidth: box.width, maxHeight: Math.max(120, below - 12) }
          : { left, bottom: innerHeight - box.top + 2, minWidth: box.width, maxHeight: box.top - 12 },
      );
    };
    put();
    addEventListener("scroll", put, true);
    addEventListener("resize", put);
    return () => {
      removeEventListener("scroll", put, true);
      removeEventListener("resize", put);
    };
  }, [field]);
  return place;
}
