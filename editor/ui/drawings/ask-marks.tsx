// The marks of a question's drawing on their sheet: fetched once the question stands.
import { useWords } from "../words/words.ts";
import { drawAsk } from "./draw-ask.ts";
import { MarksSvg } from "./marks-svg.tsx";
import { narrowSheet } from "./paper.ts";
import "./drawings.css";

export function AskMarks({
  place,
  id,
  title,
}: {
  readonly place: string | undefined;
  readonly id: string;
  readonly title: string;
}) {
  const drawn = drawAsk(place, narrowSheet(useWords()));
  return drawn === undefined ? null : (
    <MarksSvg drawn={drawn} id={id} title={title} words={drawn.describes.join(" ")} />
  );
}
