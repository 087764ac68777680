// How the book stands, as a record of inspection: what may be said on top under a large stamp, then what the
// book promises, what every book owes, its charts, what no job reaches, its examples and how they guard it.
import { useMemo, useState } from "react";
import type { ReactNode } from "react";
import type { Span } from "../../../core/span.ts";
import type { Answers, Finding, GoalView, Row, UnnoticedView, WorkedView } from "../../../core/view.ts";
import type { Snapshot } from "../../client/engine/messages.ts";
import type { ProvingState } from "../../client/engine/proof-client.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { GoalLine } from "./goal-line.tsx";
import { GuardPart } from "./guard-part.tsx";
import { Owed } from "./owed.tsx";
import { ProofProgress } from "./proof-progress.tsx";
import { Seal, Stamp } from "./stamp.tsx";
import { claim, count, inCharts, mayBeSaid, noticedPercent, rowWords, spokenOf } from "./standing-words.ts";
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
  /** Lays a job alongside and goes to the row. */
  readonly onLay: (job: Answers, name: string, id: string) => void;
  readonly onExample: (change: UnnoticedView) => void;
  readonly onRepair: (finding: Finding) => void;
}

export function StandingView(props: StandingViewProps) {
  const { snapshot, proving, onGo } = props;
  const { standing, guard } = proving;
  const old = standing !== undefined && standing.text !== snapshot.text;
  const view = standing?.view;
  const said = mayBeSaid(old ? undefined : view, snapshot.findings, snapshot.worked);
  const byId = useMemo(() => new Map(snapshot.rows.map((row) => [row.id, row])), [snapshot.rows]);
  // Where several books give rules, each line names the one that it stands in.
  const several = useMemo(() => new Set(snapshot.rows.map((row) => row.layer)).size > 1, [snapshot.rows]);
  const layerOf = (id: string): string | undefined => (several ? byId.get(id)?.layer : undefined);
  const placeOf = (id: string): string | undefined => {
    const row = byId.get(id);
    return row && rowWords(row);
  };
  const lay = (goal: GoalView, job: Answers): void => props.onLay(job, `breaks ${goal.id}`, goal.id);
  const promises = view?.goals.filter((goal) => goal.sort === "promise") ?? [];
  const charts = snapshot.findings.filter(inCharts);
  const others = snapshot.findings.filter((finding) => !spokenOf(finding));
  const passing = snapshot.worked.filter((one) => one.passes).length;
  const chartCount = snapshot.rows.filter((row) => row.keyword === "chart").length;
  const owed = view?.goals.filter((goal) => goal.sort !== "promise") ?? [];
  return (
    <article className="record" aria-labelledby="record-heading">
      <header className="record-head">
        <div className="record-said">
          <h2 id="record-heading">How the book stands</h2>
          <blockquote className="record-claim">{claim}</blockquote>
          <p className={`record-first is-${said.overall}`}>{said.first}</p>
          <p>{said.then}</p>
          {old && (
            <p className="record-note">
              The book was changed. What stands below is proved of the text before; it is being looked at
              anew.
            </p>
          )}
        </div>
        <div className="record-seal">
          <Seal overall={said.overall} />
        </div>
        <dl className="record-fields">
          <Field label="Book">{snapshot.name || "without a name"}</Field>
          <Field label="Edition">{snapshot.edition ?? "none"}</Field>
          <Field label="Promises kept">
            {view
              ? `${promises.filter((goal) => goal.verdict === "proved").length} of ${promises.length}`
              : "…"}
          </Field>
          <Field label="Owed and kept">
            {view ? `${owed.filter((goal) => goal.verdict === "proved").length} of ${owed.length}` : "…"}
          </Field>
          <Field label="Examples as expected">
            {passing} of {snapshot.worked.length}
          </Field>
          <Field label="Changes noticed">
            {guard && guard.view.tried > 0
              ? `${noticedPercent(guard.view)} %${guard.view.done ? "" : " so far"}`
              : "…"}
          </Field>
        </dl>
        <ProofProgress
          proving={proving}
          text={snapshot.text}
          onStop={props.onStop}
          onGoOn={props.onGoOn}
          onKeep={props.onKeep}
        />
      </header>

      <Part number={1} heading="What the book promises">
        {view === undefined ? (
          <p className="record-note">Nothing is proved yet.</p>
        ) : promises.length === 0 ? (
          <p className="record-note">
            The book promises nothing. A promise is a line such as{" "}
            <code>promise to-edge &gt;= room-needed or stopped</code>.
          </p>
        ) : (
          <ul className="goals">
            {promises.map((goal) => (
              <GoalLine
                key={`${goal.id} ${goal.says}`}
                goal={goal}
                place={placeOf(goal.id)}
                layer={layerOf(goal.id)}
                reason={byId.get(goal.id)?.because}
                onGo={onGo}
                onLay={lay}
              />
            ))}
          </ul>
        )}
      </Part>
      <Part number={2} heading="What every book owes">
        {view === undefined ? (
          <p className="record-note">Nothing is proved yet.</p>
        ) : (
          <Owed goals={owed} placeOf={placeOf} layerOf={layerOf} onGo={onGo} onLay={lay} />
        )}
      </Part>
      <Part number={3} heading="Holes and overlaps of the charts">
        {charts.length === 0 ? (
          <Settled>
            {chartCount === 0
              ? "The book has no charts."
              : `${count(chartCount, "chart", "charts")}: no hole, and no two rows for one case, over the whole of what can be answered.`}
          </Settled>
        ) : (
          <ul className="record-findings">
            {charts.map((finding) => (
              <InPlace key={`${finding.at.start} ${finding.says}`} finding={finding} {...props} />
            ))}
          </ul>
        )}
      </Part>
      <Part number={4} heading="What no job ever reaches">
        {view === undefined ? (
          <p className="record-note">Nothing is proved yet.</p>
        ) : view.never.length === 0 ? (
          view.done ? (
            <Settled>
              Every row, alternative and line is reached by some job, or it is not settled whether it is.
            </Settled>
          ) : (
            <p className="record-note">Nothing so far.</p>
          )
        ) : (
          <ul className="never">
            {view.never.map((one) => (
              <li key={`${one.at.start} ${one.says}`}>
                <span className="never-mark" aria-hidden="true" />
                <p>
                  {one.says}
                  {layerOf(one.id) !== undefined && ` (${layerOf(one.id)!})`}
                </p>
                <button
                  type="button"
                  className="button bare"
                  onClick={() => onGo(one.id, old ? undefined : one.at)}
                >
                  Go there<span className="out-of-sight">: {one.says}</span>
                </button>
              </li>
            ))}
          </ul>
        )}
      </Part>
      <Part number={5} heading="Worked examples">
        <Examples worked={snapshot.worked} rows={snapshot.rows} onGo={onGo} onLay={props.onLay} />
      </Part>
      <Part number={6} heading="How the examples guard the book">
        <GuardPart
          guard={guard?.view}
          running={proving.wanted !== undefined}
          old={guard !== undefined && guard.text !== snapshot.text}
          rowById={(id) => byId.get(id)}
          readOnly={props.readOnly}
          onGo={onGo}
          onExample={props.onExample}
          onLay={(change) => {
            if (change.job) props.onLay(change.job, `tells ${change.id} apart`, change.id);
          }}
        />
      </Part>
      <Part number={7} heading="Other findings of the checker">
        {others.length === 0 ? (
          <Settled>None.</Settled>
        ) : (
          <ul className="record-findings">
            {others.map((finding, n) => (
              <InPlace key={`${finding.at.start} ${n}`} finding={finding} {...props} />
            ))}
          </ul>
        )}
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

function Field(props: { readonly label: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt className="label">{props.label}</dt>
      <dd>{props.children}</dd>
    </div>
  );
}

function Part(props: { readonly number: number; readonly heading: string; readonly children: ReactNode }) {
  return (
    <section className="record-part" aria-labelledby={`record-${props.number}`}>
      <h3 className="batten" id={`record-${props.number}`}>
        <span className="record-number">{props.number}</span>
        {props.heading}
      </h3>
      {props.children}
    </section>
  );
}

const Settled = (props: { readonly children: ReactNode }) => (
  <div className="goal is-proved">
    <span className="goal-verdict">
      <Stamp verdict="proved" />
    </span>
    <p className="goal-says">{props.children}</p>
  </div>
);

/** A finding with the way to its place. */
function InPlace(props: {
  readonly finding: Finding;
  readonly snapshot: Snapshot;
  readonly readOnly: boolean;
  readonly onGo: (id: string, at?: Span) => void;
  readonly onRepair: (finding: Finding) => void;
}) {
  const { finding } = props;
  const row = props.snapshot.rows.find(
    (one) => finding.at.start >= one.at.start && finding.at.start <= one.at.end,
  );
  return (
    <li>
      <FindingLine finding={finding} onRepair={props.readOnly ? undefined : props.onRepair} />
      {row && (
        <button type="button" className="button bare" onClick={() => props.onGo(row.id, finding.at)}>
          Go there<span className="out-of-sight">: {rowWords(row)}</span>
        </button>
      )}
    </li>
  );
}

function Examples(props: {
  readonly worked: readonly WorkedView[];
  readonly rows: readonly Row[];
  readonly onGo: (id: string) => void;
  readonly onLay: StandingViewProps["onLay"];
}) {
  const failing = props.worked.filter((one) => !one.passes);
  const [shown, setShown] = useState(6);
  const idOf = (name: string): string | undefined =>
    props.rows.find((row) => row.keyword === "worked" && row.name === name)?.id;
  if (props.worked.length === 0) return <p className="record-note">The book has no worked examples.</p>;
  if (failing.length === 0)
    return (
      <Settled>
        {props.worked.length === 1
          ? "The 1 worked example comes"
          : `All ${props.worked.length} worked examples come`}{" "}
        out as expected.
      </Settled>
    );
  return (
    <>
      <p>
        {props.worked.length - failing.length} of{" "}
        {count(props.worked.length, "worked example", "worked examples")} come out as expected. These do not:
      </p>
      <ul className="goals">
        {failing.slice(0, shown).map((one) => {
          const id = idOf(one.name);
          return (
            <li key={one.name} className="goal is-broken">
              <span className="goal-verdict">
                <Stamp verdict="broken" />
                <span>Fails</span>
              </span>
              <div className="goal-says">
                <p>
                  <b>{one.name}</b> {one.title}
                </p>
                <ul>
                  {one.expects
                    .filter((expect) => !expect.holds)
                    .map((expect) => (
                      <li key={expect.what}>
                        {expect.what}: wanted {expect.wanted}, comes out {expect.got}
                      </li>
                    ))}
                </ul>
                {one.expects.every((expect) => expect.holds) && (
                  <p>Its values come out, but it breaks a promise of the book.</p>
                )}
                {id !== undefined && (
                  <button
                    type="button"
                    className="button"
                    onClick={() => props.onLay(one.answers, one.name, id)}
                  >
                    Lay it alongside
                  </button>
                )}
              </div>
              {id !== undefined && (
                <button type="button" className="button bare goal-go" onClick={() => props.onGo(id)}>
                  Go there<span className="out-of-sight">: worked {one.name}</span>
                </button>
              )}
            </li>
          );
        })}
      </ul>
      {failing.length > shown && (
        <button type="button" className="button" onClick={() => setShown(shown + 40)}>
          {failing.length - shown} more
        </button>
      )}
    </>
  );
}
