// One job laid alongside: its name, how it stands and why, and what can be done with it.
import { useState } from "react";
import type { JobView } from "../../../core/view.ts";
import { StateMark } from "../../ui/parts/state-mark.tsx";
import { stateMeans } from "../../ui/parts/state-words.ts";
import type { JobTag } from "../../client/storage/stored-work.ts";

export function JobPanel(props: {
  readonly job: JobTag;
  readonly view: JobView | undefined;
  readonly onRename: (name: string) => void;
  readonly onCard: () => void;
  readonly onCopy: () => void;
  readonly onLayIn: () => void;
  readonly onRemove: () => void;
  readonly onMove: (by: -1 | 1) => void;
  readonly onWhy: (id: string) => void;
}) {
  const { job, view } = props;
  const [name, setName] = useState(job.name);
  return (
    <div className="job-side">
      <label className="side-field">
        <span className="label">Name</span>
        <input
          className="field"
          value={name}
          onChange={(event) => setName(event.target.value)}
          onBlur={() => {
            if (name.trim() !== "" && name !== job.name) props.onRename(name.trim());
          }}
          onKeyDown={(event) => {
            if (event.key === "Enter") event.currentTarget.blur();
          }}
        />
      </label>
      {view && (
        <p>
          <StateMark state={view.state} />
        </p>
      )}
      {view && <p className="why-side-title">{stateMeans(view.state)}</p>}
      {view && view.findings.length > 0 && (
        <Lines
          heading="Answers that cannot be used"
          lines={view.findings.map((finding) => ({ id: `ask ${finding.ask}`, text: finding.says }))}
          onWhy={props.onWhy}
        />
      )}
      {view && view.stops.length > 0 && <Lines heading="Stops" lines={view.stops} onWhy={props.onWhy} />}
      {view && view.broken.length > 0 && (
        <Lines
          heading="Promises broken"
          lines={view.broken.map((line) => ({ id: line.id, text: line.says }))}
          onWhy={props.onWhy}
        />
      )}
      {view && view.waiting.length > 0 && (
        <Lines
          heading="Waits for"
          lines={view.waiting.map((ask) => ({ id: `ask ${ask}`, text: ask }))}
          onWhy={props.onWhy}
        />
      )}
      {job.from !== undefined && <p className="why-side-title">Copied from the worked example {job.from}.</p>}
      <div className="side-does">
        <button type="button" className="button" onClick={props.onCard}>
          Open its questions and card
        </button>
        <button type="button" className="button" onClick={props.onCopy}>
          Lay a copy alongside
        </button>
        <button type="button" className="button" onClick={props.onLayIn}>
          Write it into the book as a worked example
        </button>
        <button type="button" className="button" onClick={() => props.onMove(-1)}>
          Move left
        </button>
        <button type="button" className="button" onClick={() => props.onMove(1)}>
          Move right
        </button>
        <button type="button" className="button" onClick={props.onRemove}>
          Take it away
        </button>
      </div>
    </div>
  );
}

function Lines(props: {
  readonly heading: string;
  readonly lines: readonly { readonly id: string; readonly text: string }[];
  readonly onWhy: (id: string) => void;
}) {
  return (
    <section className="why-side-names">
      <h3 className="label">{props.heading}</h3>
      <ul>
        {props.lines.map((line) => (
          <li key={line.id}>
            <button type="button" className="name-chip" onClick={() => props.onWhy(line.id)}>
              {line.text}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
