// The sign-off: a name, a note where something is still open, and two presses; after it the job is locked.
import { useEffect, useEffectEvent, useState } from "react";
import type { CardRecord, JobRecord } from "../../../core/record.ts";
import type { JobView } from "../../../core/view.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { timeOfDay, useNow } from "./clock.ts";
import { canSign, openPoints } from "./open-points.ts";
import type { OpenPoint } from "./open-points.ts";

export interface SignOffProps {
  readonly record: JobRecord;
  readonly job: JobView;
  /** The name that was signed with last on this device. */
  readonly lastName: () => Promise<string>;
  /** The card as it stands; undefined when it could not be worked. */
  readonly onCard: () => Promise<CardRecord | undefined>;
  readonly onSign: (name: string, card: CardRecord, note: string | undefined) => void;
}

export function SignOff({ record, job, lastName, onCard, onSign }: SignOffProps) {
  const say = useWords();
  const now = useNow(5000);
  const [name, setName] = useState("");
  const [note, setNote] = useState("");
  const [wrong, setWrong] = useState<string>();
  const [sure, setSure] = useState(false);
  const [busy, setBusy] = useState(false);
  const last = useEffectEvent(lastName);
  useEffect(() => {
    void last().then((name) => setName((typed) => typed || name));
  }, []);
  const left = openPoints(record, job, now);
  const press = async (): Promise<void> => {
    if (name.trim() === "") {
      setWrong(say("record.sign-needs-name"));
      return;
    }
    if (left.length > 0 && note.trim() === "") {
      setWrong(say("record.sign-needs-note"));
      return;
    }
    setWrong(undefined);
    if (!sure) {
      setSure(true);
      return;
    }
    setSure(false);
    setBusy(true);
    const card = await onCard();
    setBusy(false);
    if (card === undefined || card.state !== job.state) {
      setWrong(say("record.sign-failed"));
      return;
    }
    onSign(name.trim(), card, note.trim() === "" ? undefined : note.trim());
  };
  return (
    <section className="panel-part sign-off no-print" aria-labelledby="sign-heading">
      <h3 id="sign-heading">{say("record.sign")}</h3>
      {!canSign(job) ? (
        <p className="panel-hint">{say("record.sign-waits")}</p>
      ) : (
        <>
          {job.state === "stopped" && <p>{say("record.sign-stopped")}</p>}
          {left.length > 0 && (
            <div className="sign-left">
              <p id="sign-left">
                <b>{say("record.sign-left")}</b>
              </p>
              <ul tabIndex={0} aria-labelledby="sign-left">
                {left.map((point) => (
                  <li key={`${point.is} ${point.id}`}>{pointWords(say, point, now)}</li>
                ))}
              </ul>
            </div>
          )}
          <label className="sign-name">
            <span className="label">{say("record.sign-name")}</span>
            <input
              className="field"
              autoComplete="name"
              maxLength={200}
              value={name}
              onChange={(event) => setName(event.currentTarget.value)}
            />
          </label>
          <label className="sign-note">
            <span className="label">{say("record.sign-note")}</span>
            <textarea
              className="field"
              rows={2}
              maxLength={2000}
              value={note}
              onChange={(event) => setNote(event.currentTarget.value)}
            />
          </label>
          {wrong && (
            <p className="panel-wrong" role="alert">
              {wrong}
            </p>
          )}
          <button
            type="button"
            className="button main sign-press"
            disabled={busy}
            onBlur={() => setSure(false)}
            onClick={() => void press()}
          >
            {say(busy ? "record.sign-working" : sure ? "record.sign-sure" : "record.sign-press")}
          </button>
        </>
      )}
    </section>
  );
}

function pointWords(say: Say, point: OpenPoint, now: number): string {
  switch (point.is) {
    case "unticked":
      return say("record.sign-unticked", { step: point.place, text: point.text });
    case "timer":
      return say("record.sign-timer", { says: point.says, time: timeOfDay(point.ends, now) });
    case "broken":
      return say("record.sign-broken", { says: point.says });
  }
}
