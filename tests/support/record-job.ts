import type { ChecklistItem, Feed, Job, JobWhole, Part, Reading, Run } from '../../core/job/job.ts';
import type { Picture } from '../../core/pictures/picture.ts';
import { buildJobRecord, type RecordRun } from '../../core/record/job-record.ts';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import type { Mark, Stage, StageId, StageReport } from '../../core/stages/stage.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { windowOfSamples } from '../../core/trace/window-of-samples.ts';

/** 24 Nov 2025, 13:03 UTC. */
export const TAKEN_IN = Date.UTC(2025, 10, 24, 13, 3);
const MINUTE = 60_000;
const RATE_HZ = 20;

/** A level of the draw that lasts: the whole of an invented run is a list of these. */
export interface Level {
  readonly stage: StageId;
  readonly forS: number;
  readonly amps: number;
  readonly volts: number;
  readonly ripple?: number;
  readonly reason: string;
}

/** Readings of an invented run at 20 Hz, as a supply with 1 mA and 10 mV shows them. */
export function columnsOf(levels: readonly Level[]): TraceColumns {
  const amps: number[] = [];
  const volts: number[] = [];
  for (const level of levels) {
    for (let i = 0; i < level.forS * RATE_HZ; i += 1) {
      const wave = Math.sin(i * 1.7) + Math.sin(i * 0.63);
      amps.push(Math.round((level.amps + wave * (level.ripple ?? 0.001)) * 1000) / 1000);
      volts.push(Math.round((level.volts + Math.sin(i * 2.3) * 0.004) * 100) / 100);
    }
  }
  return {
    ticks: Float64Array.from(amps, (_, i) => Math.round((i * 10_000) / RATE_HZ)),
    amps: Float64Array.from(amps),
    volts: Float64Array.from(volts),
    regulation: new Uint8Array(amps.length).fill(1),
  };
}

/** An invented run: its trace reduced for print, and a report whose numbers come from that trace. */
export function inventRun(
  run: Partial<Run>,
  levels: readonly Level[],
  marks: readonly Mark[] = [],
): RecordRun {
  const columns = columnsOf(levels);
  const durationS = levels.reduce((sum, level) => sum + level.forS, 0);
  let startS = 0;
  const stages: Stage[] = levels.map((level) => {
    const from = Math.round(startS * RATE_HZ);
    const to = Math.round((startS + level.forS) * RATE_HZ);
    const stage: Stage = {
      stage: level.stage,
      startS,
      endS: startS + level.forS,
      meanA: mean(columns.amps.subarray(from, to)),
      meanV: mean(columns.volts.subarray(from, to)),
      confidence: 0.93,
      reason: level.reason,
      periodS: null,
      final: true,
    };
    startS += level.forS;
    return stage;
  });
  const peakA = columns.amps.length === 0 ? null : Math.max(...columns.amps);
  const heldA = stages.length === 0 ? null : Math.max(...stages.map((stage) => stage.meanA ?? 0));
  const energyWh =
    columns.amps.reduce((sum, a, i) => sum + a * columns.volts[i]!, 0) / RATE_HZ / 3600;
  const running = stages.some((stage) => stage.stage === 'running');
  const report: StageReport = {
    trackerVersion: 1,
    samples: columns.amps.length,
    durationS,
    reach: {
      stage: running ? 'running' : 'flat-low',
      heldA,
      heldW: heldA === null ? null : heldA * 19,
      share: heldA === null ? null : heldA / 1.25,
    },
    stages,
    marks,
    steps: [],
    energyWh,
    chargeAh: energyWh / 19,
    peakA,
  };
  return {
    run: { ...emptyRun, durationS, samples: report.samples, peakA, energyWh, ...run },
    report,
    window: windowOfSamples(columns, 0, Math.max(1, Math.round(durationS * 10_000)), 1200),
  };
}

