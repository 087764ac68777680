// How the book stands, as a record of inspection: what may be said on top under a large stamp, then what the
// book promises, what every book owes, its charts, what no job reaches, its examples and how they guard it.
import { useMemo } from "react";
import type { Span } from "../../../core/span.ts";
import type { Answers, Finding, GoalView, Row, UnnoticedView, VerificationView } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { ProvingState } from "../../client/engine/proof-client.ts";
import { Examples } from "./examples.tsx";
import { GoalLine } from "./goal-line.tsx";
import { GuardPart } from "./guard-part.tsx";
import { NeverReached } from "./never-reached.tsx";
import { Owed } from "./goals-of-every-book.tsx";
import { ChartFindings, OtherFindings } from "./record-findings.tsx";
import { RecordHead } from "./record-head.tsx";
import { NothingProved, Part } from "./record-parts.tsx";
import { followersOf } from "./roots.ts";
import { lookedAtAgain, rowWords } from "./standing-words.ts";
import "./standing.css";

export interface StandingViewProps {
  /** The book as the checker reads it; its findings are the checker's own. */
  readonly snapshot: Snapshot;
  readonly proving: ProvingState;
  readonly readOnly: boolean;
  readonly onStop: () => void;
  readonly onGoOn: () => void;
  readonly onKeep: (keep: boolean) => void;
  readonly onGo: (id: string, at?: Span) => void;
  /** Puts a job beside the sheet and goes to the row. */
  readonly onLay: (job: Answers, name: string, id: string) => void;
  readonly onExample: (change: UnnoticedView) => void;
  readonly onRepair: (finding: Finding) => void;
}

/** What the parts of the record share. */
export interface RecordState {
  readonly view: VerificationView | undefined;
  /** The proof is of an older text. */
  readonly outdated: boolean;
  readonly promises: readonly GoalView[];
  readonly owed: readonly GoalView[];
  /** Broken lines that come right with a chart that they use, by the chart's row. */
  readonly followers: ReadonlyMap<GoalView, string>;
  readonly byId: ReadonlyMap<string, Row>;
  /** The book that a row comes from, where several give rules. */
  readonly layerOf: (id: string) => string | undefined;
  /** A row in words. */
  readonly placeOf: (id: string) => string | undefined;
}

export interface RecordProps {
  readonly props: StandingViewProps;
  readonly record: RecordState;
}

export function StandingView(props: StandingViewProps) {
  const record = useRecord(props);
  const { snapshot, onGo } = props;
  const { view, owed, placeOf, layerOf } = record;
  const lay = (goal: GoalView, job: Answers): void => props.onLay(job, `breaks ${goal.id}`, goal.id);
  const part = { props, record };
  return (
    <article className="record" aria-labelledby="record-heading">
      <RecordHead {...part} />
      <Part number={1} heading="What the book promises">
        <Promises {...part} onLay={lay} />
      </Part>
      <Part number={2} heading="What every book owes">
        {view === undefined ? (
          <NothingProved />
        ) : (
          <Owed
            goals={owed}
            followers={record.followers}
            placeOf={placeOf}
            layerOf={layerOf}
            onGo={onGo}
            onLay={lay}
          />
        )}
      </Part>
      <Part number={3} heading="Holes and overlaps of the charts">
        <ChartFindings {...part} />
      </Part>
      <Part number={4} heading="What no job ever reaches">
        <NeverReached {...part} />
      </Part>
      <Part number={5} heading="Worked examples">
        <Examples worked={snapshot.worked} rows={snapshot.rows} onGo={onGo} onLay={props.onLay} />
      </Part>
      <Part number={6} heading="How the examples guard the book">
        <Guard {...part} />
      </Part>
      <Part number={7} heading="Other findings of the checker">
        <OtherFindings {...part} />
      </Part>
      <footer className="record-end">
        <p>
          A proof is about this book and nothing else: that its rules say what is claimed for every answer in
          the asked ranges. Whether the rules themselves are right for a material is for the shop’s tests, the
          label, local codes and licensed practice.
        </p>
      </footer>
    </article>
  );
}

function useRecord({ snapshot, proving }: StandingViewProps): RecordState {
  const { standing } = proving;
  const { rows, findings } = snapshot;
  const outdated = standing !== undefined && standing.text !== snapshot.text;
  const view = useMemo(
    () => (outdated && standing ? lookedAtAgain(standing.view) : standing?.view),
    [outdated, standing],
  );
  const byId = useMemo(() => new Map(rows.map((row) => [row.id, row])), [rows]);
  const several = useMemo(() => new Set(rows.map((row) => row.layer)).size > 1, [rows]);
  const owed = useMemo(() => view?.goals.filter((goal) => goal.sort !== "promise") ?? [], [view]);
  return {
    view,
    outdated,
    promises: view?.goals.filter((goal) => goal.sort === "promise") ?? [],
    owed,
    followers: useMemo(() => followersOf(owed, findings, rows), [owed, findings, rows]),
    byId,
    layerOf: (id) => (several ? byId.get(id)?.layer : undefined),
    placeOf: (id) => {
      const row = byId.get(id);
      return row && rowWords(row);
    },
  };
}

function Promises({
  props,
  record,
  onLay,
}: RecordProps & { readonly onLay: (goal: GoalView, job: Answers) => void }) {
  if (record.view === undefined) return <NothingProved />;
  if (record.promises.length === 0)
    return (
      <p className="record-note">
        The book promises nothing. A promise is a line such as{" "}
        <code>promise to-edge &gt;= room-needed or stopped</code>.
      </p>
    );
  return (
    <ul className="goals">
      {record.promises.map((goal) => (
        <GoalLine
          key={`${goal.id} ${goal.says}`}
          goal={goal}
          place={record.placeOf(goal.id)}
          layer={record.layerOf(goal.id)}
          reason={record.byId.get(goal.id)?.because}
          onGo={props.onGo}
          onLay={onLay}
        />
      ))}
    </ul>
  );
}

function Guard({ props, record }: RecordProps) {
  const { proving, snapshot } = props;
  const { guard } = proving;
  return (
    <GuardPart
      guard={guard?.view}
      running={proving.wanted !== undefined}
      old={guard !== undefined && guard.text !== snapshot.text}
      rowById={(id) => record.byId.get(id)}
      readOnly={props.readOnly}
      onGo={props.onGo}
      onExample={props.onExample}
      onLay={(change) => {
        if (change.job) props.onLay(change.job, `tells ${change.id} apart`, change.id);
      }}
    />
  );
}
