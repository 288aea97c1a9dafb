import type { StageReport } from '../../core/stages/stage.ts';

/**
 * The stages of a file as one line of JSON with a fixed set of keys, times in seconds from the
 * first sample. Numbers keep nine digits: more is rounding noise of sums. `isDetailed` adds the rise
 * time, ripple and standard uncertainties where they are known; no other key moves.
 */
export function stagesJson(report: StageReport, isDetailed = false): string {
  const { samples, durationS, reach, marks, stages, steps, energyWh, chargeAh, peakA } = report;
  const shown = {
    samples,
    durationS,
    reach: { stage: reach.stage, heldA: reach.heldA, share: reach.share },
    marks: marks.map(({ mark, atS }) => ({ mark, atS })),
    stages: stages.map((one) => {
      const { stage, startS, endS, meanA, confidence, reason, plusMinusA, rippleA, periodS } = one;
      const more = isDetailed ? { plusMinusA, rippleA, periodS } : {};
      return { stage, startS, endS, meanA, confidence, reason, ...more };
    }),
    steps: steps.map(({ atS, fromA, toA, riseS, plusMinusA }) => ({
      atS,
      fromA,
      toA,
      ...(isDetailed ? { riseS, plusMinusA } : {}),
    })),
    energyWh,
    chargeAh,
    peakA,
  };
  return `${JSON.stringify(shown, (_key, value) => (typeof value === 'number' ? tidy(value) : value))}\n`;
}

function tidy(value: number): number {
  return Number(value.toPrecision(9));
}
