// The panel beside the sheet: one thing at a time, with its heading and a way out.
import type { ReactNode } from "react";
import "./side-panel.css";

export function SidePanel(props: {
  readonly heading: string;
  readonly wide?: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
}) {
  return (
    <aside className={`side${props.wide ? " is-wide" : ""}`} aria-label={props.heading}>
      <header className="side-head">
        <h2>{props.heading}</h2>
        <button
          type="button"
          className="button bare side-close"
          onClick={props.onClose}
          aria-label={`Close ${props.heading}`}
        >
          <svg viewBox="0 0 12 12" width="14" height="14" aria-hidden="true">
            <path d="M1 1l10 10M11 1L1 11" stroke="currentColor" strokeWidth="1.4" />
          </svg>
        </button>
      </header>
      {/* Scrolled by keys as well. */}
      <div className="side-body" tabIndex={0} role="group" aria-label={props.heading}>
        {props.children}
      </div>
    </aside>
  );
}
