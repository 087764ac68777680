// A job whose book is not on this device: its record is shown as it was kept, and nothing is worked.
import type { JobRecord } from "../../../core/record.ts";
import type { RecordStorage } from "../store/record-storage.ts";
import { withKeys } from "../../ui/parts/text-keys.ts";
import { useWords } from "../../ui/words/words.ts";
import { dayAndTime } from "./clock.ts";
import { Photos } from "./photos.tsx";
import { RecordOnCard } from "./record-on-card.tsx";

export function WithoutBook({
  record,
  shelf: storage,
}: {
  readonly record: JobRecord;
  readonly shelf: RecordStorage | undefined;
}) {
  const say = useWords();
  const { signed } = record;
  return (
    <div className="without-book">
      <p className="job-page-trouble" role="alert">
        {say(signed === undefined ? "record.no-book" : "record.again-no-book")}
      </p>
      {signed && (
        <section className="card">
          <h2>{say("record.kept-card")}</h2>
          <p>{say("record.signed", { name: signed.name, time: dayAndTime(signed.at) })}</p>
          {(
            [
              ["record.stops", signed.card.stops],
              ["record.cautions", signed.card.cautions],
              ["record.may-apply", signed.card.mayApply ?? []],
              ["record.steps", signed.card.steps],
            ] as const
          ).map(
            ([heading, lines]) =>
              lines.length > 0 && (
                <section key={heading}>
                  <h3>{say(heading)}</h3>
                  <ol>
                    {withKeys(lines).map(([key, line]) => (
                      <li key={key}>{line}</li>
                    ))}
                  </ol>
                </section>
              ),
          )}
        </section>
      )}
      <RecordOnCard record={record} />
      <Photos
        photos={record.photos}
        shelf={storage}
        locked
        onAdd={() => Promise.resolve()}
        onEnter={() => undefined}
      />
    </div>
  );
}

/**
 * The job goes on by the book that it was begun by; the changed one can be taken for a new job with the same
 * answers.
 */
export function OtherBook({ onAnew }: { readonly onAnew: () => void }) {
  const say = useWords();
  return (
    <section className="other-book no-print">
      <p>{say("record.other-book")}</p>
      <button type="button" className="button" onClick={onAnew}>
        {say("record.other-book-new")}
      </button>
    </section>
  );
}
