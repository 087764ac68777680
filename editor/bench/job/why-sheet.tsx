// The answer to "why?" laid over the job screen, closed by a press or the Escape key.
import { useEffect, useRef, useState } from "react";
import type { Answers, TraceView, UnitSystem } from "../../../core/view.ts";
import { WhyPanel } from "../parts/why-panel.tsx";
import type { Depth } from "../parts/why-panel.tsx";

type Asked = { readonly is: "asking" } | { readonly is: "none" } | { readonly is: "trace"; readonly trace: TraceView };

export function WhySheet(props: {
  readonly name: string;
  readonly onWhy: (name: string, depth: Depth) => Promise<TraceView | undefined>;
  /** The trace is asked for again when either changes. */
  readonly units: UnitSystem;
  readonly answers: Answers;
  readonly onClose: () => void;
}) {
  const { name, onWhy, units, answers } = props;
  const dialog = useRef<HTMLDialogElement>(null);
  const [depth, setDepth] = useState<Depth>("deciding");
  const [asked, setAsked] = useState<Asked>({ is: "asking" });

  useEffect(() => {
    const here = dialog.current;
    if (here && !here.open) here.showModal();
  }, []);
  useEffect(() => {
    // An answer that comes after another was asked for is dropped.
    let wanted = true;
    void onWhy(name, depth).then((trace) => {
      if (wanted) setAsked(trace === undefined ? { is: "none" } : { is: "trace", trace });
    });
    return () => { wanted = false; };
  }, [name, depth, units, answers]);

  return (
    <dialog className="why-sheet" ref={dialog} onClose={props.onClose} aria-label={`Why ${name}`}
      onClick={(event) => { if (event.target === dialog.current) dialog.current.close(); }}>
      <div className="why-sheet-inside">
        <button type="button" className="tap why-sheet-close" onClick={() => dialog.current?.close()}>Back to the job</button>
        {asked.is === "asking" && <p role="status">Looking up why…</p>}
        {asked.is === "none" && <p>The book has nothing more to say about {name}.</p>}
        {asked.is === "trace" && <WhyPanel trace={asked.trace} depth={depth} onDepth={setDepth} />}
      </div>
    </dialog>
  );
}
