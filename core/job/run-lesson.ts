import type { Stage, StageReport } from '../stages/stage.ts';
import type { TraceColumns } from '../trace/sample.ts';

/** Spread of a draw, as a share of its mean, under which it is flat. Common practice, no source. */
const FLAT_SHARE = 0.02;
const FEWEST_SAMPLES = 20;

/** How close to the level held a stretch must lie to be the one that held it. */
const SAME_LEVEL = 0.1;

/**
 * The stretch that shows at what level a board ran: the longest that was called running, else the
 * longest at the level that the run held (a board that was not known yet cannot be called running).
 * Null when there is none.
 */
export function levelStretch(report: StageReport): Stage | null {
  const { heldA } = report.reach;
  const isHeld = ({ meanA }: Stage) =>
    heldA !== null && meanA !== null && Math.abs(meanA - heldA) <= SAME_LEVEL * heldA;
  const running = report.stages.filter((stage) => stage.stage === 'running');
  const candidates = running.length > 0 ? running : report.stages.filter(isHeld);
  const longer = (a: Stage, b: Stage) => (b.endS - b.startS > a.endS - a.startS ? b : a);
  return candidates.length === 0 ? null : candidates.reduce(longer);
}

/**
 * Seconds from the output's going on, or from the wake request after it, to the first running
 * stage; null when the run never reached running or nothing says when it was asked to wake.
 */
export function wokeAfterS(report: StageReport): number | null {
  const running = report.stages.find((stage) => stage.stage === 'running');
  if (running === undefined) return null;
  const asked = report.marks
    .filter((mark) => mark.mark === 'wake-request' || mark.mark === 'output-on')
    .filter((mark) => mark.atS <= running.startS)
    .map((mark) => mark.atS);
  return asked.length === 0 ? null : running.startS - Math.max(...asked);
}

/** Whether a running draw is flat: its spread within a fiftieth of its mean. Null = too few samples. */
export function isFlatDraw(samples: TraceColumns): boolean | null {
  const amps = samples.amps.filter((a) => Number.isFinite(a));
  if (amps.length < FEWEST_SAMPLES) return null;
  const mean = amps.reduce((sum, a) => sum + a, 0) / amps.length;
  const variance = amps.reduce((sum, a) => sum + (a - mean) ** 2, 0) / amps.length;
  return Math.sqrt(variance) <= FLAT_SHARE * Math.abs(mean);
}

/** A running stretch shorter than this may be a sample on its way somewhere else. */
const RAN_FOR_S = 3;

/**
 * Whether a run shows its board at work: it ran for three seconds on end and never lay at the
 * supply's limit for longer than that, where the level is the supply's and not the board's.
 * Common practice, no source.
 */
export function hasRun(report: StageReport): boolean {
  const longest = (id: 'running' | 'limited') =>
    Math.max(
      0,
      ...report.stages.filter(({ stage }) => stage === id).map(({ startS, endS }) => endS - startS),
    );
  return longest('running') >= RAN_FOR_S && longest('limited') < longest('running');
}
