// One line of the record: its stamp, what is claimed in the book's own words, and for a broken one the job
// that breaks it.
import { answerInWords } from "../../../core/answer-words.ts";
import type { Answers, GoalView } from "../../../core/view.ts";
import { Stamp } from "./stamp.tsx";
import { settingsInWords, shareInWords, verdictWord } from "./standing-words.ts";

export interface GoalLineProps {
  readonly goal: GoalView;
  /** Name of the row that it stands in, to go there; absent for the book as a whole. */
  readonly place?: string;
  /** The book that it stands in, where several give rules. */
  readonly layer?: string;
  readonly reason?: string;
  readonly onGo: (id: string) => void;
  /** Lays the job alongside the rules and goes there. */
  readonly onLay: (goal: GoalView, job: Answers) => void;
}

export function GoalLine(props: GoalLineProps) {
  const { goal, place } = props;
  const { job } = goal;
  return (
    <li className={`goal is-${goal.verdict.replace(" ", "-")}`}>
      <span className="goal-verdict">
        <Stamp verdict={goal.verdict} />
        <span>{verdictWord(goal.verdict)}</span>
      </span>
      <div className="goal-says">
        <p className={goal.sort === "promise" ? "rule" : undefined}>{goal.says}</p>
        {props.layer !== undefined && <p className="goal-reason">In {props.layer}</p>}
        {props.reason && <p className="goal-reason">{props.reason}</p>}
        {goal.settings && <p className="goal-reason">{settingsInWords(goal.settings)}</p>}
        {goal.verdict === "broken" && job && (
          <div className="goal-job">
            <p className="goal-job-head">
              {Object.keys(job).length === 0 ? "Any job breaks it." : "A job that breaks it"}
            </p>
            <Answered answers={job} />
            {goal.gives && (
              <p>
                There <b>{goal.gives}</b>.
              </p>
            )}
            <button type="button" className="button main" onClick={() => props.onLay(goal, job)}>
              Lay it alongside
            </button>
          </div>
        )}
        {goal.verdict === "not settled" && (
          <div className="goal-job">
            <p>
              {goal.share === undefined
                ? "It is open for a part of all jobs."
                : `It is open for ${shareInWords(goal.share)}; for the rest it is proved.`}
              {goal.bound === "digits" && " What is left is smaller than any answer."}
              {goal.bound === "boxes" && " As much was looked at as one promise may cost."}
            </p>
            {goal.rest && Object.keys(goal.rest).length > 0 && (
              <>
                <p className="goal-job-head">The largest part that is open</p>
                <Answered answers={goal.rest} />
              </>
            )}
          </div>
        )}
      </div>
      {place !== undefined && (
        <button type="button" className="button bare goal-go" onClick={() => props.onGo(goal.id)}>
          Go there<span className="out-of-sight">: {place}</span>
        </button>
      )}
    </li>
  );
}

/** Answers as on a tag: the ask, and what was answered. */
export function Answered({ answers }: { readonly answers: Answers }) {
  return (
    <dl className="answered">
      {Object.entries(answers).map(([ask, answer]) => (
        <div key={ask}>
          <dt>{ask}</dt>
          <dd>{answerInWords(answer)}</dd>
        </div>
      ))}
    </dl>
  );
}
