// One drawing of a job with its title, its scale and, on demand, all that it shows in words. It is laid out
// twice, for paper and for a telephone, and the look shows the one that fits; a reader who does not see it
// gets the words.
import { useId, useMemo } from "react";
import type { PictureShown } from "../../../core/view.ts";
import { withKeys } from "../parts/text-keys.ts";
import { useWords } from "../words/words.ts";
import { type Worked, drawingOf, isAskedFor, titleKeys } from "./drawing-of.ts";
import { MarksSvg } from "./marks-svg.tsx";
import { narrowSheet, wideSheet } from "./paper.ts";
import "./drawings.css";

export interface DrawingProps {
  readonly picture: PictureShown;
  /** For a map or a chart; absent while it is being worked. */
  readonly worked?: Worked;
  /** It was asked for and there is nothing. */
  readonly nothing?: boolean;
}

export function Drawing({ picture, worked, nothing }: DrawingProps) {
  const say = useWords();
  const id = useId().replace(/[^\w-]/g, "");
  const drawn = useMemo(
    () => ({
      wide: drawingOf(picture, wideSheet(say), worked),
      narrow: drawingOf(picture, narrowSheet(say), worked),
    }),
    [picture, worked, say],
  );
  const key = titleKeys[picture.shape];
  const title = picture.title || (key === undefined ? picture.shape : say(key));
  if (drawn.wide === undefined || drawn.narrow === undefined) return null;
  const waits = isAskedFor(picture.shape) && worked === undefined;
  const words = drawn.wide.describes.join(" ");
  return (
    <figure className={`draw draw-of-${picture.shape}`} data-picture={picture.id}>
      <figcaption className="draw-title">{title}</figcaption>
      {waits ? (
        <p className="draw-wait">{say(nothing ? "draw.not-yet" : "draw.drawing")}</p>
      ) : (
        <>
          <MarksSvg drawn={drawn.wide} id={`${id}w`} title={title} words={words} className="is-wide" />
          <MarksSvg drawn={drawn.narrow} id={`${id}n`} title={title} words={words} className="is-narrow" />
          {drawn.wide.notes.length > 0 && (
            <p className="draw-notes">
              {withKeys(drawn.wide.notes).map(([key, note], i) => (
                <span key={key} className={drawn.narrow!.notes[i] === note ? undefined : "is-wide"}>
                  {note}{" "}
                </span>
              ))}
              {withKeys(drawn.narrow.notes).map(([key, note], i) =>
                drawn.wide!.notes[i] === note ? null : (
                  <span key={`narrow ${key}`} className="is-narrow">
                    {note}{" "}
                  </span>
                ),
              )}
            </p>
          )}
          {drawn.wide.describes.length > 0 && (
            <details className="draw-words no-print">
              <summary>{say("draw.in-words")}</summary>
              <ul>
                {withKeys(drawn.wide.describes).map(([key, text]) => (
                  <li key={key}>{text}</li>
                ))}
              </ul>
            </details>
          )}
        </>
      )}
    </figure>
  );
}
