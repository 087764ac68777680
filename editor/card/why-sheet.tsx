// The answer to "why?" laid over the job screen in three depths: one sentence, everything it rests on, what
// would change it. Closed by a press or the Escape key.
import { useEffect, useEffectEvent, useRef, useState } from "react";
import type { Answers, AskView, SensitivityView, TraceView, UnitSystem } from "../../core/view.ts";
import { PickOne } from "../ui/parts/pick-one.tsx";
import type { Option } from "../ui/parts/pick-one.tsx";
import { WhyPanel } from "../ui/parts/why-panel.tsx";
import type { Depth, WhyPanelProps } from "../ui/parts/why-panel.tsx";
import { useWords } from "../ui/words/words.ts";
import { useMeaning } from "./meanings.ts";
import { WhatChanges } from "./what-changes.tsx";

type Level = "short" | "full" | "change";
type Asked =
  | { readonly is: "asking" }
  | { readonly is: "none" }
  | { readonly is: "trace"; readonly trace: TraceView };

const levels: readonly Level[] = ["short", "full", "change"];

export interface WhySheetProps {
  readonly name: string;
  readonly onWhy: (name: string, depth: Depth) => Promise<TraceView | undefined>;
  /** The trace is asked for again when either changes. */
  readonly units: UnitSystem;
  readonly answers: Answers;
  readonly asks: readonly AskView[];
  readonly onCloseCalls?: () => Promise<readonly SensitivityView[] | undefined>;
  readonly onAsk?: (name: string) => void;
  readonly onClose: () => void;
}

export function WhySheet(props: WhySheetProps) {
  const { name } = props;
  const say = useWords();
  const dialog = useRef<HTMLDialogElement>(null);
  const [level, setLevel] = useState<Level>("short");
  const depth: Depth = level === "short" ? "deciding" : "full";
  const asked = useTrace(props, depth);
  useEffect(() => {
    const here = dialog.current;
    if (here && !here.open) here.showModal();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: a press beside it closes it, and so does Escape
    <dialog
      className="why-sheet"
      ref={dialog}
      onClose={props.onClose}
      aria-label={say("why.of", { name })}
      onClick={(event) => {
        if (event.target === dialog.current) dialog.current.close();
      }}
    >
      <div className="why-sheet-inside">
        {asked.is === "asking" && <p role="status">{say("why.looking")}</p>}
        {asked.is === "none" && <p>{say("why.nothing", { name })}</p>}
        {asked.is === "trace" && (
          <Reasons {...props} trace={asked.trace} depth={depth} level={level} onLevel={setLevel} />
        )}
        <button type="button" className="tap why-sheet-close" onClick={() => dialog.current?.close()}>
          {say("why.back")}
        </button>
      </div>
    </dialog>
  );
}

function useTrace({ name, onWhy, units, answers }: WhySheetProps, depth: Depth): Asked {
  const [asked, setAsked] = useState<Asked>({ is: "asking" });
  const ask = useEffectEvent(onWhy);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the trace follows the units and the answers
  useEffect(() => {
    // An answer that comes after another was asked for is dropped.
    let wanted = true;
    void ask(name, depth).then((trace) => {
      if (wanted) setAsked(trace === undefined ? { is: "none" } : { is: "trace", trace });
    });
    return () => {
      wanted = false;
    };
  }, [name, depth, units, answers]);
  return asked;
}

interface ReasonsProps extends WhySheetProps {
  readonly trace: TraceView;
  readonly depth: Depth;
  readonly level: Level;
  readonly onLevel: (level: Level) => void;
}

function Reasons(props: ReasonsProps) {
  const { trace, depth, level, onLevel } = props;
  const say = useWords();
  const meaning = useMeaning();
  const options = levels
    .filter((one) => one !== "change" || props.onCloseCalls !== undefined)
    .map((value): Option<Level> => ({ value, says: say(`why.${value}`) }));
  return (
    <WhyPanel
      trace={trace}
      depth={depth}
      onDepth={() => undefined}
      means={meaning(trace.of, trace.steps[0]?.value ?? "")}
      instead={insteadOfOutline(props)}
      picker={<PickOne legend={say("why.how-deep")} options={options} value={level} onPick={onLevel} />}
    />
  );
}

function insteadOfOutline({
  level,
  trace,
  asks,
  onCloseCalls,
  onAsk,
}: ReasonsProps): WhyPanelProps["instead"] {
  switch (level) {
    case "short":
      return "sentence";
    case "full":
      return undefined;
    case "change":
      return {
        drawn: onCloseCalls && (
          <WhatChanges trace={trace} asks={asks} onCloseCalls={onCloseCalls} onAsk={onAsk} />
        ),
      };
  }
}
