// A value set between two arrows, as a length is on a drawing.
import "./parts.css";

export function DimensionLine(props: { readonly text: string; readonly quiet?: boolean }) {
  return (
    <span className={`dimension${props.quiet ? " is-quiet" : ""}`}>
      <i className="dimension-arm is-left" aria-hidden="true">
        <Arrow />
      </i>
      <span className="dimension-text">{props.text}</span>
      <i className="dimension-arm is-right" aria-hidden="true">
        <Arrow />
      </i>
    </span>
  );
}

const Arrow = () => (
  <svg viewBox="0 0 14 8" aria-hidden="true" focusable="false">
    <path d="M0 4L14 0.8V7.2z" />
  </svg>
);
