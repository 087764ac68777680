// Notes to a job, each a few words with its time; one can be changed or taken away until the job is signed.
import { useState } from "react";
import type { NoteLine } from "../../../core/record.ts";
import { newId } from "../../client/storage/hash-text.ts";
import { useWords } from "../../ui/words/words.ts";
import { timeOfDay } from "./clock.ts";

export interface NotesProps {
  readonly notes: readonly NoteLine[];
  /** `undefined` takes the note away. */
  readonly onNote: (line: string, text: string | undefined) => void;
}

export function Notes({ notes, onNote }: NotesProps) {
  const say = useWords();
  const [typed, setTyped] = useState("");
  return (
    <section className="panel-part no-print" aria-labelledby="notes-heading">
      <h3 id="notes-heading">{say("record.notes")}</h3>
      <ul className="used-rows">
        {notes.map((note) => (
          <li key={note.line} className="used-row">
            <p>
              {note.text} <small>{timeOfDay(note.at, Date.now())}</small>
            </p>
            <button type="button" className="button" onClick={() => onNote(note.line, undefined)}>
              {say("record.remove")}
              <span className="out-of-sight">: {note.text}</span>
            </button>
          </li>
        ))}
      </ul>
      <form
        className="note-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (typed.trim() !== "") {
            onNote(newId(), typed.trim());
            setTyped("");
          }
        }}
      >
        <label>
          <span className="label">{say("record.note-new")}</span>
          <textarea
            className="field"
            rows={2}
            maxLength={2000}
            value={typed}
            onChange={(event) => setTyped(event.currentTarget.value)}
          />
        </label>
        <button type="submit" className="button" disabled={typed.trim() === ""}>
          {say("record.save")}
        </button>
      </form>
    </section>
  );
}
