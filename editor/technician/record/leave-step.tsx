// A step that is not done: skipped, or not applicable to this part, with the reason. It is left out for the
// words that it has; a step that changes has to be looked at again.
import { useState } from "react";
import type { LeftHow, LeftStep } from "../../../core/record.ts";
import type { CardLine } from "../../../core/view.ts";
import { PickOne } from "../../ui/parts/pick-one.tsx";
import { useWords } from "../../ui/words/words.ts";

export interface LeaveStepProps {
  readonly step: CardLine;
  readonly place: number;
  readonly left: LeftStep | undefined;
  /** An empty object takes it back. */
  readonly onLeave: (left: LeftStep | Record<string, never>) => void;
}

export function LeaveStep({ step, place, left, onLeave }: LeaveStepProps) {
  const say = useWords();
  const [open, setOpen] = useState(false);
  if (left !== undefined && left.text === step.text)
    return (
      <p className="step-left">
        <b>{say(howKey(left.how))}</b> {left.reason}{" "}
        <button type="button" className="button no-print" onClick={() => onLeave({})}>
          {say("record.leave-back")}
          <span className="out-of-sight">: {say("record.leave-step", { step: place })}</span>
        </button>
      </p>
    );
  if (open)
    return (
      <LeaveForm
        place={place}
        onLeave={(how, reason) => {
          setOpen(false);
          onLeave({ text: step.text, how, reason });
        }}
        onClose={() => setOpen(false)}
      />
    );
  return (
    <p className="step-left no-print">
      <button type="button" className="step-leave-open" onClick={() => setOpen(true)}>
        {say("record.leave")}
        <span className="out-of-sight">: {say("record.leave-step", { step: place })}</span>
      </button>
    </p>
  );
}

export const howKey = (how: LeftHow): "record.skipped" | "record.not-needed" => `record.${how}`;

interface LeaveFormProps {
  readonly place: number;
  readonly onLeave: (how: LeftHow, reason: string) => void;
  readonly onClose: () => void;
}

function LeaveForm({ place, onLeave, onClose }: LeaveFormProps) {
  const say = useWords();
  const [how, setHow] = useState<LeftHow>("skipped");
  const [reason, setReason] = useState("");
  const [wrong, setWrong] = useState(false);
  return (
    <form
      className="step-leave no-print"
      aria-label={say("record.leave-step", { step: place })}
      onSubmit={(event) => {
        event.preventDefault();
        if (reason.trim() === "") setWrong(true);
        else onLeave(how, reason.trim());
      }}
    >
      <PickOne
        legend={say("record.leave-how")}
        value={how}
        onPick={setHow}
        options={(["skipped", "not-needed"] as const).map((value) => ({ value, says: say(howKey(value)) }))}
      />
      <label>
        <span className="label">{say("record.leave-reason")}</span>
        <input
          className="field"
          value={reason}
          maxLength={500}
          onChange={(event) => setReason(event.currentTarget.value)}
        />
      </label>
      {wrong && (
        <p className="panel-wrong" role="alert">
          {say("record.leave-needs-reason")}
        </p>
      )}
      <p className="step-leave-ends">
        <button type="submit" className="button main">
          {say("record.save")}
        </button>
        <button type="button" className="button" onClick={onClose}>
          {say("record.cancel")}
        </button>
      </p>
    </form>
  );
}
