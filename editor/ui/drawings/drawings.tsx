// All drawings of a job, as its card shows them: those whose numbers are released. Maps and charts cost many
// jobs: they are asked for when the card has settled, one after the other, and asked for anew when the job
// has changed.
import { useContext, useEffect, useState } from "react";
import type { JobView, PictureShown } from "../../../core/view.ts";
import { useWords } from "../words/words.ts";
import { type Worked, isAskedFor, isReleased } from "./drawing-of.ts";
import { Drawing } from "./drawing.tsx";
import { WorkDrawingContext } from "./work-drawing.ts";
import type { WorkDrawing } from "./work-drawing.ts";

export function Drawings({ job }: { readonly job: JobView }) {
  const say = useWords();
  const work = useContext(WorkDrawingContext);
  // The card by itself keeps to one sheet; drawings go on sheets of their own, for who wants them.
  const [printed, setPrinted] = useState(false);
  const pictures = (job.pictures ?? []).filter(
    (one) => isReleased(one.shape, job.state) && (work !== undefined || !isAskedFor(one.shape)),
  );
  const worked = useWorked(
    job,
    pictures.filter((one) => isAskedFor(one.shape)),
    work,
  );
  if (pictures.length === 0) return null;
  return (
    <section className={`draws${printed ? "" : " no-print"}`} aria-label={say("draw.heading")}>
      <h3>
        <span>{say("draw.heading")}</span>
        <label className="draws-print no-print">
          <input
            type="checkbox"
            checked={printed}
            onChange={(event) => setPrinted(event.currentTarget.checked)}
          />{" "}
          {say("draw.print")}
        </label>
      </h3>
      {pictures.map((picture) => (
        <Drawing
          key={picture.id}
          picture={picture}
          worked={worked.get(picture.id) ?? undefined}
          nothing={worked.get(picture.id) === null}
        />
      ))}
    </section>
  );
}

/**
 * By picture: null where there is nothing to draw. What was worked for the job as it was stays until the new
 * is there.
 */
function useWorked(
  job: JobView,
  wanted: readonly PictureShown[],
  work: WorkDrawing | undefined,
): ReadonlyMap<string, Worked | null> {
  const [found, setFound] = useState<ReadonlyMap<string, Worked | null>>(new Map());
  useEffect(() => {
    let current = true;
    const clock = setTimeout(async () => {
      for (const picture of wanted) {
        const one = await work?.(picture);
        if (!current) return;
        setFound((before) => new Map(before).set(picture.id, one ?? null));
      }
    }, pause);
    return () => {
      current = false;
      clearTimeout(clock);
    };
  }, [job]);
  return found;
}

/** So long a job must have stood as it is before its maps are worked, in milliseconds. */
const pause = 200;