function mean(values: Float64Array): number | null {
  return values.length === 0 ? null : values.reduce((sum, v) => sum + v, 0) / values.length;
}

const feed: Feed = { point: 'charger-input', cells: false, screen: false, drive: false, note: '' };

const emptyRun: Run = {
  id: 'run',
  jobId: 'job',
  kind: 'powered',
  startedAt: TAKEN_IN + 30 * MINUTE,
  utcOffsetMin: 60,
  endedAt: TAKEN_IN + 31 * MINUTE,
  end: 'output-off',
  feed,
  setV: 19,
  limitA: 1.5,
  instrument: 'Pretend supply, 60 V 10 A',
  pretend: true,
  samples: 0,
  durationS: 0,
  reach: null,
  peakA: null,
  energyWh: null,
  role: null,
};

/** Before repair: flat, its main rail pulled down. */
export const runBefore = (run: Partial<Run> = {}) =>
  inventRun(
    { id: 'before', role: 'before', ...run },
    [
      { stage: 'off', forS: 2, amps: 0, volts: 0, ripple: 0, reason: 'output off, 0.00 V' },
      {
        stage: 'flat-low',
        forS: 6,
        amps: 0.019,
        volts: 19,
        reason: '0.019 A ± 0.001 for 6 s: small and steady, nothing waking',
      },
      {
        stage: 'stalled',
        forS: 24,
        amps: 0.263,
        volts: 18.97,
        ripple: 0.002,
        reason:
          '0.263 A ± 0.002 for 24 s after one step from 0.019 A; the known-good runs of this board pass 0.40 A within 6 s',
      },
    ],
    [
      { mark: 'output-on', atS: 2, text: 'output on at 19 V, limit 1.5 A' },
      { mark: 'wake-request', atS: 7.5, text: 'button pressed' },
    ],
  );

/** After repair: climbs and runs. */
export const runAfter = (run: Partial<Run> = {}) =>
  inventRun(
    { id: 'after', role: 'after', startedAt: TAKEN_IN + 190 * MINUTE, ...run },
    [
      { stage: 'off', forS: 1.5, amps: 0, volts: 0, ripple: 0, reason: 'output off, 0.00 V' },
      { stage: 'flat-low', forS: 3, amps: 0.02, volts: 19, reason: '0.020 A ± 0.001 for 3 s' },
      {
        stage: 'stepping',
        forS: 1.2,
        amps: 0.26,
        volts: 18.97,
        reason: 'three steps up in 5.0 s: 0.020, 0.26, 0.52, 0.91 A',
      },
      { stage: 'stepping', forS: 1.6, amps: 0.52, volts: 18.95, reason: 'as above' },
      { stage: 'stepping', forS: 2.2, amps: 0.91, volts: 18.9, reason: 'as above' },
      {
        stage: 'running',
        forS: 46,
        amps: 1.21,
        volts: 18.87,
        ripple: 0.09,
        reason: '1.21 A ± 0.13 for 46 s, busy, at 97 % of this board’s running level of 1.25 A',
      },
    ],
    [
      { mark: 'output-on', atS: 1.5, text: 'output on at 19 V, limit 1.5 A' },
      { mark: 'inrush', atS: 1.55, text: '0.41 A for less than 0.1 s' },
      { mark: 'wake-request', atS: 4.4, text: 'button pressed' },
    ],
  );

export const reading = (fields: Partial<Reading>): Reading => ({
  id: `reading-${fields.place}-${fields.takenAt}-${fields.quantity}`,
  jobId: 'job',
  itemId: null,
  runId: null,
  quantity: 'volts',
  value: null,
  overload: false,
  decimals: 3,
  place: 'main rail',
  expectedLow: null,
  expectedHigh: null,
  source: 'meter',
  takenAt: TAKEN_IN + 20 * MINUTE,
  ...fields,
});

