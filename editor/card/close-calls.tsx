// Close calls of a job: the nearest other answers at which a stop, a choice, a step or a caution turns. Asked
// for when it is unfolded, and again after a change while it stays so.
import { useEffect, useEffectEvent, useId, useState } from "react";
import type { Turn } from "../../core/reason.ts";
import type { SensitivityView } from "../../core/view.ts";
import { closeCallsInOrder } from "./close-calls-order.ts";
import { flipWords, turnWords } from "../ui/words/engine-words.ts";
import { useWords } from "../ui/words/words.ts";
import "./job-proofs.css";

/** A pause after the last change before it is asked for again, in milliseconds. */
const pause = 250;
/** The rest is shown when asked for. */
const page = 8;

export function CloseCalls(props: {
  /** The job as worked: another one after every change that the list may rest on. */
  readonly about: unknown;
  readonly onAsk: () => Promise<readonly SensitivityView[] | undefined>;
  /** A name whose turns are shown before all others; none on the card. */
  readonly first?: string;
}) {
  const { about, onAsk, first } = props;
  const [open, setOpen] = useState(false);
  const found = useFlips(about, onAsk, open);
  const [all, setAll] = useState(false);
  const id = useId();
  const say = useWords();
  const flips = inFront(found?.flips ?? [], first);
  const shown = all ? flips : flips.slice(0, page);
  return (
    <section className={`close-calls${found !== undefined && found.about !== about ? " is-old" : ""}`}>
      <h3>
        <button
          type="button"
          className="fold"
          aria-expanded={open}
          aria-controls={id}
          onClick={() => setOpen(!open)}
        >
          <span className="fold-mark" aria-hidden="true" />
          {say("flip.heading")}
        </button>
      </h3>
      {open && (
        <div id={id}>
          {found === undefined ? (
            <p role="status">{say("flip.looking")}</p>
          ) : flips.length === 0 ? (
            <p>{say("flip.none")}</p>
          ) : (
            <ul className="flips">
              {shown.map((flip) => (
                <li key={flip.says} className={isStop(flip) ? "flip is-stop" : "flip"}>
                  <FlipLine flip={flip} />
                </li>
              ))}
            </ul>
          )}
          {flips.length > shown.length && (
            <button type="button" className="button" onClick={() => setAll(true)}>
              {say("flip.more", { count: flips.length - shown.length })}
            </button>
          )}
        </div>
      )}
    </section>
  );
}

interface Found {
  /** The job that they were looked for. */
  readonly about: unknown;
  readonly flips: readonly SensitivityView[];
}

/** Asked for while the list is open, and again after a change; the old ones stay until the new are there. */
function useFlips(
  about: unknown,
  onAsk: () => Promise<readonly SensitivityView[] | undefined>,
  open: boolean,
): Found | undefined {
  const [found, setFound] = useState<Found>();
  const ask = useEffectEvent(onAsk);
  const pauseBefore = useEffectEvent(() => (found === undefined ? 0 : pause));
  useEffect(() => {
    if (!open) return undefined;
    let wanted = true;
    const clock = setTimeout(
      () =>
        void ask().then((flips) => {
          if (wanted && flips) setFound({ about, flips: closeCallsInOrder(flips) });
        }),
      pauseBefore(),
    );
    return () => {
      wanted = false;
      clearTimeout(clock);
    };
  }, [open, about]);
  return found;
}

/** Those at which `first` turns come before the others. */
const inFront = (flips: readonly SensitivityView[], first: string | undefined): readonly SensitivityView[] =>
  first === undefined
    ? flips
    : [...flips.filter((flip) => turnsOf(flip, first)), ...flips.filter((flip) => !turnsOf(flip, first))];

/** The sentence, and under a fold all that turns with it. */
function FlipLine({ flip }: { readonly flip: SensitivityView }) {
  const say = useWords();
  return (
    <>
      <p>{flipWords(flip, say)}</p>
      {flip.turned.length > 1 && (
        <details>
          <summary>{say("flip.all")}</summary>
          <ul>
            {flip.turned.map((turn, place) => (
              <li key={flip.turns[place]}>{turnWords(turn, say)}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
}

const isStop = (flip: SensitivityView): boolean =>
  flip.turned.some((turn) => turn.code === "holds" && turn.line.what === "stop");

/** Whether one of its turns is about this name or row: "method becomes fill", "step lay-up applies". */
export const turnsOf = (flip: SensitivityView, name: string): boolean =>
  flip.turned.some((turn) => isAbout(turn, name));

export function isAbout(turn: Turn, name: string): boolean {
  if (!("line" in turn)) return turn.name === name;
  const { line } = turn;
  return line.name === name || `${line.what} ${line.name}` === name;
}
