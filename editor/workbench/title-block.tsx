// The head of the page: a ruled title block as on a drawing, each field under its small label.
import type { UnitSystem } from "../../core/view.ts";
import { keptWords } from "./shop-host/kept-words.ts";
import type { View } from "./controller/view-state.ts";
import type { WorkbenchState } from "./store/document.ts";
import type { ShopState } from "./store/shop.ts";

const views: readonly { readonly view: View; readonly says: string }[] = [
  { view: "sheet", says: "Sheet" },
  { view: "text", says: "Text" },
  { view: "both", says: "Both" },
  { view: "card", says: "Card" },
  { view: "standing", says: "Standing" },
  { view: "editions", says: "Editions" },
  { view: "log", says: "Log" },
];
const systems: readonly { readonly units: UnitSystem; readonly says: string }[] = [
  { units: "book", says: "As the book says" },
  { units: "metric", says: "Metric" },
  { units: "us", says: "US" },
];

export function TitleBlock(props: {
  readonly state: WorkbenchState;
  readonly shop: ShopState;
  readonly view: View;
  readonly errors: number;
  readonly warnings: number;
  readonly panel: string;
  readonly onView: (view: View) => void;
  readonly onBooks: () => void;
  readonly onFindings: () => void;
  readonly onUnits: (units: UnitSystem) => void;
  readonly onUndo: () => void;
  readonly onRedo: () => void;
  readonly onHelp: () => void;
}) {
  const { state } = props;
  const { snapshot } = state;
  return (
    <header className="title-block">
      <div className="tb-mark">
        <Mark />
        <h1>Bevelbook</h1>
      </div>
      <button
        type="button"
        className="tb-cell tb-book"
        onClick={props.onBooks}
        aria-expanded={props.panel === "books"}
      >
        <span className="label">Books</span>
        <b>{snapshot?.name || state.key || "…"}</b>
        {snapshot?.edition !== undefined && <span className="tb-edition">edition {snapshot.edition}</span>}
      </button>
      <button
        type="button"
        className={`tb-cell tb-findings${props.errors > 0 ? " has-errors" : ""}`}
        onClick={props.onFindings}
        aria-expanded={props.panel === "findings"}
      >
        <span className="label">Findings</span>
        <b>{found(props.errors, props.warnings)}</b>
      </button>
      <div className="tb-cell tb-faces" role="group" aria-label="Face of the book">
        <span className="label">Face</span>
        <span className="tb-choices">
          {views
            .filter((one) => one.view !== "log" || hasHost(props.shop))
            .map((one) => (
              <button
                type="button"
                key={one.view}
                className={`tb-choice is-${one.view}`}
                aria-pressed={props.view === one.view}
                onClick={() => props.onView(one.view)}
              >
                {one.says}
              </button>
            ))}
        </span>
      </div>
      <label className="tb-cell tb-units">
        <span className="label">Units shown</span>
        <select
          value={state.units}
          onChange={(event) => {
            const found = systems.find((one) => one.units === event.target.value);
            if (found) props.onUnits(found.units);
          }}
        >
          {systems.map((one) => (
            <option key={one.units} value={one.units}>
              {one.says}
            </option>
          ))}
        </select>
      </label>
      <div className="tb-cell tb-does">
        <span className="label" role="status">
          {keptWords(state, props.shop)}
        </span>
        <span className="tb-choices">
          <button
            type="button"
            className="tb-choice"
            disabled={state.history.done.length === 0}
            onClick={props.onUndo}
          >
            Undo
          </button>
          <button
            type="button"
            className="tb-choice"
            disabled={state.history.undone.length === 0}
            onClick={props.onRedo}
          >
            Do again
          </button>
          <button
            type="button"
            className="tb-choice"
            aria-expanded={props.panel === "help"}
            onClick={props.onHelp}
          >
            Keys
          </button>
        </span>
      </div>
    </header>
  );
}

/** The log is the host's: where there is none there is no view for it. */
const hasHost = ({ host }: ShopState): boolean => host !== "none" && host !== "unknown";

function found(errors: number, warnings: number): string {
  const parts = [
    errors > 0 ? `${errors} ${errors === 1 ? "fault" : "faults"}` : "",
    warnings > 0 ? `${warnings} ${warnings === 1 ? "doubt" : "doubts"}` : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? "none" : parts.join(", ");
}

/** A bevel in section: the panel, its slope, and the length that it runs out to. */
function Mark() {
  return (
    <svg viewBox="0 0 44 30" width="44" height="30" aria-hidden="true" focusable="false">
      <path
        d="M1 12h17l15 10H1z"
        fill="none"
        stroke="currentColor"
        strokeWidth="1.4"
        strokeLinejoin="round"
      />
      <path
        d="M4 22l10-10M9 22l10-9.4M14 22l7.5-7M19 22l6-5.2M1 18.6L7.8 12M24.5 22l4-3.2"
        stroke="currentColor"
        strokeWidth="0.7"
      />
      <path
        d="M18 9V2M33 19V2M18 4.5h15M18 4.5l4-1.6v3.2zM33 4.5l-4-1.6v3.2z"
        fill="var(--accent)"
        stroke="var(--accent)"
        strokeWidth="0.9"
      />
    </svg>
  );
}
