import type {
  BenchState,
  LiveBatch,
  MeterState,
  SupplyState,
} from '../../core/contract/bench-calls.ts';
import type { Run } from '../../core/job/job.ts';
import { UNKNOWN_BOARD } from '../../core/stages/stage.ts';
import { createTracker, type Tracker } from '../../core/stages/tracker.ts';
import { TICKS_PER_SECOND, type TraceColumns } from '../../core/trace/sample.ts';
import { type FakeDraw, idleDraw } from './fake-draw.ts';

/** Seconds between two pretended readings. */
const EVERY_S = 0.05;

export const FAKE_SUPPLY: SupplyState = {
  link: 'live',
  address: { by: 'pretend' },
  identity: 'Invented,PRETEND SUPPLY,0001,1.0',
  trouble: null,
  outputOn: false,
  canSwitch: true,
  setV: 19,
  limitA: 1,
  maxV: 30,
  maxA: 5,
  volts: 0,
  amps: 0,
  regulation: 'off',
  voltsDecimals: 2,
  ampsDecimals: 3,
  pollHz: 20,
};

export const FAKE_METER: MeterState = {
  link: 'live',
  address: { by: 'pretend' },
  identity: 'Invented,PRETEND METER,0002,1.0',
  trouble: null,
  quantity: 'ohms',
  value: 1240,
  overload: false,
  decimals: 1,
  pollHz: 5,
};

export const FAKE_BENCH: BenchState = {
  supply: FAKE_SUPPLY,
  meter: FAKE_METER,
  pretend: {
    board: 'healthy',
    probeAt: null,
    clippedAt: null,
    partsReplaced: [],
    shelf: [
      {
        key: 'healthy',
        name: 'Larkspur L-300 main board',
        story: 'Wakes and runs.',
        statedInputV: 19,
        statedLimitA: 1,
        points: ['Input', 'Main rail', 'Core'],
        parts: ['C12', 'U3'],
      },
    ],
  },
  jobId: null,
  feed: { point: 'charger-input', cells: false, screen: true, drive: false, note: '' },
  run: null,
  watcherReady: true,
};

export interface FakeRun {
  readonly run: Run;
  readonly tracker: Tracker;
  readonly draw: FakeDraw;
  atS: number;
  all: TraceColumns[];
}

export function fakeRun(o: {
  jobId: string | null;
  kind: Run['kind'];
  draw?: FakeDraw;
  supply: SupplyState;
}): FakeRun {
  const { setV, limitA } = o.supply;
  return {
    run: {
      id: crypto.randomUUID(),
      jobId: o.jobId,
      kind: o.kind,
      startedAt: Date.now(),
      utcOffsetMin: 0,
      endedAt: null,
      end: null,
      feed: FAKE_BENCH.feed,
      setV,
      limitA,
      instrument: o.supply.identity,
      pretend: true,
      samples: 0,
      durationS: 0,
      reach: null,
      peakA: null,
      energyWh: null,
      role: null,
    },
    tracker: createTracker({ ...UNKNOWN_BOARD, setV, limitA, runningA: 0.62 }),
    draw: o.draw ?? idleDraw,
    atS: 0,
    all: [],
  };
}

/** Plays `seconds` more of a run and answers its new samples. */
export function play(fake: FakeRun, seconds: number, limitA: number): TraceColumns {
  const count = Math.max(1, Math.round(seconds / EVERY_S));
  const columns = {
    ticks: new Float64Array(count),
    volts: new Float64Array(count),
    amps: new Float64Array(count),
    regulation: new Uint8Array(count),
  };
  const isOn = fake.run.kind === 'powered';
  for (let i = 0; i < count; i += 1) {
    const { volts, amps } = fake.draw(fake.atS);
    const regulation = !isOn ? 3 : amps >= limitA * 0.99 ? 2 : 1;
    const tick = Math.round(fake.atS * TICKS_PER_SECOND);
    columns.ticks[i] = tick;
    columns.volts[i] = volts;
    columns.amps[i] = amps;
    columns.regulation[i] = regulation;
    fake.tracker.push({
      tick,
      volts,
      amps,
      regulation: ([null, 'cv', 'cc', 'off'] as const)[regulation] ?? null,
      outputOn: isOn,
    });
    fake.atS += EVERY_S;
  }
  fake.all.push(columns);
  return columns;
}

export function batchOf(fake: FakeRun, sequence: number, fresh: boolean, columns: TraceColumns) {
  return { sequence, runId: fake.run.id, fresh, ...columns } satisfies LiveBatch;
}
