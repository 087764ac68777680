// The editions of a book: what the text on the bench changes against another one, by rule and by what it does
// to jobs.
import { useEffect, useMemo, useRef, useState, useSyncExternalStore } from "react";
import type { Answers } from "../../../core/view.ts";
import { startComparer } from "../../client/engine/compare-client.ts";
import { compareWorker } from "../../client/engine/compare-engine-worker.ts";
import type { LogFetched } from "../shop-host/log-answers.ts";
import { loggedJobs, nothingFetched } from "../shop-host/log-answers.ts";
import type { HostClient } from "../../client/storage/host-client.ts";
import type { Pair, Rival } from "./rivals.ts";
import { Weighed } from "./weighed.tsx";
import "../standing/standing.css";
import "./editions.css";

export interface EditionsViewProps {
  readonly name: string;
  /** The text on the bench. */
  readonly text: string;
  readonly rivals: readonly Rival[];
  readonly pair: Pair;
  readonly onPair: (pair: Pair) => void;
  /** A row whose change alone is read at first. */
  readonly only?: string;
  /** The host, whose logged jobs can be weighed as well; absent where there is none. */
  readonly host?: HostClient;
  readonly shelf: readonly string[] | undefined;
  /** Jobs laid alongside: they count as the log. */
  readonly jobs: readonly { readonly name: string; readonly answers: Answers }[];
  readonly onGo: (id: string) => void;
  readonly onLay: (answers: Answers, name: string) => void;
}

/** How many jobs of the log are weighed; 0 is none. */
const logs = [0, 200, 2000, Infinity] as const;

/** How many jobs are made up beside the real ones. */
const spreads = [0, 60, 300, 1000] as const;

