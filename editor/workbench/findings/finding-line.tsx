// One finding in plain words, with its repair.
import type { Span } from "../../../core/span.ts";
import type { Finding } from "../../../core/view.ts";
import type { SourceLine } from "../sheet/layer-rows.ts";
import "./findings.css";

export function FindingLine(props: {
  readonly finding: Finding;
  readonly onRepair?: (finding: Finding) => void;
  /** The key that applies the repair, if this is the finding it would apply to. */
  readonly repairKey?: string;
  /**
   * In a book that stands on others: the line that a place is in, so that both sides of a conflict are read.
   */
  readonly lineAt?: (at: Span) => SourceLine;
}) {
  const { finding } = props;
  const repair = finding.repairs[0];
  return (
    <div className={`finding ${finding.weight}`}>
      <p className="finding-says">
        <span className="finding-weight">{weightWord(finding.weight)}: </span>
        {finding.says}
      </p>
      {finding.witness && <p className="finding-witness">For one: {finding.witness}</p>}
      {props.lineAt && finding.also.length > 0 && (
        <ul className="finding-also">
          {finding.also.map((one) => {
            const { layer, line, text } = props.lineAt!(one.at);
            return (
              <li key={`${layer} ${line} ${one.says}`}>
                <span>
                  {one.says}, line {line}
                </span>{" "}
                <code>{text}</code>
                <span className="out-of-sight"> of {layer}</span>
              </li>
            );
          })}
        </ul>
      )}
      {finding.code === "use/missing" && (
        <p className="finding-witness">
          Open its file under Books: it is then kept in this browser, and every book that stands on it finds
          it there.
        </p>
      )}
      {repair && props.onRepair && (
        <div className="finding-does">
          <button type="button" className="button finding-repair" onClick={() => props.onRepair?.(finding)}>
            {repair.says}
            {props.repairKey && <kbd>{props.repairKey}</kbd>}
          </button>
        </div>
      )}
    </div>
  );
}

function weightWord(weight: Finding["weight"]): string {
  switch (weight) {
    case "error":
      return "Fault";
    case "warning":
      return "Doubt";
    case "note":
      return "Note";
  }
}