export const item = (fields: Partial<ChecklistItem>): ChecklistItem => ({
  id: `item-${fields.title}`,
  step: 'step',
  phase: 'Before power',
  title: 'Look for liquid, burns and cracked parts',
  needs: 'confirm',
  quantity: null,
  place: '',
  caution: null,
  gate: 'power',
  beforePower: true,
  doneBy: '',
  state: 'done',
  at: TAKEN_IN + 12 * MINUTE,
  reason: '',
  readings: [],
  ...fields,
});

const part = (fields: Partial<Part>): Part => ({
  id: 'part',
  jobId: 'job',
  action: 'lifted',
  designator: 'C214',
  kind: 'ceramic capacitor',
  value: '10 µF, 25 V',
  rail: 'main rail',
  stateFound: 'shorted: 0.31 Ω across it once lifted',
  from: '',
  at: TAKEN_IN + 120 * MINUTE,
  ...fields,
});

export const inventedJob: Job = {
  id: 'job',
  number: 42,
  state: 'closed',
  createdAt: TAKEN_IN,
  updatedAt: TAKEN_IN,
  comebackOf: { id: 'earlier', number: 17 },
  boardModel: 'Thistle T1 (invented)',
  serialNumber: 'TH1-000731',
  customer: 'Practice customer',
  symptom: 'Does not wake. Worked until yesterday; the charger lamp comes on and goes out again.',
  liquid: 'no',
  matters: 'data',
  earlierRepairs: 'Charging socket replaced two years ago, elsewhere.',
  accessories: 'Charger, sleeve',
  promised: 'A price before any part over 40; the data stays on it; ready on Friday.',
  board: { statedInputV: 19, statedLimitA: 3.5, runningA: 1.25, runsFlat: false },
  template: 'portable',
  outcome: {
    verdict: 'wakes',
    cause:
      'Shorted ceramic capacitor C214 on the main rail, behind the charger’s own current limit.',
    provedBy:
      'Main rail back to 8.60 V and 4.7 kΩ to ground once C214 was lifted; wakes from cold three times.',
    misledBy: 'The flat draw of 0.26 A looked like a processor that does not start.',
    closedAt: TAKEN_IN + 300 * MINUTE,
  },
};

export const inventedWhole: JobWhole = {
  job: inventedJob,
  items: [
    item({
      title: 'Unplug cells, coin cells too',
      caution:
        'Lithium cells: unplug before bench power and before the iron. Set swollen, dented or hot cells aside in a fire-safe place.',
    }),
    item({
      title: 'Look for liquid, burns, cracked or missing parts, earlier repair',
      reason: 'Socket reworked, clean.',
    }),
    item({
      title: 'Resistance to ground, main rail',
      needs: 'reading',
      quantity: 'ohms',
      place: 'main rail',
      readings: [
        reading({
          place: 'main rail',
          quantity: 'ohms',
          value: 1.31,
          decimals: 2,
          expectedLow: 2000,
          takenAt: TAKEN_IN + 15 * MINUTE,
        }),
      ],
    }),
    item({ title: 'Photograph both sides', state: 'skipped', reason: 'camera away for repair' }),
    item({
      phase: 'First power',
      title: 'Power at the stated input, limit low',
      needs: 'run',
      at: TAKEN_IN + 30 * MINUTE,
    }),
    item({
      phase: 'Finding the short',
      title: 'Inject on the main rail, 0.5 V',
      caution: 'Injected current: hot parts burn skin and boards. Hold to run, eyes on it.',
      at: TAKEN_IN + 70 * MINUTE,
    }),
    item({ phase: 'Proving', title: 'Wakes from cold three times', at: TAKEN_IN + 260 * MINUTE }),
    item({ phase: 'Proving', title: 'Soak', state: 'open', at: null }),
  ],
  readings: [
    reading({
      place: 'main rail',
      quantity: 'ohms',
      value: 1.31,
      decimals: 2,
      expectedLow: 2000,
      takenAt: TAKEN_IN + 15 * MINUTE,
    }),
    reading({
      place: 'main rail',
      value: 2.914,
      expectedLow: 8.4,
      expectedHigh: 8.8,
      takenAt: TAKEN_IN + 31 * MINUTE,
    }),
    reading({
      place: 'main rail',
      quantity: 'ohms',
      value: 4713,
      decimals: 0,
      expectedLow: 2000,
      takenAt: TAKEN_IN + 130 * MINUTE,
    }),
    reading({
      place: 'main rail',
      value: 8.604,
      expectedLow: 8.4,
      expectedHigh: 8.8,
      takenAt: TAKEN_IN + 192 * MINUTE,
    }),
    reading({
      place: 'input fuse, far side',
      quantity: 'diode',
      value: null,
      overload: true,
      decimals: 4,
      takenAt: TAKEN_IN + 16 * MINUTE,
    }),
    reading({
      place: '3.3 V always on',
      value: 3.302,
      expectedLow: 3.135,
      expectedHigh: 3.465,
      takenAt: TAKEN_IN + 193 * MINUTE,
    }),
    reading({
      place: 'charger sense',
      value: 0.0231,
      decimals: 4,
      takenAt: TAKEN_IN + 40 * MINUTE,
      source: 'typed',
    }),
  ],
  parts: [
    part({}),
    part({
      action: 'fitted',
      stateFound: '',
      from: 'new stock, measured 9.6 µF',
      at: TAKEN_IN + 125 * MINUTE,
    }),
  ],
  runs: [],
};

