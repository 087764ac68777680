// The words and the hint below the field of a chart's cell. They lie over the page, since the grid scrolls.
import { useLayoutEffect, useState } from "react";
import type { CSSProperties, RefObject } from "react";
import { createPortal } from "react-dom";

export function CellOffers(props: {
  readonly field: RefObject<HTMLInputElement | null>;
  readonly list: string;
  readonly label: string;
  /** All words of the column; none where one types. */
  readonly words: readonly string[];
  readonly offered: readonly string[];
  /** Index of the word that the keys have chosen, -1 for none. */
  readonly pick: number;
  readonly hint: string;
  readonly onTake: (word: string) => void;
}) {
  const place = usePlaceBelow(props.field);
  if (place === undefined || (props.words.length === 0 && props.hint === "")) return null;
  return createPortal(
    <div className="chart-offers" style={place}>
      {props.words.length > 0 && (
        <ul role="listbox" id={props.list} aria-label={props.label}>
          {props.offered.map((word, i) => (
            // biome-ignore lint/a11y/useKeyWithClickEvents: the field keeps the focus and has the keys
            <li
              key={word}
              id={`${props.list}-${i}`}
              role="option"
              aria-selected={i === props.pick}
              ref={i === props.pick ? (node) => node?.scrollIntoView({ block: "nearest" }) : undefined}
              // The field keeps the focus, so that leaving it is not mistaken for being done.
              onPointerDown={(event) => event.preventDefault()}
              onClick={() => props.onTake(word)}
            >
              {word}
            </li>
          ))}
          {props.offered.length === 0 && (
            <li className="chart-offers-none" role="option" aria-selected={false} aria-disabled>
              No word of this kind
            </li>
          )}
        </ul>
      )}
      {props.hint !== "" && <p className="chart-hint">{props.hint}</p>}
    </div>,
    document.body,
  );
}

/** Where the list is: below the field, or above it near the lower edge of the window. */
function usePlaceBelow(field: RefObject<HTMLInputElement | null>): CSSProperties | undefined {
  const [place, setPlace] = useState<CSSProperties>();
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
