// The strip at the foot of the page: every timer that runs or is over, in large digits; it sounds when one
// comes to its end.
import { useEffect, useEffectEvent, useRef } from "react";
import type { RefObject } from "react";
import type { JobRecord } from "../../../core/record.ts";
import { useWords } from "../../ui/words/words.ts";
import { soundAlarm } from "./alarm.ts";
import { countdown, timeOfDay, useNow } from "./clock.ts";
import { justOver, shownTimers } from "./running-timers.ts";
import type { ShownTimer } from "./running-timers.ts";

export interface TimerStripProps {
  readonly jobs: readonly JobRecord[];
  /** The job on the screen: timers of others say whose they are. */
  readonly open: string;
  readonly onPutAway: (timer: ShownTimer) => void;
}

export function TimerStrip({ jobs, open, onPutAway }: TimerStripProps) {
  const say = useWords();
  const now = useNow(500);
  const before = useRef(now);
  const timers = shownTimers(jobs, now);
  const soundUntil = useEffectEvent((time: number) => {
    if (justOver(timers, before.current, time).length > 0) soundAlarm();
    before.current = time;
  });
  useEffect(() => soundUntil(now), [now]);
  const strip = useRef<HTMLElement>(null);
  useRoomFor(strip, timers.length > 0);
  if (timers.length === 0) return null;
  return (
    <aside ref={strip} className="timer-strip no-print" aria-label={say("timer.strip")}>
      {timers.map((timer) => (
        <div
          key={`${timer.job} ${timer.timer}`}
          className={timer.over ? "timer is-over" : "timer"}
          role={timer.over ? "alert" : "timer"}
        >
          <span className="timer-digits">{timer.over ? "0:00" : countdown(timer.ends - now)}</span>
          <span className="timer-says">
            <b>{timer.says}</b>
            <small>
              {timer.over
                ? say("timer.over-since", { time: timeOfDay(timer.ends, now) })
                : say("timer.until", { time: timeOfDay(timer.ends, now) })}
              {timer.job !== open && timer.title !== "" && ` · ${timer.title}`}
            </small>
          </span>
          {!timer.signed && (
            <button
              type="button"
              className="button"
              onClick={() => onPutAway(timer)}
              aria-label={`${timer.over ? say("timer.seen") : say("timer.stop")}: ${timer.says}`}
            >
              {timer.over ? say("timer.seen") : say("timer.stop")}
            </button>
          )}
        </div>
      ))}
    </aside>
  );
}

/** What else lies at the foot of the page keeps clear of the strip: `--timers` is its height. */
function useRoomFor(strip: RefObject<HTMLElement | null>, shown: boolean): void {
  useEffect(() => {
    const root = document.documentElement.style;
    if (!shown || strip.current === null) {
      root.removeProperty("--timers");
      return undefined;
    }
    const sized = new ResizeObserver(([one]) =>
      root.setProperty("--timers", `${Math.ceil(one?.borderBoxSize[0]?.blockSize ?? 0)}px`),
    );
    sized.observe(strip.current);
    return () => {
      sized.disconnect();
      root.removeProperty("--timers");
    };
  }, [strip, shown]);
}
