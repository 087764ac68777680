// The wait of one step as a timer: started by a press, and then the time at which it is over.
import type { TimerLine } from "../../../core/record.ts";
import type { CardLine } from "../../../core/view.ts";
import { useWords } from "../../ui/words/words.ts";
import { prepareAlarm } from "./alarm.ts";
import { timeOfDay, useNow } from "./clock.ts";

export interface StepWaitProps {
  readonly step: CardLine;
  readonly place: number;
  readonly timers: readonly TimerLine[];
  /** `ends` in milliseconds since 1970. */
  readonly onStart: (timer: string, says: string, ends: number) => void;
}

export function StepWait({ step, place, timers, onStart }: StepWaitProps) {
  const say = useWords();
  const now = useNow(15_000);
  const wait = step.minutes?.waits ?? 0;
  if (!(wait > 0)) return null;
  const running = timers.find((timer) => timer.timer === step.id);
  if (running !== undefined)
    return (
      <p className="step-wait is-running">
        {running.ends > now
          ? say("timer.until", { time: timeOfDay(running.ends, now) })
          : say("timer.over-since", { time: timeOfDay(running.ends, now) })}
      </p>
    );
  const start = (): void => {
    prepareAlarm();
    onStart(
      step.id,
      say("timer.step", { step: place, name: step.name ?? "" }),
      Date.now() + Math.round(wait * 60_000),
    );
  };
  return (
    <p className="step-wait no-print">
      <button
        type="button"
        className="button"
        onClick={start}
        aria-label={say("timer.start-step", { step: place, wait: step.waits ?? "" })}
      >
        {say("timer.start", { wait: step.waits ?? "" })}
      </button>
    </p>
  );
}
