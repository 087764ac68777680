// One finding in plain words, with its repair.
import type { Finding } from "../../../core/view.ts";
import "./findings.css";

export function FindingLine(props: {
  readonly finding: Finding;
  readonly onRepair?: (finding: Finding) => void;
  /** The key that applies the repair, if this is the finding it would apply to. */
  readonly repairKey?: string;
}) {
  const { finding } = props;
  const repair = finding.repairs[0];
  return (
    <div className={`finding ${finding.weight}`}>
      <p className="finding-says"><span className="finding-weight">{weightWord(finding.weight)}: </span>{finding.says}</p>
      {finding.witness && <p className="finding-witness">For one: {finding.witness}</p>}
      {repair && props.onRepair && (
        <div className="finding-does">
          <button type="button" className="button finding-repair" onClick={() => props.onRepair?.(finding)}>
            {repair.says}{props.repairKey && <kbd>{props.repairKey}</kbd>}
          </button>
        </div>
      )}
    </div>
  );
}

export function weightWord(weight: Finding["weight"]): string {
  switch (weight) {
    case "error": return "Fault";
    case "warning": return "Doubt";
    case "note": return "Note";
  }
}
