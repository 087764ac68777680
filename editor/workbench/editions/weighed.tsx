// A weighing as it is read: on the left what is written otherwise and how many jobs each change moves, on the
// right the jobs that come out otherwise, each output with both values and the change that has it.
import { useMemo, useState } from "react";
import type { Answers, RuleChangeView, ComparisonView, ComparedJob } from "../../../core/view.ts";
import { groupOf } from "../sheet/layer-impact.ts";
import { Answered } from "../standing/goal-line.tsx";
import { countsWords, fromWords, jobsWords, movesWords, outputOrder, readingOrder } from "./weighed-words.ts";

export interface WeighedProps {
  readonly rules: readonly RuleChangeView[];
  readonly view: ComparisonView | undefined;
  /** A row whose change alone is read at first. */
  readonly only?: string;
  /** Names of the jobs laid alongside. */
  readonly laid?: ReadonlySet<string>;
  readonly onGo: (id: string) => void;
  readonly onLay: (answers: Answers, name: string) => void;
}

const atFirst = 12;

export function Weighed(props: WeighedProps) {
  const { rules, view } = props;
  const [picked, setGroup] = useState<number | "first" | undefined>("first");
  const [shown, setShown] = useState(atFirst);
  const groups = view?.groups ?? [{ changes: rules, jobs: 0 }];
  const group =
    picked === "first" ? (props.only === undefined ? undefined : groupOf(view, props.only)) : picked;
  const chosen = group !== undefined && group < groups.length ? group : undefined;
  // Ten thousand jobs are put in order once for each word of the weighing, not at each look.
  const jobs = useMemo(() => (view === undefined ? [] : readingOrder(view, chosen)), [view, chosen]);
  if (rules.length === 0) return <p className="record-note">No rule is written otherwise.</p>;
  return (
    <div className="weighed">
      <section aria-labelledby="weighed-rules">
        <h4 id="weighed-rules" className="label">
          Written otherwise
        </h4>
        <ol className="weighed-rules">
          {groups.map(({ changes, jobs: moved }, g) => (
            <li key={changes[0]!.id} className={g === chosen ? "is-chosen" : undefined}>
              <span className="weighed-number" aria-hidden="true">
                {g + 1}
              </span>
              <div>
                {changes.map((change) => (
                  <Change key={change.id} change={change} onGo={props.onGo} />
                ))}
                {view &&
                  (moved > 0 ? (
                    <button
                      type="button"
                      className="button bare"
                      aria-pressed={g === chosen}
                      onClick={() => {
                        setGroup(g === chosen ? undefined : g);
                        setShown(atFirst);
                      }}
                    >
                      {movesWords(moved, false, view.done)}{" "}
                      {g === chosen ? "Show all jobs again" : "Show only these"}
                    </button>
                  ) : (
                    <p className="record-note">
                      {movesWords(
                        0,
                        changes.every((one) => one.wordsOnly),
                        view.done,
                      )}
                    </p>
                  ))}
              </div>
            </li>
          ))}
        </ol>
      </section>
      <section aria-labelledby="weighed-jobs">
        <h4 id="weighed-jobs" className="label">
          What it does{chosen === undefined ? "" : `: change ${chosen + 1} alone`}
        </h4>
        {view === undefined ? (
          <p className="record-note">Making up jobs that reach every row…</p>
        ) : (
          <>
            <p className="weighed-counts">
              {countsWords(view, props.laid)}{" "}
              {view.toReach > 0 &&
                `Together they reach ${view.reached} of the ${view.toReach} rows, alternatives ` +
                  "and lines that can be reached."}
            </p>
            <ul className="weighed-jobs">
              {jobs.slice(0, shown).map((job) => (
                <Job
                  laid={props.laid}
                  key={`${job.from} ${job.name} ${JSON.stringify(job.answers)}`}
                  job={job}
                  group={chosen}
                  onLay={props.onLay}
                />
              ))}
            </ul>
            {jobs.length > shown && (
              <button type="button" className="button" onClick={() => setShown(shown + 40)}>
                {jobsWords(jobs.length - shown)} more
              </button>
            )}
          </>
        )}
      </section>
    </div>
  );
}

function Change(props: { readonly change: RuleChangeView; readonly onGo: (id: string) => void }) {
  const { change } = props;
  return (
    <div className="weighed-change">
      <p>
        <span className={`weighed-does is-${change.does}`}>{doesWord(change)}</span>{" "}
        {change.does === "dropped" ? (
          <b>{change.id}</b>
        ) : (
          <button type="button" className="link" onClick={() => props.onGo(change.id)}>
            {change.id}
          </button>
        )}
      </p>
      <ul className="rule">
        {change.details.map((detail) => (
          <li key={detail}>{detail}</li>
        ))}
      </ul>
    </div>
  );
}

function doesWord(change: RuleChangeView): string {
  switch (change.does) {
    case "added":
      return "new";
    case "dropped":
      return "dropped";
    case "moved":
      return "moved";
    case "changed":
      return change.wordsOnly ? "reworded" : "changed";
  }
}

function Job(props: {
  readonly laid: ReadonlySet<string> | undefined;
  readonly job: ComparedJob;
  readonly group: number | undefined;
  readonly onLay: (answers: Answers, name: string) => void;
}) {
  const { job } = props;
  const [all, setAll] = useState(false);
  const outputs = outputOrder(job.outputs).filter(
    (output) => props.group === undefined || output.by.includes(props.group),
  );
  const seen = all ? outputs : outputs.slice(0, 8);
  return (
    <li className="weighed-job">
      <p className="weighed-job-head">
        <b>{job.name}</b> <span className="weighed-from">{fromWords(job, props.laid)}</span>
        <span className="weighed-state">
          {job.stateBefore === job.stateAfter ? (
            job.stateAfter
          ) : (
            <>
              <s>{job.stateBefore}</s> {job.stateAfter}
            </>
          )}
        </span>
      </p>
      {job.from !== "worked" && <Answered answers={job.answers} />}
      {seen.length > 0 && (
        <table className="weighed-outputs">
          <thead className="out-of-sight">
            <tr>
              <th scope="col">What</th>
              <th scope="col">Before</th>
              <th scope="col">After</th>
              <th scope="col">By change</th>
            </tr>
          </thead>
          <tbody>
            {seen.map((output) => (
              <tr key={output.name}>
                <th scope="row">{output.name}</th>
                <td>
                  <s>{output.before}</s>
                </td>
                <td>
                  <b>{output.after}</b>
                </td>
                <td>
                  {output.by.map((g) => (
                    <span key={g} className="weighed-number" title={`by change ${g + 1}`}>
                      {g + 1}
                    </span>
                  ))}
                  {output.together === true && <small> together</small>}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="weighed-job-does">
        {outputs.length > seen.length && (
          <button type="button" className="button bare" onClick={() => setAll(true)}>
            {outputs.length - seen.length} more differ
          </button>
        )}
        <button type="button" className="button" onClick={() => props.onLay(job.answers, job.name)}>
          Lay it alongside<span className="out-of-sight">: {job.name}</span>
        </button>
      </p>
    </li>
  );
}
