// The cups of a mix one after the other: what goes into each, and from the moment that one is mixed the time
// by which it has to be used.
import { useState } from "react";
import type { TimerLine } from "../../../core/record.ts";
import { minutesWords } from "../../ui/parts/state-words.ts";
import { useWords } from "../../ui/words/words.ts";
import { prepareAlarm } from "../record/alarm.ts";
import { timeOfDay, useNow } from "../record/clock.ts";
import { writeAmount } from "./mix-amounts.ts";
import { batchesOf } from "./mix.ts";
import type { Mix } from "./mix.ts";

export interface BatchesProps {
  readonly mix: Mix;
  readonly baseName: string;
  readonly hardenerName: string;
  readonly timers: readonly TimerLine[];
  readonly onStart: (timer: string, says: string, ends: number) => void;
}

export function Batches({ mix, baseName, hardenerName, timers, onStart }: BatchesProps) {
  const say = useWords();
  const now = useNow(5000);
  const [wish, setWish] = useState<number>();
  const batches = batchesOf(mix, wish);
  const { count, fewest = 1 } = batches;
  const each =
    `${writeAmount(batches.base, mix.base.measure).join(" · ")} ${baseName} + ` +
    `${writeAmount(batches.hardener, mix.hardener.measure).join(" · ")} ` +
    hardenerName;
  const { working } = mix;
  const start = (cup: number, within: number): void => {
    prepareAlarm();
    onStart(
      timerOf(mix, cup),
      say("mix.timer", { name: mix.title || baseName, cup, count }),
      Date.now() + Math.round(within * 1000),
    );
  };
  return (
    <div className="batches">
      <h5>{say("mix.batches")}</h5>
      <div className="panel-row">
        <button
          type="button"
          className="button"
          disabled={count <= fewest}
          aria-label={say("mix.fewer")}
          onClick={() => setWish(count - 1)}
        >
          −
        </button>
        <p>
          <b>{count === 1 ? say("mix.one-cup") : say("mix.cups", { count })}</b> {each}
        </p>
        <button
          type="button"
          className="button"
          disabled={count >= 50}
          aria-label={say("mix.more")}
          onClick={() => setWish(count + 1)}
        >
          +
        </button>
      </div>
      {batches.fewest !== undefined && batches.fewest > 1 && (
        <p className="panel-hint">{say("mix.fewest", { count: batches.fewest })}</p>
      )}
      {working === undefined ? (
        <p className="panel-hint">{say("mix.no-working")}</p>
      ) : (
        <ol className="cups">
          {Array.from({ length: count }, (_, n) => n + 1).map((cup) => {
            const timer = timers.find((one) => one.timer === timerOf(mix, cup));
            const label = say("mix.cup", { cup, count });
            return (
              <li key={cup}>
                <span>{label}</span>
                {timer === undefined ? (
                  <button type="button" className="button" onClick={() => start(cup, working)}>
                    <span className="out-of-sight">{label}: </span>
                    {say("mix.start", { time: minutesWords(working / 60, say) })}
                  </button>
                ) : (
                  <b className={timer.ends <= now ? "is-over" : undefined}>
                    {timer.ends > now
                      ? say("mix.use-by", { time: timeOfDay(timer.ends, now) })
                      : say("mix.use-by-over", { time: timeOfDay(timer.ends, now) })}
                  </b>
                )}
              </li>
            );
          })}
        </ol>
      )}
    </div>
  );
}

const timerOf = (mix: Mix, cup: number): string => `${mix.id} cup ${cup}`;
