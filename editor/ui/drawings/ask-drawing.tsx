// The small drawing beside a question that shows where it is measured; nothing where the book says nothing.
// Its place is free from the first, so that nothing moves when the drawing comes.
import { useId } from "react";
import { useWords } from "../words/words.ts";
import { askPlace, askWidth } from "./ask-places.ts";
import type { AskMarks } from "./ask-marks.tsx";
import "./ask-drawing.css";

export function AskDrawing({
  place,
  question,
  Marks,
}: {
  readonly place: string | undefined;
  readonly question: string;
  readonly Marks: typeof AskMarks | undefined;
}) {
  const say = useWords();
  const id = useId().replace(/[^\w-]/g, "");
  const shown = askPlace(place);
  if (shown === undefined) return null;
  return (
    <figure className="draw draw-ask">
      <div className="draw-ask-sheet" style={{ aspectRatio: `${askWidth} / ${shown.height}` }}>
        {Marks && <Marks place={place} id={id} title={question} />}
      </div>
      <figcaption>{say(shown.says)}</figcaption>
    </figure>
  );
}
