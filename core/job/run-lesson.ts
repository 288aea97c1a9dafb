import type { Stage, StageReport } from '../stages/stage.ts';
import type { TraceColumns } from '../trace/sample.ts';

/** Spread of a draw, as a share of its mean, under which it is flat. Common practice, no source. */
const FLAT_SHARE = 0.02;
const FEWEST_SAMPLES = 20;

/** The longest stretch that a run spent running; null when it never did. */
export function longestRunning(report: StageReport): Stage | null {
  const running = report.stages.filter((stage) => stage.stage === 'running');
  const longer = (a: Stage, b: Stage) => (b.endS - b.startS > a.endS - a.startS ? b : a);
  return running.length === 0 ? null : running.reduce(longer);
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
