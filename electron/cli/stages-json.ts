import type { StageReport } from '../../core/stages/stage.ts';

/**
 * The stages of a file as one line of JSON with a fixed set of keys, times in seconds from the
 * first sample. Numbers keep nine digits: more is rounding noise of sums.
 */
export function stagesJson(report: StageReport): string {
  const { samples, durationS, reach, marks, stages, steps, energyWh, chargeAh, peakA } = report;
  const shown = {
    samples,
    durationS,
    reach: { stage: reach.stage, heldA: reach.heldA, share: reach.share },
    marks: marks.map(({ mark, atS }) => ({ mark, atS })),
    stages: stages.map(({ stage, startS, endS, meanA, confidence, reason }) => ({
      stage,
      startS,
      endS,
      meanA,
      confidence,
      reason,
    })),
    steps: steps.map(({ atS, fromA, toA }) => ({ atS, fromA, toA })),
    energyWh,
    chargeAh,
    peakA,
  };
  return `${JSON.stringify(shown, (_key, value) => (typeof value === 'number' ? tidy(value) : value))}\n`;
}

function tidy(value: number): number {
  return Number(value.toPrecision(9));
}
