// The editions of a book: what the text in the workbench changes against another one, by rule and by what it
// does to jobs.
import { useMemo } from "react";
import type { Answers } from "../../../core/view.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import { ComparisonProgress, comparisonStatus } from "./comparison-progress.tsx";
import type { Pair, Rival } from "./rivals.ts";
import type { Comparison } from "./use-comparison.ts";
import { useComparison } from "./use-comparison.ts";
import { Weighed } from "./weighed.tsx";
import "../standing/standing.css";
import "./editions.css";

export interface EditionsViewProps {
  readonly name: string;
  /** The text in the workbench. */
  readonly text: string;
  readonly rivals: readonly Rival[];
  readonly pair: Pair;
  readonly onPair: (pair: Pair) => void;
  /** A row whose change alone is read at first. */
  readonly only?: string;
  /** The host, whose logged jobs can be compared as well; absent where there is none. */
  readonly host?: HostClient;
  readonly shelf: readonly string[] | undefined;
  /** Jobs beside the sheet: they count as the log. */
  readonly jobs: readonly { readonly name: string; readonly answers: Answers }[];
  readonly onGo: (id: string) => void;
  readonly onLay: (answers: Answers, name: string) => void;
}

/** How many jobs of the log are compared; 0 is none. */
const logs = [0, 200, 2000, Infinity] as const;

/** How many jobs are made up beside the real ones. */
const spreads = [0, 60, 300, 1000] as const;

export function EditionsView(props: EditionsViewProps) {
  const comparison = useComparison(props);
  const { state, trouble } = comparison;
  const { pair } = props;
  const laid = useMemo(() => new Set(props.jobs.map((job) => job.name)), [props.jobs]);
  const status = comparisonStatus(comparison, props.text, props.host !== undefined);
  return (
    <article className="record editions" aria-labelledby="editions-heading">
      <Head view={props} comparison={comparison} />
      <ComparisonProgress comparison={comparison} status={status} />
      {trouble !== undefined && (
        <p className="editions-trouble" role="alert">
          {trouble}
        </p>
      )}
      <div className="editions-body">
        {state.rules && (
          <Weighed
            key={`${pair.before} ${pair.after}`}
            laid={laid}
            rules={state.rules}
            view={state.view}
            only={props.only}
            onGo={props.onGo}
            onLay={props.onLay}
          />
        )}
      </div>
      <footer className="record-end">
        <p>
          What a change does is told for these jobs and no others. Whether it is right is for the shop’s
          tests, the label, local codes and licensed practice.
        </p>
      </footer>
    </article>
  );
}

/** The two texts and the jobs by which they are compared. */
function Head(props: { readonly view: EditionsViewProps; readonly comparison: Comparison }) {
  const { view, comparison } = props;
  const { before, after } = comparison;
  const { pair, rivals, onPair } = view;
  return (
    <header className="editions-head">
      <div>
        <h2 id="editions-heading">
          {after?.key === "bench" ? "What this text changes" : "What the one changes against the other"}
        </h2>
        <p className="editions-pair">
          <b>{view.name || "This book"}</b>, two texts held against each other
        </p>
        <PickText
          label="This"
          rivals={rivals}
          picked={after}
          onPick={(key) => onPair({ ...pair, after: key })}
        />
        <PickText
          label="Held against"
          rivals={rivals}
          picked={before}
          onPick={(key) => onPair({ ...pair, before: key })}
        />
        <PickCount
          label="Made-up jobs"
          counts={spreads}
          picked={comparison.spread}
          says={(count) => (count === 0 ? "none" : `at least ${count}`)}
          onPick={comparison.setSpread}
        />
        {view.host && (
          <PickCount
            label="Jobs from the log"
            counts={logs}
            picked={comparison.logged}
            says={(count) => (count === 0 ? "none" : count === Infinity ? "all" : `the last ${count}`)}
            onPick={comparison.setLogged}
          />
        )}
      </div>
      <p className="record-note">
        The same jobs are worked by both: the worked examples of both books, the jobs laid alongside
        {view.host && ", jobs from the log where they are asked for"}, and a spread made up so that it reaches
        every row and alternative. Where an output differs, each change is made alone to find the one that has
        it.
      </p>
    </header>
  );
}

const PickText = (props: {
  readonly label: string;
  readonly rivals: readonly Rival[];
  readonly picked: Rival | undefined;
  readonly onPick: (key: string) => void;
}) => (
  <label className="editions-field">
    <span className="label">{props.label}</span>
    <select value={props.picked?.key ?? ""} onChange={(event) => props.onPick(event.target.value)}>
      {props.rivals.map((one) => (
        <option key={one.key} value={one.key}>
          {one.says}
        </option>
      ))}
    </select>
  </label>
);

const PickCount = (props: {
  readonly label: string;
  readonly counts: readonly number[];
  readonly picked: number;
  readonly says: (count: number) => string;
  readonly onPick: (count: number) => void;
}) => (
  <label className="editions-field">
    <span className="label">{props.label}</span>
    <select value={String(props.picked)} onChange={(event) => props.onPick(Number(event.target.value))}>
      {props.counts.map((count) => (
        <option key={count} value={String(count)}>
          {props.says(count)}
        </option>
      ))}
    </select>
  </label>
);
