// Finding words in the book's text: one line above the text, with the count of places.
import { useEffect, useRef, useState } from "react";
import type { monaco, CodeEditor } from "./monaco.ts";

export interface FindLineProps {
  readonly editor: CodeEditor;
  readonly startWith: string;
  /** Changes with every edit, so that the count stays true. */
  readonly textVersion: number;
  onClose(): void;
}

const MOST_FOUND = 5000;

export function FindLine({ editor, startWith, textVersion, onClose }: FindLineProps) {
  const [words, setWords] = useState(startWith);
  const [found, setFound] = useState<readonly monaco.Range[]>([]);
  const [current, setCurrent] = useState(-1);
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: counts again after each edit of the text.
  useEffect(() => {
    const matches =
      words === ""
        ? []
        : (editor.getModel()?.findMatches(words, false, false, false, null, false, MOST_FOUND) ?? []);
    const ranges = matches.map((match) => match.range);
    setFound(ranges);
    const from = editor.getPosition();
    const next = from === null ? 0 : ranges.findIndex((range) => !range.getStartPosition().isBefore(from));
    setCurrent(ranges.length === 0 ? -1 : Math.max(0, next));
  }, [editor, words, textVersion]);

  useEffect(() => {
    const drawn = editor.createDecorationsCollection(
      found.map((range, i) => ({
        range,
        options: { className: i === current ? "sought sought-now" : "sought" },
      })),
    );
    const range = found[current];
    if (range !== undefined) editor.revealRangeInCenterIfOutsideViewport(range);
    return () => drawn.clear();
  }, [editor, found, current]);

  const step = (by: 1 | -1) => found.length > 0 && setCurrent((current + by + found.length) % found.length);
  const close = () => {
    const range = found[current];
    if (range !== undefined) editor.setSelection(range, "bevel");
    onClose();
  };

  return (
    <form
      className="text-line find-line"
      role="search"
      onSubmit={(event) => {
        event.preventDefault();
        step(1);
      }}
      onKeyDown={(event) => {
        if (event.key === "Escape") close();
        if (event.key === "Enter" && event.shiftKey) {
          event.preventDefault();
          step(-1);
        }
      }}
    >
      <label className="text-line-ask">
        <span className="label">Find in the text</span>
        <input
          ref={field}
          className="field"
          value={words}
          onChange={(event) => setWords(event.target.value)}
          spellCheck={false}
          autoComplete="off"
        />
      </label>
      <span className="text-line-says" role="status">
        {counted(words, found.length, current)}
      </span>
      <button type="button" className="button" onClick={() => step(-1)} disabled={found.length === 0}>
        Before
      </button>
      <button type="submit" className="button" disabled={found.length === 0}>
        Next
      </button>
      <button type="button" className="button bare" onClick={close}>
        Close
      </button>
    </form>
  );
}

function counted(words: string, count: number, current: number): string {
  if (words === "") return "";
  if (count === 0) return "Not in this book";
  return `${current + 1} of ${count === MOST_FOUND ? `${count} or more` : count}`;
}
