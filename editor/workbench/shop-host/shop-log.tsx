// The shop's log as the lead reads it: the jobs of all tablets, and who did what.
import { useState } from "react";
import type { Answers } from "../../../core/view.ts";
import type { Shop, ShopState } from "../store/shop.ts";
import { JobsPart } from "./jobs-table.tsx";
import { LogPart } from "./log-table.tsx";
import { SignInLink } from "./sign-in-link.tsx";
import "../standing/standing.css";
import "../editions/editions.css";
import "./shop-host.css";

export function LogView(props: {
  readonly shop: Shop;
  readonly state: ShopState;
  readonly book: string;
  readonly onLay: (answers: Answers, name: string) => void;
}) {
  const { state } = props;
  const [part, setPart] = useState<"jobs" | "log">("jobs");
  const lead = state.you?.role === "lead";
  return (
    <article className="record editions log-face" aria-labelledby="log-heading">
      <header className="sealed-head">
        <h2 id="log-heading">The shop’s log</h2>
        {lead && (
          <p className="tb-choices" role="group" aria-label="Part of the log">
            <button
              type="button"
              className="tb-choice"
              aria-pressed={part === "jobs"}
              onClick={() => setPart("jobs")}
            >
              Jobs
            </button>
            <button
              type="button"
              className="tb-choice"
              aria-pressed={part === "log"}
              onClick={() => setPart("log")}
            >
              Who did what
            </button>
          </p>
        )}
      </header>
      <div className="editions-body">
        {state.host !== "there" ? (
          <p role="status">
            {state.host === "refused" ? (
              <>
                Sign in to read the log. <SignInLink />
              </>
            ) : (
              "The host does not answer."
            )}
          </p>
        ) : part === "log" && lead ? (
          <LogPart shop={props.shop} state={state} />
        ) : (
          <JobsPart shop={props.shop} state={state} book={props.book} onLay={props.onLay} />
        )}
      </div>
    </article>
  );
}
