// Widths of the sheet's columns, on the screen and on paper.

export interface Columns {
  /** Name above rule and no basis; otherwise name, rule and basis beside each other. */
  readonly stacked: boolean;
  readonly name: number;
  readonly rule: number;
  readonly basis: number;
  readonly job: number;
}

/** Width in px of the column that adds a job. */
export const addColumn = 56;

/** Widths in px for a sheet so wide with so many jobs. */
export function columnsFor(width: number, jobs: number): Columns {
  if (width < 560)
    return { stacked: true, name: Math.max(156, Math.round(width * 0.46)), rule: 0, basis: 0, job: 104 };
  if (width < 800) return { stacked: true, name: Math.round(width * 0.42), rule: 0, basis: 0, job: 124 };
  const job = width < 1100 ? 118 : 128;
  const name = width < 1100 ? 186 : 228;
  const basis = width < 880 ? 0 : width < 1100 ? 86 : 116;
  const free = width - name - basis - Math.min(Math.max(jobs, 1), 4) * job - addColumn;
  return { stacked: false, name, rule: Math.max(230, Math.min(560, free)), basis, job };
}

/** Width in px of a printed page, in the narrower of A4 and Letter. */
export const paperWidth = 690;

/** On paper all jobs share what the names and rules leave. */
export function columnsForPaper(jobs: number): Columns {
  const name = jobs > 3 ? 230 : 290;
  return { stacked: true, name, rule: 0, basis: 0, job: Math.floor((paperWidth - name) / Math.max(jobs, 1)) };
}

/** The columns as a CSS grid template, without the column that adds a job. */
export function gridTemplate(columns: Columns, jobs: number): string {
  const jobColumns = `repeat(${jobs}, ${columns.job}px)`;
  if (columns.stacked) return `${columns.name}px ${jobColumns}`;
  const basis = columns.basis > 0 ? `${columns.basis}px ` : "";
  return `${columns.name}px ${columns.rule}px ${basis}${jobColumns}`;
}

/** Px to the left of the first job's column. */
export const leadWidth = (columns: Columns): number =>
  columns.stacked ? columns.name : columns.name + columns.rule + columns.basis;