/** The record of the invented job, or of a changed one. */
export function inventedRecord(
  paper: Paper = 'A4',
  whole: JobWhole = inventedWhole,
  runs: readonly RecordRun[] = [runBefore(), runAfter()],
  more: Partial<Parameters<typeof buildJobRecord>[0]> = {},
): JobRecord {
  return buildJobRecord({
    whole,
    runs,
    printedAt: TAKEN_IN + 320 * MINUTE,
    utcOffsetMin: 60,
    paper,
    ...more,
  });
}

/** An invented picture; its file is up to who prints. */
export const picture = (fields: Partial<Picture>): Picture => ({
  id: '019b0000-0000-7000-8000-000000000001',
  jobId: 'job',
  boardModel: null,
  kind: 'thermal',
  caption: '',
  takenAt: TAKEN_IN + 72 * MINUTE,
  addedAt: TAKEN_IN + 73 * MINUTE,
  binnedAt: null,
  rail: 'main rail',
  partId: null,
  itemId: null,
  huntId: null,
  beforeId: null,
  hash: 'f'.repeat(64),
  type: 'image/jpeg',
  bytes: 1000,
  width: 640,
  height: 480,
  marks: [],
  ...fields,
});

/** The pictures of the invented job: hot before, cold after, and the part under the microscope. */
export const inventedPictures: readonly Picture[] = [
  picture({
    caption: 'Ten seconds at 0.5 V: one part glows, nothing else does.',
    marks: [
      { id: 'm1', kind: 'hot-spot', name: 'C214', x: 0.7, y: 0.4, temperatureC: 87.5 },
      { id: 'm2', kind: 'point', name: '', x: 0.2, y: 0.75, temperatureC: 24 },
    ],
  }),
  picture({
    id: '019b0000-0000-7000-8000-000000000002',
    caption: 'The same place with the new part, running.',
    takenAt: TAKEN_IN + 200 * MINUTE,
    beforeId: '019b0000-0000-7000-8000-000000000001',
    marks: [{ id: 'm3', kind: 'point', name: 'C214', x: 0.7, y: 0.4, temperatureC: 31 }],
  }),
  picture({
    id: '019b0000-0000-7000-8000-000000000003',
    kind: 'microscope',
    caption: 'A crack from edge to edge.',
    rail: '',
    partId: 'part',
    width: 480,
    height: 640,
    takenAt: TAKEN_IN + 121 * MINUTE,
  }),
];
