// All drawings of a job, as its card shows them: those whose numbers are released. Maps and charts cost many
// jobs: they are asked for when the card has settled, one after the other, and asked for anew when the job
// has changed.
import { useContext, useEffect, useEffectEvent, useState } from "react";
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
  const pictures = released(job).filter((one) => work !== undefined || !isAskedFor(one.shape));
  const worked = useWorked(job, work);
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

const released = (job: JobView): readonly PictureShown[] =>
  (job.pictures ?? []).filter((one) => isReleased(one.shape, job.state));

/** So long a job must have stayed as it is before its maps are worked, in milliseconds. */
const pause = 200;

/**
 * By picture: null where there is nothing to draw. What was worked for the job before stays until the new is
 * there.
 */
function useWorked(job: JobView, work: WorkDrawing | undefined): ReadonlyMap<string, Worked | null> {
  const [found, setFound] = useState<ReadonlyMap<string, Worked | null>>(new Map());
  const ask = useEffectEvent(async (picture: PictureShown) => work?.(picture));
  useEffect(() => {
    let current = true;
    const clock = setTimeout(async () => {
      for (const picture of released(job).filter((one) => isAskedFor(one.shape))) {
        const one = await ask(picture);
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
