import type { StageReport } from '../stages/stage.ts';

/** The moment that a run's time is counted from when it is laid beside others. */
export const ANCHORS = ['wake-request', 'output-on'] as const;
export type Anchor = (typeof ANCHORS)[number];

export const ANCHOR_WORDS: Readonly<Record<Anchor, string>> = {
  'wake-request': 'the wake request',
  'output-on': 'output on',
};

/**
 * Seconds from the run's start to that moment: the last wake request before the board ran (the
 * last of all while it does not run), or output on, which is the run's own start when it is not
 * marked. Null when the run has no such moment.
 */
export function anchorS(report: StageReport, anchor: Anchor): number | null {
  const running = report.stages.find((stage) => stage.stage === 'running');
  const at = report.marks.filter((mark) => mark.mark === anchor).map((mark) => mark.atS);
  if (anchor === 'output-on') return at[0] ?? 0;
  const before = running === undefined ? at : at.filter((atS) => atS <= running.startS);
  return before.at(-1) ?? at[0] ?? null;
}
