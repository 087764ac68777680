// What stands above a signed job: who signed it, and whether its card still comes out the same when it is
// worked again.
import { useEffect, useEffectEvent, useRef, useState } from "react";
import type { CardRecord, JobRecord } from "../../../core/record.ts";
import type { CardDifference } from "../../../core/compare-card.ts";
import { cardDifferences } from "../../../core/compare-card.ts";
import { useWords } from "../../ui/words/words.ts";
import type { Say } from "../../ui/words/words.ts";
import { dayAndTime } from "./clock.ts";

/** One job from beginning to end: another job is given another `key`. */
export function SignedHead({
  record,
  onWork,
}: {
  readonly record: JobRecord;
  readonly onWork: () => Promise<CardRecord | undefined>;
}) {
  const say = useWords();
  const [now, setNow] = useState<CardRecord>();
  const work = useEffectEvent(onWork);
  useEffect(() => {
    let gone = false;
    void work().then((card) => {
      if (!gone) setNow(card);
    });
    return () => {
      gone = true;
    };
  }, []);
  // Whoever signs stands at the end of a long page, which grows shorter: that it is signed shall be seen.
  const head = useRef<HTMLElement>(null);
  useEffect(() => {
    head.current?.scrollIntoView({ block: "nearest" });
  }, []);
  if (record.signed === undefined) return null;
  const { signed, after } = record;
  return (
    <section ref={head} className="signed-head no-print" aria-label={say("record.locked")}>
      <p>
        <b>{say("record.signed", { name: signed.name, time: dayAndTime(signed.at) })}.</b>{" "}
        {say("record.locked")}
      </p>
      {after.length > 0 && (
        <p>{after.length === 1 ? say("record.after-one") : say("record.after", { count: after.length })}</p>
      )}
      {now === undefined ? (
        <p role="status">{say("record.again-working")}</p>
      ) : (
        <WorkedAgain then={signed.card} now={now} />
      )}
    </section>
  );
}

function WorkedAgain({ then, now }: { readonly then: CardRecord; readonly now: CardRecord }) {
  const say = useWords();
  const found = cardDifferences(then, now);
  return (
    <div className={found.length === 0 ? "worked-again" : "worked-again is-other"} role="status">
      <p>
        <b>
          {found.length === 0
            ? say("record.again-same")
            : found.length === 1
              ? say("record.again-differs-one")
              : say("record.again-differs", { count: found.length })}
        </b>
      </p>
      {found.length > 0 && (
        <ul>
          {found.map((one) => (
            <li key={`${one.of} ${one.name} ${one.then ?? ""} ${one.now ?? ""}`}>
              <b>{ofWords(say, one)}</b>{" "}
              <span className="revised-old">
                {say("record.was", { text: one.then ?? say("record.absent") })}
              </span>{" "}
              <span className="revised-new">
                {say("record.is", { text: one.now ?? say("record.absent") })}
              </span>
            </li>
          ))}
        </ul>
      )}
      {then.engine !== now.engine && (
        <p>{say("record.again-engine", { then: then.engine, now: now.engine })}</p>
      )}
    </div>
  );
}

function ofWords(say: Say, { of, name }: CardDifference): string {
  switch (of) {
    case "state":
      return say("record.of-state");
    case "value":
      return name;
    case "stop":
      return say("record.of-stop");
    case "caution":
      return say("record.of-caution");
    case "step":
      return `${say("record.of-step")}${name === "" ? "" : ` ${name}`}`;
  }
}
