// Beside a chosen cell: what the rule is, why its value came out so, what it rests on and where it is used.
import type { ReactNode } from "react";
import type { Span } from "../../../core/span.ts";
import type { Finding, Row, TraceView } from "../../../core/view.ts";
import { withKeys } from "../unique-keys.ts";
import { FindingLine } from "../findings/finding-line.tsx";
import { WhyPanel } from "../../ui/parts/why-panel.tsx";
import { keywordMeans } from "../sheet/glyph.tsx";

export function RowPanel(props: {
  readonly row: Row;
  /** The book stands on another: where a row stands is said. */
  readonly layered: boolean;
  readonly job?: string;
  readonly trace: TraceView | undefined;
  readonly depth: TraceView["depth"];
  readonly onDepth: (depth: TraceView["depth"]) => void;
  readonly onGo: (id: string, at: Span) => void;
  readonly onHover: (id: string | undefined, at?: Span) => void;
  readonly lit?: string;
  readonly findings: readonly Finding[];
  readonly onRepair: (finding: Finding) => void;
  /** Rows by name, for the ways to what is used and what uses it. */
  readonly rowNamed: (name: string) => Row | undefined;
  readonly onChooseRow: (id: string) => void;
  readonly children?: ReactNode;
}) {
  const { row, trace } = props;
  return (
    <div className="why-side">
      <p className="why-side-row">
        <b>{row.name ?? row.keyword}</b>{" "}
        <span>
          {row.type === "" ? keywordMeans(row.keyword) : `${keywordMeans(row.keyword)}, ${row.type}`}
        </span>
      </p>
      {props.layered && (
        <p className="why-side-title">
          {row.own ? "Stands in this book, " : "Stands underneath, in "}
          {row.layer}
          {row.was &&
            ". " +
              (row.keyword === "drop"
                ? "It leaves out what stands"
                : row.keyword === "chart"
                  ? "It adds to what stands"
                  : "It takes the place of what stands") +
              ` in ${row.was.layer}` +
              `${row.was.when === undefined ? "" : ` when ${row.was.when}`}: ${row.was.rule}`}
        </p>
      )}
      {row.title !== "" && <p className="why-side-title">{row.title}</p>}
      {props.children}
      {trace && props.job !== undefined && (
        <>
          <p className="label why-side-job">for the job {props.job}</p>
          <WhyPanel
            trace={trace}
            depth={props.depth}
            onDepth={props.onDepth}
            onGo={props.onGo}
            onHover={props.onHover}
            lit={props.lit}
          />
        </>
      )}
      {!trace && row.because && <p>Because {row.because}</p>}
      {!trace && row.basis && <p className="why-side-title">Basis: {row.basis}</p>}
      {withKeys(props.findings, (one) => `${one.code} ${one.says}`).map(({ key, item: finding }) => (
        <FindingLine key={key} finding={finding} onRepair={props.onRepair} />
      ))}
      <Names
        heading="Used by"
        names={row.usedBy}
        none={row.name === undefined ? "" : "Nothing uses it."}
        {...props}
      />
      <Names heading="Uses" names={row.uses} none="" {...props} />
    </div>
  );
}

function Names(props: {
  readonly heading: string;
  readonly names: readonly string[];
  readonly none: string;
  readonly rowNamed: (name: string) => Row | undefined;
  readonly onChooseRow: (id: string) => void;
}) {
  if (props.names.length === 0 && props.none === "") return null;
  return (
    <section className="why-side-names">
      <h3 className="label">{props.heading}</h3>
      {props.names.length === 0 ? (
        <p>{props.none}</p>
      ) : (
        <ul>
          {props.names.map((name) => {
            const row = props.rowNamed(name);
            return (
              <li key={name}>
                {row ? (
                  <button type="button" className="name-chip" onClick={() => props.onChooseRow(row.id)}>
                    {row.name ?? (row.title || row.id)}
                  </button>
                ) : (
                  <span>{name}</span>
                )}
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}
