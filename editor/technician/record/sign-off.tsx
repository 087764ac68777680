// The sign-off: every step done or left out and no timer running; then a name, a note where a promise is
// broken, and two presses. After it the job is locked.
import { isRefused } from "../../../core/job-state.ts";
import { useEffect, useEffectEvent, useState } from "react";
import type { CardRecord, JobRecord } from "../../../core/record.ts";
import type { JobView } from "../../../core/view.ts";
import type { WordKey } from "../../ui/words/en.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { timeOfDay, useNow } from "./clock.ts";
import { canSign, isInTheWay, openPoints } from "./open-points.ts";
import type { OpenPoint } from "./open-points.ts";

export interface SignOffProps {
  readonly record: JobRecord;
  readonly job: JobView;
  /** The name that was signed with last on this device. */
  readonly lastName: () => Promise<string>;
  /** Who is signed in at the shop's host, and so who signs. */
  readonly person?: string | undefined;
  /** The card as it stands; undefined when it could not be worked. */
  readonly onCard: () => Promise<CardRecord | undefined>;
  readonly onSign: (name: string, card: CardRecord, note: string | undefined) => void;
}

export function SignOff(props: SignOffProps) {
  const { record, job } = props;
  const say = useWords();
  const now = useNow(5000);
  const left = openPoints(record, job, now);
  const first = left.filter(isInTheWay);
  const toTell = left.filter((point) => !isInTheWay(point));
  const form = useSignOff(props, toTell.length > 0);
  return (
    <section className="panel-part sign-off no-print" aria-labelledby="sign-heading">
      <h3 id="sign-heading">{say("record.sign")}</h3>
      {!canSign(job) ? (
        <p className="panel-hint">{say("record.sign-waits")}</p>
      ) : (
        <>
          {isRefused(job.state) && <p>{say("record.sign-stopped")}</p>}
          {first.length > 0 ? (
            <StillOpen heading={say("record.sign-first")} left={first} now={now} />
          ) : (
            <>
              {toTell.length > 0 && <StillOpen heading={say("record.sign-left")} left={toTell} now={now} />}
              <SignForm form={form} />
            </>
          )}
        </>
      )}
    </section>
  );
}

interface SignOffForm {
  readonly name: string;
  readonly setName: (name: string) => void;
  readonly person: string | undefined;
  readonly note: string;
  readonly setNote: (note: string) => void;
  /** Why it could not be signed. */
  readonly wrong: WordKey | undefined;
  /** Pressed once: the next press signs. */
  readonly sure: boolean;
  /** The card is being worked. */
  readonly busy: boolean;
  readonly press: () => Promise<void>;
  readonly leave: () => void;
}

function useSignOff(props: SignOffProps, needsNote: boolean): SignOffForm {
  const { job, lastName, person, onCard, onSign } = props;
  const [typed, setName] = useState("");
  const name = person ?? typed;
  const [note, setNote] = useState("");
  const [wrong, setWrong] = useState<WordKey>();
  const [sure, setSure] = useState(false);
  const [busy, setBusy] = useState(false);
  const last = useEffectEvent(lastName);
  useEffect(() => {
    void last().then((found) => setName((now) => now || found));
  }, []);
  const press = async (): Promise<void> => {
    const missing = missingIn(name, note, needsNote);
    setWrong(missing);
    if (missing !== undefined) return;
    setSure(!sure);
    if (!sure) return;
    setBusy(true);
    const card = await onCard();
    setBusy(false);
    if (card === undefined || card.state !== job.state) setWrong("record.sign-failed");
    else onSign(name.trim(), card, note.trim() === "" ? undefined : note.trim());
  };
  return { name, setName, person, note, setNote, wrong, sure, busy, press, leave: () => setSure(false) };
}

/** What has to be written before it can be signed. */
export function missingIn(name: string, note: string, needsNote: boolean): WordKey | undefined {
  if (name.trim() === "") return "record.sign-needs-name";
  return needsNote && note.trim() === "" ? "record.sign-needs-note" : undefined;
}

interface StillOpenProps {
  readonly heading: string;
  readonly left: readonly OpenPoint[];
  readonly now: number;
}

function StillOpen({ heading, left, now }: StillOpenProps) {
  const say = useWords();
  return (
    <div className="sign-left">
      <p id="sign-left">
        <b>{heading}</b>
      </p>
      <ul tabIndex={0} aria-labelledby="sign-left">
        {left.map((point) => (
          <li key={`${point.is} ${point.id}`}>{pointWords(say, point, now)}</li>
        ))}
      </ul>
    </div>
  );
}

function SignForm({ form }: { readonly form: SignOffForm }) {
  const say = useWords();
  return (
    <>
      <label className="sign-name">
        <span className="label">{say("record.sign-name")}</span>
        <input
          className="field"
          autoComplete="name"
          maxLength={200}
          value={form.name}
          readOnly={form.person !== undefined}
          onChange={(event) => form.setName(event.currentTarget.value)}
        />
      </label>
      {form.person !== undefined && (
        <p>
          <a href={`/sign-in.html?back=${encodeURIComponent(location.pathname + location.search)}`}>
            {say("record.sign-other")}
          </a>
        </p>
      )}
      <label className="sign-note">
        <span className="label">{say("record.sign-note")}</span>
        <textarea
          className="field"
          rows={2}
          maxLength={2000}
          value={form.note}
          onChange={(event) => form.setNote(event.currentTarget.value)}
        />
      </label>
      {form.wrong && (
        <p className="panel-wrong" role="alert">
          {say(form.wrong)}
        </p>
      )}
      <button
        type="button"
        className="button main sign-press"
        disabled={form.busy}
        onBlur={form.leave}
        onClick={() => void form.press()}
      >
        {say(form.busy ? "record.sign-working" : form.sure ? "record.sign-sure" : "record.sign-press")}
      </button>
    </>
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
