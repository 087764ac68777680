// All findings of a book: those of its statements, of its texts, and of its worked examples.
import type { Finding } from "../../core/view.ts";
import { attributeFindings } from "../language/check/attribute-findings.ts";
import type { CheckedBook, Entry } from "../language/check/book.ts";
import { faultyBooks } from "../language/check/faulty-books.ts";
import { toFinding } from "../language/check/findings/index.ts";
import type { Fault } from "../language/syntax/tree.ts";

/** Adds a fault to those of a statement. */
export function noteFault(faults: Map<string, Fault[]>, id: string, fault: Fault): void {
  faults.set(id, [...(faults.get(id) ?? []), fault]);
}

export interface CollectedFindings {
  readonly findings: readonly Finding[];
  readonly faults: ReadonlyMap<Entry, readonly Finding[]>;
  /** Findings at their own places, those of the books underneath too. */
  readonly raw: readonly Finding[];
}

/**
 * `late` are the faults that only evaluation finds. In a book that depends on others, the findings that those
 * have by themselves (`rawOf` their text) are left out, but their errors are named in one finding.
 */
export function collectFindings(
  checked: CheckedBook,
  late: ReadonlyMap<string, readonly Fault[]>,
  rawOf: (text: string) => readonly Finding[],
): CollectedFindings {
  const faults = new Map<Entry, readonly Finding[]>();
  const findings: Finding[] = checked.whole.map((fault) => toFinding(fault, undefined));
  for (const entry of checked.entries) {
    const all = [
      ...entry.checked.faults,
      ...entry.texts.faults,
      ...entry.above,
      ...(late.get(entry.id) ?? []),
    ];
    if (all.length === 0) continue;
    // One statement can have the same fault from a rule read twice; it is listed once.
    const seen = new Set<string>();
    const made = all
      .map((fault) => toFinding(fault, entry.piece))
      .filter((one) => {
        const key = `${one.code} ${one.at.start} ${one.at.end} ${one.says}`;
        if (seen.has(key)) return false;
        seen.add(key);
        return true;
      });
    faults.set(entry, made);
    findings.push(...made);
  }
  findings.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end);
  if (checked.composition === undefined) return { findings, faults, raw: findings };
  const known = checked.composition.direct.map(({ of, start }) => ({ start, of, raw: rawOf(of.text) }));
  const faulty = faultyBooks(checked, known);
  return {
    ...attributeFindings(checked, faults, findings, faulty, known),
    raw: [...findings, ...faulty.map((one) => one.finding)],
  };
}
