/** What came of one table in a merge. */
export interface MergedTable {
  readonly table: string;
  /** Rows that only the other ledger had. */
  readonly added: number;
  /** Rows that both had and the other had newer. */
  readonly changed: number;
  /** Rows that both had unlike and this ledger kept. */
  readonly kept: number;
}

/** What a merge does, or did. */
export interface MergeReport {
  readonly tables: readonly MergedTable[];
  readonly jobsAdded: number;
  readonly jobsChanged: number;
  readonly runsAdded: number;
  readonly picturesAdded: number;
  /** Jobs that got another running number here, because theirs was given already. */
  readonly renumbered: readonly { readonly from: number; readonly to: number }[];
  /** The same thing entered twice under two ids, and rows that neither ledger has newer, in words. */
  readonly told: readonly string[];
}

/** Whether the merge changed, or would change, anything. */
export function changesSomething(report: MergeReport): boolean {
  return report.tables.some(({ added, changed }) => added + changed > 0);
}

/** A merge in one sentence. */
export function mergeWords(report: MergeReport): string {
  if (!changesSomething(report)) return 'Everything in it is here already: nothing changes.';
  const some = (count: number, one: string, many: string) =>
    count === 0 ? [] : [`${count.toLocaleString('en')} ${count === 1 ? one : many}`];
  const parts = [
    ...some(report.jobsAdded, 'new job', 'new jobs'),
    ...some(report.jobsChanged, 'job changed', 'jobs changed'),
    ...some(report.runsAdded, 'new run', 'new runs'),
    ...some(report.picturesAdded, 'new picture', 'new pictures'),
  ];
  const rows = report.tables.reduce((sum, { added, changed }) => sum + added + changed, 0);
  return `${parts.length === 0 ? 'No new job' : parts.join(', ')}; ${rows.toLocaleString('en')} rows in all.`;
}
