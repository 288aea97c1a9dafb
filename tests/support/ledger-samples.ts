import type { Feed, JobFields } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import type { RunStart } from '../../electron/ledger/recorder-calls.ts';

/** Fields of an invented job; say only what a test is about. */
export function jobFields(fields: Partial<JobFields> = {}): JobFields {
  return {
    boardModel: 'Heron 3',
    serialNumber: 'HR3-0042',
    customer: 'Quill & Daughter',
    symptom: 'Dead after a drop',
    liquid: 'no',
    matters: 'device',
    earlierRepairs: '',
    accessories: '',
    promised: '',
    board: { statedInputV: 19, statedLimitA: 1, runningA: null, runsFlat: null },
    template: 'does-not-turn-on',
    ...fields,
  };
}

export const CHARGER_FEED: Feed = {
  point: 'charger-input',
  cells: false,
  screen: false,
  drive: false,
  note: '',
};

/** What the bench knows when a run begins; say only what a test is about. */
export function runStart(start: Partial<RunStart> = {}): RunStart {
  return {
    jobId: null,
    kind: 'powered',
    startedAt: Date.UTC(2026, 0, 5, 9, 0, 0),
    utcOffsetMin: 60,
    feed: CHARGER_FEED,
    setV: 19,
    limitA: 1,
    instrument: 'PRETEND,Supply,1,1',
    pretend: true,
    settings: UNKNOWN_BOARD,
    ...start,
  };
}

/** `count` samples from `fromTick` on, 50 ms apart unless told, at one level. */
export function samples(
  count: number,
  o: { fromTick?: number; everyTicks?: number; amps?: (i: number) => number; volts?: number } = {},
): TraceColumns {
  const { fromTick = 0, everyTicks = 500, volts = 19 } = o;
  const amps = o.amps ?? ((i: number) => Math.round(200 + 50 * Math.sin(i / 20)) / 1000);
  return {
    ticks: Float64Array.from({ length: count }, (_, i) => fromTick + i * everyTicks),
    volts: new Float64Array(count).fill(volts),
    amps: Float64Array.from({ length: count }, (_, i) => amps(i)),
    regulation: new Uint8Array(count).fill(1),
  };
}

/** A report with one running stage; say only what a test is about. */
export function report(part: Partial<StageReport> = {}): StageReport {
  return {
    trackerVersion: 1,
    samples: 100,
    durationS: 5,
    reach: { stage: 'running', heldA: 0.4, heldW: 7.6, share: null },
    stages: [
      {
        stage: 'running',
        startS: 1,
        endS: 5,
        meanA: 0.4,
        meanV: 19,
        confidence: 0.9,
        reason: '0.400 A for 4.0 s.',
        periodS: null,
        final: true,
      },
    ],
    marks: [{ mark: 'output-on', atS: 0.5, text: 'Output on.' }],
    steps: [{ atS: 1, fromA: 0.02, toA: 0.4 }],
    energyWh: 0.01,
    chargeAh: 0.0005,
    peakA: 0.45,
    ...part,
  };
}
