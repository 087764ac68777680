// The editions of a book: what the text on the bench changes against another one, by rule and by what it does to jobs.
import { useEffect, useState, useSyncExternalStore } from "react";
import type { Answers } from "../../../core/view.ts";
import { makeWeigher } from "../engine/weigh-client.ts";
import { weighWorker } from "../engine/weigh-engine-worker.ts";
import type { Rival } from "./rivals.ts";
import { Weighed } from "./weighed.tsx";
import "../standing/standing.css";
import "./editions.css";

export interface EditionsFaceProps {
  readonly name: string;
  readonly edition: number | undefined;
  readonly text: string;
  readonly rivals: readonly Rival[];
  readonly shelf: readonly string[] | undefined;
  /** Jobs laid alongside: they count as the log. */
  readonly jobs: readonly { readonly name: string; readonly answers: Answers }[];
  readonly onGo: (id: string) => void;
  readonly onLay: (answers: Answers, name: string) => void;
}

/** How many jobs are made up beside the real ones. */
const spreads = [0, 60, 300, 1000] as const;

export function EditionsFace(props: EditionsFaceProps) {
  const [weigher] = useState(() => makeWeigher(weighWorker));
  const state = useSyncExternalStore(weigher.subscribe, weigher.state);
  const [chosen, setChosen] = useState(props.rivals[0]?.key ?? "");
  const [spread, setSpread] = useState<number>(60);
  const [trouble, setTrouble] = useState<string>();
  const rival = props.rivals.find((one) => one.key === chosen) ?? props.rivals[0];
  const weigh = async (): Promise<void> => {
    setTrouble(undefined);
    const before = await rival?.text();
    if (before === undefined) { setTrouble("That text could not be fetched."); return; }
    weigher.weigh({ before, after: props.text, logged: props.jobs.map(({ name, answers }) => ({ name, answers })), spread, ...(props.shelf === undefined ? {} : { shelf: props.shelf }) });
  };
  // The first look is taken without being asked for: it is what the face is opened for.
  useEffect(() => { void weigh(); return () => weigher.stop(); }, [rival?.key, spread]);
  const old = state.wish !== undefined && state.wish.after !== props.text;
  const { view } = state;
  return (
    <article className="record editions" aria-labelledby="editions-heading">
      <header className="editions-head">
        <div>
          <h2 id="editions-heading">What this text changes</h2>
          <p className="editions-pair"><b>{props.name || "This book"}</b>{props.edition !== undefined && `, edition ${props.edition}`}, as it is on the bench, held against</p>
          <label className="editions-field"><span className="label">Held against</span>
            <select value={rival?.key ?? ""} onChange={(event) => setChosen(event.target.value)}>{props.rivals.map((one) => <option key={one.key} value={one.key}>{one.says}</option>)}</select>
          </label>
          <label className="editions-field"><span className="label">Made-up jobs</span>
            <select value={spread} onChange={(event) => setSpread(Number(event.target.value))}>{spreads.map((count) => <option key={count} value={count}>{count === 0 ? "none" : `at least ${count}`}</option>)}</select>
          </label>
        </div>
        <p className="record-note">The same jobs are worked by both: the worked examples of both books, the jobs laid alongside, and a spread made up so that it reaches every row and alternative. Where an output differs, each change is made alone to find the one that has it.</p>
      </header>
      <div className="progress no-print">
        <p role="status">{state.trouble !== undefined ? "The weighing broke off. Your text is kept." : old ? "The text was changed since. What stands below is of the text before." : state.running ? "Working the same jobs by both." : view === undefined ? "Not weighed yet." : view.done ? "All are weighed." : "Stopped. What is weighed stays."}</p>
        {state.running && view && <progress className="progress-rule" aria-label="Jobs weighed" max={Math.max(1, view.all)} value={view.settled} />}
        {view && <p className="progress-count">{view.settled} of {view.all}</p>}
        <span className="progress-does">
          {state.running ? <button type="button" className="button" onClick={() => weigher.stop()}>Stop</button> : <button type="button" className="button" onClick={() => void weigh()}>{old ? "Weigh it as it is now" : "Weigh again"}</button>}
        </span>
      </div>
      {trouble !== undefined && <p className="record-note" role="alert">{trouble}</p>}
      <div className="editions-body">{state.rules && <Weighed key={state.wish?.before} rules={state.rules} view={view} onGo={props.onGo} onLay={props.onLay} />}</div>
      <footer className="record-end"><p>What a change does is told for these jobs and no others. Whether it is right is for the shop’s tests, the label, local codes and licensed practice.</p></footer>
    </article>
  );
}
