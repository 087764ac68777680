// A rule as the sheet shows it, in the same colours as the text view but quieter. The marks come from the
// engine and may come late or not at all; until then the rule is in plain ink.
import type { Mark } from "../../../engine/index.ts";
import type { Row } from "../../../core/view.ts";
import { shownRule } from "./shown-row.ts";

export function ColouredRule(props: { readonly text: string; readonly marks: readonly Mark[] | undefined }) {
  const { text, marks } = props;
  if (!marks || marks.length === 0) return text;
  let done = 0;
  return (
    <>
      {marks.map((mark) => {
        const before = text.slice(done, mark.at.start);
        done = mark.at.end;
        return (
          <span key={mark.at.start}>
            {before}
            <span className={`ink-${mark.as}`}>{text.slice(mark.at.start, mark.at.end)}</span>
          </span>
        );
      })}
      {text.slice(done)}
    </>
  );
}

/** A statement on one line, to be coloured as a whole: its first words say what the rest of them are. */
export const asStatement = (row: Row): string => `${headOf(row)}${shownRule(row)}`;
const headOf = (row: Row): string => `${row.keyword} ${row.name === undefined ? "" : `${row.name} `}`;

/** Marks of the statement as marks of its rule alone. */
export function marksOfRule(row: Row, marks: readonly Mark[]): readonly Mark[] {
  const by = headOf(row).length;
  return marks
    .filter((mark) => mark.at.start >= by)
    .map((mark) => ({ ...mark, at: { start: mark.at.start - by, end: mark.at.end - by } }));
}
