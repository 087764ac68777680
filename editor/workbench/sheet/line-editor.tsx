// A single line of the sheet edited in place: a name or a basis.
import { useLayoutEffect, useRef, useState } from "react";

/** A single line edited in place, with a few words to pick from. */
export function LineEditor(props: {
  readonly label: string;
  readonly first: string;
  readonly words: readonly string[];
  readonly onKeep: (typed: string) => void;
  readonly onDrop: () => void;
}) {
  const [typed, setTyped] = useState(props.first);
  const field = useRef<HTMLInputElement>(null);
  const done = useRef(false);
  const end = (keep: boolean): void => {
    if (done.current) return;
    done.current = true;
    if (keep) props.onKeep(typed.trim());
    else props.onDrop();
  };
  useLayoutEffect(() => {
    field.current?.focus();
    field.current?.select();
  }, []);
  return (
    <div className="line-editor">
      <input
        ref={field}
        className="field rule"
        aria-label={props.label}
        value={typed}
        spellCheck={false}
        autoComplete="off"
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => end(true)}
        onKeyDown={(event) => {
          event.stopPropagation();
          if (event.key === "Enter") {
            event.preventDefault();
            end(true);
          }
          if (event.key === "Escape") {
            event.preventDefault();
            end(false);
          }
        }}
      />
      {props.words.length > 0 && (
        <div className="line-words">
          {props.words.map((word) => (
            <button
              type="button"
              key={word}
              className="button"
              onMouseDown={(event) => {
                event.preventDefault();
                setTyped(word);
              }}
            >
              {word}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
