import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';

/** The moment that two runs are laid over each other at. */
export const ALIGNMENTS = ['output-on', 'wake-request'] as const;
export type Alignment = (typeof ALIGNMENTS)[number];

/**
 * How many ticks later the earlier run's moment is on this run's clock; null when one of them has
 * no such moment. A powered run begins at output on, marked or not.
 */
export function alignShift(
  here: StageReport | null,
  earlier: StageReport,
  at: Alignment,
): number | null {
  const hereS = here === null ? (at === 'output-on' ? 0 : null) : momentOf(here, at);
  const earlierS = momentOf(earlier, at);
  return hereS === null || earlierS === null
    ? null
    : Math.round((hereS - earlierS) * TICKS_PER_SECOND);
}

function momentOf(report: StageReport, at: Alignment): number | null {
  const mark = report.marks.find((one) => one.mark === at);
  return mark?.atS ?? (at === 'output-on' ? 0 : null);
}
