// Compares two texts of a book: fetches both and the jobs of the log, and runs the comparison in a worker. It
// starts when the texts or the jobs change, and can be stopped and resumed.
import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import type { RefObject } from "react";
import type { ComparisonState } from "../../client/engine/compare-client.ts";
import { startComparer } from "../../client/engine/compare-client.ts";
import { compareWorker } from "../../client/engine/compare-engine-worker.ts";
import type { LogFetched } from "../shop-host/log-answers.ts";
import { loggedJobs, nothingFetched } from "../shop-host/log-answers.ts";
import { useEvent } from "../use-event.ts";
import type { EditionsViewProps } from "./editions-view.tsx";
import type { Rival } from "./rivals.ts";

export interface Comparison {
  readonly before: Rival | undefined;
  readonly after: Rival | undefined;
  /** Jobs made up beside the real ones. */
  readonly spread: number;
  readonly setSpread: (spread: number) => void;
  /** Jobs of the log to compare; 0 is none. */
  readonly logged: number;
  readonly setLogged: (logged: number) => void;
  readonly state: ComparisonState;
  /** What has come of the log so far. */
  readonly log: LogFetched;
  /** More of the log is being fetched. */
  readonly fetching: boolean;
  /** What has come of the log is to be compared without the rest. */
  readonly enough: LogFetched | undefined;
  readonly trouble: string | undefined;
  /** `from`: what has come of the log; `asIs` compares that and fetches no more. */
  readonly compare: (from: LogFetched, asIs?: boolean) => void;
  readonly stop: () => void;
}

export function useComparison(props: EditionsViewProps): Comparison {
  const { pair, rivals } = props;
  const [comparer] = useState(() => startComparer(compareWorker));
  const state = useSyncExternalStore(comparer.subscribe, comparer.state);
  const [spread, setSpread] = useState<number>(60);
  const [logged, setLogged] = useState<number>(0);
  const [trouble, setTrouble] = useState<string>();
  const [enough, setEnough] = useState<LogFetched>();
  const log = useLog(props, logged);
  const run = useRef<Run>({ stopped: false });
  const before = rivals.find((one) => one.key === pair.before) ?? rivals[1] ?? rivals[0];
  const after = rivals.find((one) => one.key === pair.after) ?? rivals[0];
  const compare = async (from: LogFetched, asIs: boolean): Promise<void> => {
    const mine = newRun(run);
    setTrouble(undefined);
    setEnough(asIs ? from : undefined);
    const [old, fresh] = await Promise.all([before?.text(), after?.text()]);
    if (mine.stopped) return;
    if (old === undefined || fresh === undefined) {
      setTrouble("That text could not be fetched.");
      return;
    }
    const fetched = await log.fetch(from, asIs, run, setTrouble);
    if (mine.stopped) return;
    comparer.weigh({
      before: old,
      after: fresh,
      logged: [...props.jobs.map(({ name, answers }) => ({ name, answers })), ...fetched.jobs],
      spread,
      ...(props.shelf === undefined ? {} : { shelf: props.shelf }),
    });
  };
  const stop = useEvent((): void => {
    run.current.stopped = true;
    log.setFetching(false);
    comparer.stop();
  });
  // Of a log that was fetched for less, only the rest is fetched.
  const start = useEvent((): void => {
    const from = log.log.looked <= logged ? log.log : nothingFetched;
    log.setLog(from);
    void compare(from, false);
  });
  // biome-ignore lint/correctness/useExhaustiveDependencies: other texts and other jobs are compared at once
  useEffect(() => {
    start();
    return stop;
  }, [before?.key, after?.key, spread, logged, start, stop]);
  return {
    before,
    after,
    spread,
    setSpread,
    logged,
    setLogged,
    state,
    log: log.log,
    fetching: log.fetching,
    enough,
    trouble,
    compare: (from, asIs = false) => void compare(from, asIs),
    stop,
  };
}

interface Run {
  stopped: boolean;
}

/** Ends the run before and begins another. */
function newRun(run: RefObject<Run>): Run {
  run.current.stopped = true;
  run.current = { stopped: false };
  return run.current;
}

/** The jobs of the log that have come so far. */
function useLog({ host, name }: EditionsViewProps, logged: number) {
  const [log, setLog] = useState<LogFetched>(nothingFetched);
  const [fetching, setFetching] = useState(false);
  const fetch = async (
    from: LogFetched,
    asIs: boolean,
    run: RefObject<Run>,
    onTrouble: (says: string) => void,
  ): Promise<LogFetched> => {
    const mine = run.current;
    let fetched = logged === 0 ? nothingFetched : from;
    if (host === undefined || logged === 0 || asIs) return fetched;
    setFetching(true);
    try {
      fetched = await loggedJobs({
        client: host,
        book: name,
        most: logged,
        from,
        onPage: (more) => {
          if (run.current === mine) setLog(more);
          fetched = more;
        },
        stopped: () => mine.stopped,
      });
    } catch (cause) {
      if (run.current === mine) onTrouble(troubleWords(cause, fetched.looked));
      mine.stopped = true;
    }
    if (run.current === mine) setFetching(false);
    return fetched;
  };
  return { log, setLog, fetching, setFetching, fetch };
}

function troubleWords(cause: unknown, looked: number): string {
  const says = cause instanceof Error ? cause.message : "The log could not be fetched.";
  const come =
    looked === 0 ? "No job of the log has come yet." : `The ${looked} jobs that have come are kept here.`;
  return `${says} ${come}`;
}
