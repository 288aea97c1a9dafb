import { formatPercent, formatQuantity } from '../units/format.ts';
import { formatDuration } from '../units/format-duration.ts';
import type { RecordRun } from './job-record.ts';
import { windowDecimals } from './reading-decimals.ts';
import { REACH_WORDS } from './record-words.ts';

/** The numbers of a run written out: amps and volts with the digits that its supply showed. */
export interface RunNumbers {
  readonly amps: (value: number | null) => string;
  readonly volts: (value: number | null) => string;
  readonly reached: string;
  /** True when the supply held the current at its limit in any stage. */
  readonly wasLimited: boolean;
  readonly held: string;
  readonly share: string;
  readonly peak: string;
  readonly energy: string;
  readonly charge: string;
  readonly lasted: string;
}

/** Below this a run is written in milliamps: `19 mA`, not `0.019 A`. */
const MILLI_BELOW_A = 0.1;

/** Writes out the numbers of one run. Computed ones keep three digits. */
export function runNumbers({ report, window }: RecordRun): RunNumbers {
  const decimals = windowDecimals(window);
  const prefix = (report.peakA ?? 1) < MILLI_BELOW_A ? -3 : 0;
  const amps = (value: number | null) => formatQuantity(value, 'A', decimals.amps, { prefix });
  const { reach } = report;
  const wasLimited = report.stages.some((stage) => stage.stage === 'limited');
  const watts = formatQuantity(reach.heldW, 'W', null, { digits: 3 });
  return {
    amps,
    volts: (value) => formatQuantity(value, 'V', decimals.volts, { prefix: 0 }),
    reached: REACH_WORDS[reach.stage] + (wasLimited ? ', and the current limit' : ''),
    wasLimited,
    held: reach.heldW === null ? amps(reach.heldA) : `${amps(reach.heldA)} (${watts})`,
    share: formatPercent(reach.share),
    peak: amps(report.peakA),
    energy: formatQuantity(report.energyWh, 'Wh', null, { digits: 3 }),
    charge: formatQuantity(report.chargeAh, 'Ah', null, { digits: 3 }),
    lasted: formatDuration(report.durationS),
  };
}
