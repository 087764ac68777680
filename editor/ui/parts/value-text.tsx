// One value as a reader sees it: known, waiting, or impossible; and, after an edit, the old value struck
// beside the new one as on a revised drawing.
import type { Shown } from "../../../core/view.ts";
import "./parts.css";

export function ValueText(props: {
  readonly shown: Shown;
  /** The value before the edit; drawn struck through where it reads differently. */
  readonly before?: Shown;
}) {
  const { shown, before } = props;
  const changed = before !== undefined && (before.text !== shown.text || before.state !== shown.state);
  if (!changed) return <Plain shown={shown} />;
  return (
    <span className="value-changed">
      <del>
        <span className="out-of-sight">was </span>
        <Plain shown={before} />
      </del>
      <ins>
        <span className="out-of-sight">now </span>
        <Plain shown={shown} />
      </ins>
    </span>
  );
}

function Plain({ shown }: { readonly shown: Shown }) {
  switch (shown.state) {
    case "known":
      return <span className="value value-known">{shown.text}</span>;
    case "unknown":
      return <span className="value value-unknown">{shown.text}</span>;
    case "impossible":
      return (
        <span className="value value-impossible" title={shown.reason}>
          {shown.text}
        </span>
      );
  }
}
