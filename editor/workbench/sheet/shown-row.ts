// The words that a row of the sheet shows: its rule on one line, its title, its condition in a layer.
import type { KindView, Row } from "../../../core/view.ts";

/** Whether an own row of a layer is a rule: not its head or a heading. */
export const isRule = (row: Row): boolean =>
  row.keyword !== "book" && row.keyword !== "part" && row.keyword !== "unreadable";

/** The rule as the sheet shows it, on one line. */
export function shownRule(row: Row): string {
  return row.rule.replace(/\s+/g, " ").trim();
}

/** Rows with the words of each kind as its rule, where the book gives it none on its first line. */
export function withWords(rows: readonly Row[], kinds: readonly KindView[]): readonly Row[] {
  const words = new Map(kinds.map((kind) => [kind.name, kind.words.map((one) => one.word).join(", ")]));
  return rows.map((row) =>
    row.keyword === "kind" && row.rule.trim() === ""
      ? { ...row, rule: words.get(row.name ?? "") ?? "" }
      : row,
  );
}

/** For a line of a layer that applies under a condition only: that condition, and what applies elsewhere. */
export const whenWords = ({ was }: Row): string | undefined =>
  was?.when === undefined ? undefined : `when ${was.when}; elsewhere as in ${was.layer}`;

/**
 * The line under the rule: a question or a title. The texts of steps, cautions and stops are their rules
 * already.
 */
export function shownTitle(row: Row): string {
  switch (row.keyword) {
    case "step":
    case "caution":
    case "stop":
    case "part":
      return "";
    case "book":
    case "kind":
    case "ask":
    case "dial":
    case "figure":
    case "formula":
    case "chart":
    case "list":
    case "promise":
    case "picture":
    case "worked":
    case "use":
    case "drop":
    case "unreadable":
      return row.title;
  }
}

/**
 * The rule as last accepted, where it has changed. In a layer the rule underneath is struck below the own
 * line already, and rows added to a chart leave its rule as it was.
 */
export function oldRuleOf(
  before: { readonly rules: Readonly<Record<string, string>> } | undefined,
  row: Row,
): string | undefined {
  const old = before?.rules[row.id];
  return row.own && row.was !== undefined && (old === row.was.rule || old === row.rule) ? undefined : old;
}
