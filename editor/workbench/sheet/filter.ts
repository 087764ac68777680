// Which rows the part filter and the search leave.
import type { Row } from "../../../core/view.ts";

export function filterRows(rows: readonly Row[], part: string, find: string): readonly Row[] {
  const wish = find.trim().toLowerCase();
  if (part === "" && wish === "") return rows;
  return rows.filter(
    (row) =>
      (part === "" || row.part === part || (row.keyword === "part" && row.title === part)) &&
      (wish === "" ||
        `${row.keyword} ${row.name ?? ""} ${row.rule} ${row.title} ${row.basis ?? ""} ${row.because ?? ""}`
          .toLowerCase()
          .includes(wish)),
  );
}
