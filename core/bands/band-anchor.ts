import { zeroOf } from '../match/compare-runs.ts';
import type { StageReport } from '../stages/stage.ts';

/** The moment that a run's time is counted from when it is laid beside good runs. */
export const ANCHORS = ['wake-request', 'output-on'] as const;
export type Anchor = (typeof ANCHORS)[number];

export const ANCHOR_WORDS: Readonly<Record<Anchor, string>> = {
  'wake-request': 'the wake request',
  'output-on': 'output on',
};

/** Seconds from the run's start to that moment; null when the run has none (see `zeroOf`). */
export function anchorS(report: StageReport, anchor: Anchor): number | null {
  return zeroOf(report, { by: anchor });
}

/** Seconds of the run at which the output went off after that moment; infinite while it is on. */
export function offAfterS(report: StageReport, startS: number): number {
  const off = report.marks.find(({ mark, atS }) => mark === 'output-off' && atS > startS);
  return off?.atS ?? Number.POSITIVE_INFINITY;
}
