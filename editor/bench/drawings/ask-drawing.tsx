// The small drawing beside a question that shows where it is measured; nothing where the book says nothing.
import { useId } from "react";
import { useWords } from "../words/words.ts";
import { drawAsk } from "./ask.ts";
import { MarksSvg } from "./marks-svg.tsx";
import { narrowSheet } from "./sheet.ts";
import "./drawings.css";

export function AskDrawing({ place, question }: { readonly place: string | undefined; readonly question: string }) {
  const say = useWords();
  const id = useId().replace(/[^\w-]/g, "");
  const drawn = drawAsk(place, narrowSheet(say));
  if (drawn === undefined) return null;
  return (
    <figure className="draw draw-ask">
      <MarksSvg drawn={drawn} id={id} title={question} words={drawn.describes.join(" ")} />
      <figcaption>{drawn.describes.join(" ")}</figcaption>
    </figure>
  );
}
