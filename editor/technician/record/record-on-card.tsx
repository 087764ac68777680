// The record as the card shows it, on paper always and on screen once it is signed: what was really used with
// its lots, what was not done, notes, how many photographs are kept, and who signed.
import type { JobRecord } from "../../../core/record.ts";
import { useWords } from "../../ui/words/words.ts";
import { dayAndTime } from "./clock.ts";
import { howKey } from "./leave-step.tsx";

export function RecordOnCard({ record }: { readonly record: JobRecord }) {
  const say = useWords();
  const { used, notes, photos, signed, title } = record;
  const leftOut = Object.entries(record.left);
  const listed = used.length + notes.length + photos.length + leftOut.length;
  if (listed === 0 && signed === undefined && title === "") return null;
  return (
    <section className={signed === undefined ? "card-record is-paper-only" : "card-record"}>
      {title !== "" && (
        <p className="card-record-title">
          <b>{title}</b>
        </p>
      )}
      {used.length > 0 && (
        <>
          <h3>{say("record.used")}</h3>
          <table>
            <thead>
              <tr>
                <th scope="col">{say("record.what")}</th>
                <th scope="col">{say("record.amount")}</th>
                <th scope="col">{say("record.lot")}</th>
                <th scope="col">{say("record.note")}</th>
              </tr>
            </thead>
            <tbody>
              {used.map((line) => (
                <tr key={line.line}>
                  <td>{line.what}</td>
                  <td>{line.amount}</td>
                  <td>{line.lot}</td>
                  <td>{line.note}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
      {leftOut.length > 0 && (
        <>
          <h3>{say("record.left-out")}</h3>
          <ul>
            {leftOut.map(([step, one]) => (
              <li key={step}>
                <b>{say(howKey(one.how))}</b> {one.text} <i>{one.reason}</i>
              </li>
            ))}
          </ul>
        </>
      )}
      {notes.length > 0 && (
        <>
          <h3>{say("record.notes")}</h3>
          <ul>
            {notes.map((note) => (
              <li key={note.line}>
                {note.text} <small>{dayAndTime(note.at)}</small>
              </li>
            ))}
          </ul>
        </>
      )}
      {photos.length > 0 && (
        <p>
          {photos.length === 1
            ? say("record.photo-count-one")
            : say("record.photo-count", { count: photos.length })}
        </p>
      )}
      {signed && (
        <p className="card-record-signed">
          <b>{say("record.signed", { name: signed.name, time: dayAndTime(signed.at) })}</b>
          {signed.note !== undefined && (
            <>
              <br />
              {signed.note}
            </>
          )}
        </p>
      )}
    </section>
  );
}
