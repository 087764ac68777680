// What every book owes without being asked, sort by sort: one line where all of a sort is proved, its lines
// where not.
import type { GoalView } from "../../../core/view.ts";
import { GoalLine } from "./goal-line.tsx";
import type { GoalLineProps } from "./goal-line.tsx";
import { Stamp } from "./stamp.tsx";
import { count, followWords, owedHeading, owedProved, owedSorts } from "./standing-words.ts";
import type { Owed as Sort, Verdict } from "./standing-words.ts";

interface OwedProps extends Pick<GoalLineProps, "onGo" | "onLay"> {
  readonly goals: readonly GoalView[];
  /** Those that come right with a chart that they use, by the chart's row. */
  readonly followers: ReadonlyMap<GoalView, string>;
  readonly placeOf: (id: string) => string | undefined;
  readonly layerOf: (id: string) => string | undefined;
}

export function Owed(props: OwedProps) {
  const { followers } = props;
  const roots = props.goals.filter((goal) => !followers.has(goal));
  return (
    <ul className="goals">
      {owedSorts.map((sort) => {
        const goals = roots.filter((goal) => goal.sort === sort);
        return goals.length === 0 ? null : <OneSort key={sort} sort={sort} {...props} goals={goals} />;
      })}
      {followers.size > 0 && <Followers {...props} />}
    </ul>
  );
}

/** The lines that only follow from a chart's hole or overlap, behind one line that says so. */
function Followers(props: OwedProps) {
  const charts = [...new Set(props.followers.values())];
  return (
    <li className="owed">
      <div className="goal is-broken">
        <span className="goal-verdict">
          <Stamp verdict="broken" />
        </span>
        <div className="goal-says">
          <p>{followWords(charts.length, props.followers.size)}</p>
          {charts.map((id) => (
            <button key={id} type="button" className="link" onClick={() => props.onGo(id)}>
              {props.placeOf(id) ?? id}
            </button>
          ))}
        </div>
      </div>
      <details className="owed-all">
        <summary>Show the lines</summary>
        <Lines {...props} goals={[...props.followers.keys()]} />
      </details>
    </li>
  );
}

const Lines = (props: Omit<OwedProps, "followers">) => (
  <ul className="goals is-inner">
    {props.goals.map((goal) => (
      <GoalLine
        key={`${goal.id} ${goal.sort}`}
        goal={goal}
        place={props.placeOf(goal.id)}
        layer={props.layerOf(goal.id)}
        onGo={props.onGo}
        onLay={props.onLay}
      />
    ))}
  </ul>
);

function OneSort(props: Omit<OwedProps, "followers"> & { readonly sort: Sort }) {
  const { goals, sort } = props;
  const left = goals.filter((goal) => goal.verdict !== "proved");
  const proved = goals.length - left.length;
  const worst: Verdict =
    left.find((goal) => goal.verdict === "broken")?.verdict ??
    left.find((goal) => goal.verdict === "not settled")?.verdict ??
    left[0]?.verdict ??
    "proved";
  // Lines only being looked at are counted, not listed: they come and go while one reads.
  const listed = left.filter((goal) => goal.verdict !== "looking");
  return (
    <li className="owed">
      <div className={`goal is-${worst.replace(" ", "-")}`}>
        <span className="goal-verdict">
          <Stamp verdict={worst} />
        </span>
        <p className="goal-says">
          {left.length === 0 ? (
            owedProved(sort, goals.length)
          ) : (
            <>
              {owedHeading(sort)}: {proved} of {count(goals.length, "line", "lines")} proved
              {left.length > listed.length ? `, ${left.length - listed.length} being looked at` : ""}.
            </>
          )}
        </p>
      </div>
      {listed.length > 0 && <Lines {...props} goals={listed} />}
      {left.length === 0 && goals.length > 1 && (
        <details className="owed-all">
          <summary>Show them</summary>
          <ul>
            {goals.map((goal) => (
              <li key={goal.id}>
                <button type="button" className="link" onClick={() => props.onGo(goal.id)}>
                  {goal.says}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}