export function EditionsView(props: EditionsViewProps) {
  const [weigher] = useState(() => startComparer(compareWorker));
  const state = useSyncExternalStore(weigher.subscribe, weigher.state);
  const { pair, rivals } = props;
  const [spread, setSpread] = useState<number>(60);
  const [logged, setLogs] = useState<number>(0);
  const [trouble, setTrouble] = useState<string>();
  // Of the log: what has come so far, and whether more is being asked for now.
  const [log, setLog] = useState<LogFetched>(nothingFetched);
  const [fetching, setFetching] = useState(false);
  /** What has come of the log where that shall do. */
  const [enough, setEnough] = useState<LogFetched>();
  const run = useRef({ stopped: false });
  const before = rivals.find((one) => one.key === pair.before) ?? rivals[1] ?? rivals[0];
  const after = rivals.find((one) => one.key === pair.after) ?? rivals[0];
  /** `from`: what has come of the log; `asIs` weighs that and asks for no more. */
  const weigh = async (from: LogFetched, asIs = false): Promise<void> => {
    run.current.stopped = true;
    const mine = { stopped: false };
    run.current = mine;
    setTrouble(undefined);
    setEnough(asIs ? from : undefined);
    const texts = await Promise.all([before?.text(), after?.text()]);
    if (mine.stopped) return;
    const [old, fresh] = texts;
    if (old === undefined || fresh === undefined) {
      setTrouble("That text could not be fetched.");
      return;
    }
    let fetched = logged === 0 ? nothingFetched : from;
    if (props.host !== undefined && logged > 0 && !asIs) {
      setFetching(true);
      try {
        fetched = await loggedJobs(
          props.host,
          props.name,
          logged,
          from,
          (more) => {
            if (run.current === mine) setLog(more);
            fetched = more;
          },
          () => mine.stopped,
        );
      } catch (cause) {
        if (run.current === mine)
          setTrouble(
            `${cause instanceof Error ? cause.message : "The log could not be fetched."} ${fetched.looked === 0 ? "No job of the log has come yet." : `The ${fetched.looked} jobs that have come are kept here.`}`,
          );
        mine.stopped = true;
      }
      if (run.current === mine) setFetching(false);
      if (mine.stopped) return;
    }
    weigher.weigh({
      before: old,
      after: fresh,
      logged: [...props.jobs.map(({ name, answers }) => ({ name, answers })), ...fetched.jobs],
      spread,
      ...(props.shelf === undefined ? {} : { shelf: props.shelf }),
    });
  };
  const stop = (): void => {
    run.current.stopped = true;
    setFetching(false);
    weigher.stop();
  };
  // The first look is taken without being asked for: it is what the face is opened for. Of a log that was
  // fetched for less, the rest is fetched.
  useEffect(() => {
    const from = log.looked <= logged ? log : nothingFetched;
    setLog(from);
    void weigh(from);
    return stop;
  }, [before?.key, after?.key, spread, logged]);
  const { view } = state;
  // Left off while the log was fetched: nothing is weighed of it before the rest has come, or is given up.
  const half = logged > 0 && props.host !== undefined && !fetching && !log.whole && log !== enough;
  const left = half || (view !== undefined && !view.done);
  const old =
    state.wish !== undefined &&
    ((after?.key === "bench" && state.wish.after !== props.text) ||
      (before?.key === "bench" && state.wish.before !== props.text));
  // The same texts and the same jobs once more would tell the same; the log may have grown.
  const again = logged > 0 || trouble !== undefined || state.trouble !== undefined || view === undefined;
  const laid = useMemo(() => new Set(props.jobs.map((job) => job.name)), [props.jobs]);
  return (
    <article className="record editions" aria-labelledby="editions-heading">
      <header className="editions-head">
        <div>
          <h2 id="editions-heading">
            {after?.key === "bench" ? "What this text changes" : "What the one changes against the other"}
          </h2>
          <p className="editions-pair">
            <b>{props.name || "This book"}</b>, two texts held against each other
          </p>
          <label className="editions-field">
            <span className="label">This</span>
            <select
              value={after?.key ?? ""}
              onChange={(event) => props.onPair({ ...pair, after: event.target.value })}
            >
              {rivals.map((one) => (
                <option key={one.key} value={one.key}>
                  {one.says}
                </option>
              ))}
            </select>
          </label>
          <label className="editions-field">
            <span className="label">Held against</span>
            <select
              value={before?.key ?? ""}
              onChange={(event) => props.onPair({ ...pair, before: event.target.value })}
            >
              {rivals.map((one) => (
                <option key={one.key} value={one.key}>
                  {one.says}
                </option>
              ))}
            </select>
          </label>
          <label className="editions-field">
            <span className="label">Made-up jobs</span>
            <select value={spread} onChange={(event) => setSpread(Number(event.target.value))}>
              {spreads.map((count) => (
                <option key={count} value={count}>
                  {count === 0 ? "none" : `at least ${count}`}
                </option>
              ))}
            </select>
          </label>
          {props.host && (
            <label className="editions-field">
              <span className="label">Jobs from the log</span>
              <select value={String(logged)} onChange={(event) => setLogs(Number(event.target.value))}>
                {logs.map((count) => (
                  <option key={count} value={String(count)}>
                    {count === 0 ? "none" : count === Infinity ? "all" : `the last ${count}`}
                  </option>
                ))}
              </select>
            </label>
          )}
        </div>
        <p className="record-note">
          The same jobs are worked by both: the worked examples of both books, the jobs laid alongside
          {props.host && ", jobs from the log where they are asked for"}, and a spread made up so that it
          reaches every row and alternative. Where an output differs, each change is made alone to find the
          one that has it.
        </p>
      </header>
      <div className="progress no-print">
        <p role="status">
          {fetching
            ? `Fetching jobs from the log: ${log.looked} so far.`
            : half
              ? `Left off fetching the log: ${log.looked} jobs have come.`
              : state.trouble !== undefined
                ? "The weighing broke off. Your text is kept."
                : old
                  ? "The text was changed since. What stands below is of the text before."
                  : state.running
                    ? "Working the same jobs by both."
                    : view === undefined
                      ? "Not weighed yet."
                      : view.done
                        ? "All are weighed."
                        : "Stopped. What is weighed stays."}
        </p>
        {state.running && view && (
          <progress
            className="progress-rule"
            aria-label="Jobs weighed"
            max={Math.max(1, view.all)}
            value={view.settled}
          />
        )}
        {view && (
          <p className="progress-count">
            {view.settled} of {view.all}
          </p>
        )}
        <span className="progress-does">
          {state.running || fetching ? (
            <button type="button" className="button" onClick={stop}>
              Stop
            </button>
          ) : (
            <>
              {half && log.looked > 0 && (
                <button type="button" className="button" onClick={() => void weigh(log, true)}>
                  Weigh these {log.looked}
                </button>
              )}
              {left && !old && (
                <button type="button" className="button" onClick={() => void weigh(log, log === enough)}>
                  Go on
                </button>
              )}
              {(old || (!left && again)) && (
                <button
                  type="button"
                  className="button"
                  onClick={() => void weigh(old ? log : nothingFetched)}
                >
                  {old ? "Weigh it as it is now" : "Weigh again"}
                </button>
              )}
            </>
          )}
        </span>
      </div>
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
            view={view}
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
