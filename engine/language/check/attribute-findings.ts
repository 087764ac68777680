// Findings of a book that depends on others. What the others have by themselves is theirs; what arises only
// from putting them together is reported at the line of the own text that brings it about, with the place
// underneath beside it.
import type { Finding } from "../../../core/view.ts";
import { placed } from "../syntax/split.ts";
import type { CheckedBook, Entry } from "./book.ts";
import type { FaultyBook, KnownBook } from "./faulty-books.ts";

const key = (finding: Finding, by: number): string =>
  `${finding.code} ${finding.at.start + by} ${finding.at.end + by} ${finding.says}`;

export function attributeFindings(
  checked: CheckedBook,
  faults: ReadonlyMap<Entry, readonly Finding[]>,
  all: readonly Finding[],
  faulty: readonly FaultyBook[],
  known: readonly KnownBook[],
): { readonly findings: readonly Finding[]; readonly faults: Map<Entry, readonly Finding[]> } {
  const theirs = new Set(known.flatMap(({ start, raw }) => raw.map((finding) => key(finding, start))));
  const end = checked.text.length;
  const placedOnes = new Set([...faults.values()].flat());
  const made = new Map<Entry, readonly Finding[]>();
  const findings: Finding[] = all.filter((finding) => !placedOnes.has(finding));
  for (const [entry, mine] of faults) {
    const kept = mine.flatMap((finding): Finding[] => {
      if (finding.at.end <= end) return [finding];
      if (theirs.has(key(finding, 0))) return [];
      const cause = causeOf(checked, entry, finding.at);
      return [
        {
          ...finding,
          at: cause,
          says: `In ${entry.from?.layer ?? ""}: ${finding.says}`,
          also: [{ at: finding.at, says: `here in ${entry.from?.layer ?? ""}` }, ...finding.also],
          repairs: [],
        },
      ];
    });
    if (kept.length > 0) made.set(entry, kept);
    findings.push(...kept);
  }
  for (const { entry, finding } of faulty) {
    made.set(entry, [...(made.get(entry) ?? []), finding]);
    findings.push(finding);
  }
  return { findings: findings.sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end), faults: made };
}

/**
 * The nearest own statement that this one rests on, else one that drops what it names, else the line that
 * brings the book in.
 */
function causeOf(checked: CheckedBook, entry: Entry, where: Finding["at"]): Finding["at"] {
  const at = (one: Entry): Finding["at"] => {
    const local = one.statement.name?.at ?? one.statement.ruleAt ?? { start: 0, end: 4 };
    return {
      start: one.piece.lines === undefined ? one.piece.at.start + local.start : one.piece.at.start,
      end: one.piece.lines === undefined ? one.piece.at.start + local.end : one.piece.at.end,
    };
  };
  const seen = new Set<Entry>([entry]);
  const queue: Entry[] = [entry];
  const dropped = new Map(
    checked.entries.flatMap((one) =>
      one.from?.own && one.statement.body.keyword === "drop" && one.statement.body.target
        ? [
            [one.statement.body.target.text, one] as const,
            [`${one.statement.body.what} ${one.statement.body.target.text}`, one] as const,
          ]
        : [],
    ),
  );
  for (let one = queue.shift(); one !== undefined; one = queue.shift()) {
    if (one.from?.own && one !== entry) return at(one);
    for (const name of one === entry ? startsOf(entry, where) : one.statement.uses) {
      const drop = dropped.get(name);
      if (drop !== undefined && !checked.byName.has(name)) return at(drop);
      const next = checked.entries[checked.byName.get(name) ?? -1];
      if (next !== undefined && !seen.has(next)) {
        seen.add(next);
        queue.push(next);
      }
    }
  }
  const head =
    checked.entries.find((one) => one.statement.body.keyword === "book" && one.from?.own) ??
    checked.entries.find((one) => one.statement.body.keyword === "use" && one.from?.own);
  return head === undefined ? { start: 0, end: 0 } : at(head);
}

/** What a finding at this place is about: of a worked example, the one thing expected there. */
function startsOf({ piece, statement }: Entry, where: Finding["at"]): readonly string[] {
  if (statement.body.keyword !== "worked") return statement.uses;
  const expected = statement.body.gives.find((one) => placed(piece, one.at).start === where.start);
  if (expected === undefined || expected.is === "state") return statement.uses;
  return [expected.is === "line" ? `${expected.what} ${expected.name.text}` : expected.name.text];
}
