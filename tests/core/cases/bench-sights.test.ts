import { describe, expect, it } from 'vitest';
import { findingsOfJob } from '../../../core/cases/findings-of-job.ts';
import { likelyCauses } from '../../../core/evidence/likely-causes.ts';
import { STARTER_TABLE } from '../../../core/evidence/starter-table.ts';
import type { Job, Reading, Run } from '../../../core/job/job.ts';
import type { Stage, StageReport } from '../../../core/stages/stage.ts';
import { CHARGER_FEED, jobFields, report } from '../../support/ledger-samples.ts';

// Worked jobs of the trade (common practice, no source) in which the bench is to blame, or is not.

const STARTED = 1_000_000;
const stage = (name: Stage['stage'], meanA: number, meanV: number): Stage => ({
  stage: name,
  startS: 1,
  endS: 20,
  meanA,
  meanV,
  confidence: 0.9,
  reason: '',
  periodS: null,
  final: true,
});
const run = (more: Partial<Run> = {}): Run => ({
  id: 'run',
  jobId: 'job',
  kind: 'powered',
  startedAt: STARTED,
  utcOffsetMin: 0,
  endedAt: STARTED + 20_000,
  end: 'output-off',
  feed: CHARGER_FEED,
  setV: 19,
  limitA: 3,
  instrument: '',
  pretend: true,
  samples: 400,
  durationS: 20,
  reach: null,
  peakA: null,
  energyWh: null,
  role: null,
  ...more,
});
let serial = 0;
const reading = (place: string, value: number, more: Partial<Reading> = {}): Reading => {
  serial += 1;
  return {
    id: `reading-${serial}`,
    jobId: 'job',
    itemId: null,
    runId: null,
    quantity: 'volts',
    value,
    overload: false,
    decimals: 3,
    place,
    expectedLow: null,
    expectedHigh: null,
    source: 'meter',
    takenAt: STARTED + 10_000 + serial,
    ...more,
  };
};

interface Worked {
  readonly stages: readonly Stage[];
  readonly peakA?: number | null;
  readonly run?: Partial<Run>;
  readonly report?: Partial<StageReport>;
  readonly readings?: readonly Reading[];
  readonly job?: Partial<Job>;
}

function work({ stages, peakA = null, ...o }: Worked) {
  const job: Job = {
    ...jobFields({ liquid: 'unknown' }),
    board: { statedInputV: 19, statedLimitA: 3, runningA: null, runsFlat: null },
    id: 'job',
    number: 1,
    state: 'open',
    createdAt: 1,
    updatedAt: 1,
    comebackOf: null,
    outcome: null,
    ...o.job,
  };
  const held = Math.max(...stages.map(({ meanA }) => meanA ?? 0));
  const seen: StageReport = {
    ...report(),
    stages,
    marks: [],
    peakA,
    reach: { stage: 'stepping', heldA: held, heldW: null, share: null },
    ...o.report,
  };
  const whole = { job, items: [], readings: o.readings ?? [], parts: [], runs: [run(o.run)] };
  const findings = findingsOfJob(whole, [{ run: run(o.run), report: seen }], []);
  const found = likelyCauses(STARTER_TABLE, [], findings, null);
  return {
    keys: findings.map(({ key }) => key),
    claims: findings.map(({ claim }) => claim).join(' '),
    first: found.causes[0]?.cause.key,
    found,
  };
}

describe('a limit below the need', () => {
  it('is to blame where the draw came up to it, by the stated limit or by the running draw', () => {
    const cycling = work({
      stages: [stage('cycling', 0.4, 17)],
      peakA: 0.5,
      run: { limitA: 0.5 },
    });
    expect(cycling.keys).toContain('limit:too-low');
    expect(cycling.first).toBe('bench:limit');
    const byRunning = work({
      stages: [stage('limited', 0.5, 12)],
      peakA: 0.5,
      run: { limitA: 0.5 },
      job: { board: { statedInputV: 19, statedLimitA: null, runningA: 0.9, runsFlat: null } },
    });
    expect(byRunning.keys).toEqual(
      expect.arrayContaining(['limit:too-low', 'board-volts:held-down']),
    );
    expect(byRunning.first).toBe('bench:limit');
    expect(byRunning.claims).toMatch(/it runs at/);
  });

  it('is not where the draw never came near it: a low limit is how first power is done', () => {
    const stalled = work({
      stages: [stage('stalled', 0.26, 19)],
      peakA: 0.27,
      run: { limitA: 1 },
    });
    expect(stalled.keys).toContain('limit:enough');
    expect(stalled.claims).toMatch(/never came up to it/);
    expect(stalled.first).not.toBe('bench:limit');
  });

  it('does not hide a short: enough of a limit, and the supply is held down by the board', () => {
    const short = work({
      stages: [stage('limited', 3, 2.5)],
      peakA: 3,
      readings: [
        reading('Main rail', 0.1, { expectedLow: 8.2, expectedHigh: 9 }),
        reading('Main rail', 0.3, {
          quantity: 'ohms',
          expectedLow: 1000,
          takenAt: STARTED - 5,
        }),
      ],
    });
    expect(short.keys).toContain('limit:enough');
    expect(short.found.causes.slice(0, 2).map(({ cause }) => cause.isBench)).toEqual([
      false,
      false,
    ]);
  });
});

describe('volts that do not arrive', () => {
  // 0.14 ohm of leads at 10 A is 1.4 V (check value of the trade, Ohm's law).
  it('are lost in the leads: said in ohms', () => {
    const leads = work({
      stages: [stage('cycling', 10, 12)],
      peakA: 10.2,
      run: { setV: 12, limitA: 15 },
      job: { board: { statedInputV: 12, statedLimitA: 15, runningA: null, runsFlat: null } },
      readings: [reading('Board input', 10.6)],
    });
    expect(leads.keys).toContain('board-volts:dropped');
    expect(leads.claims).toMatch(/0\.14\sΩ of leads at 10\.0\sA/);
    expect(leads.first).toBe('bench:leads');
  });

  it('are none at all: another channel or an open lead, not a dead board', () => {
    const channel = work({
      stages: [stage('no-draw', 0, 19)],
      peakA: 0,
      readings: [reading('Board input', 0.004)],
    });
    expect(channel.keys).toContain('board-volts:none');
    expect(channel.first).toBe('bench:channel');
  });

  it('are about a diode: reversed leads, by the supply alone or by the meter', () => {
    const supply = work({ stages: [stage('limited', 1, 0.7)], peakA: 1, run: { limitA: 1 } });
    expect(supply.keys).toContain('board-volts:about-a-diode');
    expect(supply.first).toBe('bench:reversed');
    const meter = work({
      stages: [stage('limited', 1, 0.9)],
      run: { limitA: 1 },
      readings: [reading('Board input', -0.68)],
    });
    expect(meter.claims).toMatch(/the wrong way round/);
    expect(meter.first).toBe('bench:reversed');
  });

  it('all arrive: the bench is out of it, and the next thing is the board', () => {
    const board = work({
      stages: [stage('stalled', 0.26, 19)],
      peakA: 0.3,
      readings: [
        reading('Board input', 18.98),
        reading('Main rail', 2.7, { expectedLow: 8.2, expectedHigh: 9 }),
      ],
      report: { marks: [{ mark: 'wake-request', atS: 1, text: '' }] },
    });
    expect(board.keys).toEqual(
      expect.arrayContaining([
        'board-volts:as-set',
        'meter:agrees',
        'feed:as-stated',
        'wake:asked',
      ]),
    );
    expect(board.found.causes.slice(0, 3).every(({ cause }) => !cause.isBench)).toBe(true);
  });
});

describe('the rest of the bench', () => {
  it('has a meter in the wrong function when nothing reads anything on a board that draws', () => {
    const meter = work({
      stages: [stage('running', 0.5, 19)],
      peakA: 0.6,
      readings: [
        reading('Board input', 0.001),
        reading('Main rail', 0.002, { expectedLow: 8.2, expectedHigh: 9 }),
        reading('Processor core', 0, { expectedLow: 0.9, expectedHigh: 1.2 }),
      ],
    });
    expect(meter.keys).toContain('meter:contradicts');
    expect(meter.first).toBe('bench:meter');
    expect(meter.found.summary).toMatch(/meter/);
  });

  it('is fed with other volts than the board states', () => {
    const feed = work({
      stages: [stage('no-draw', 0.001, 12)],
      peakA: 0.001,
      run: { setV: 12 },
      readings: [reading('Board input', 12)],
    });
    expect(feed.keys).toContain('feed:other');
    expect(feed.first).toBe('bench:feed');
  });

  it('tells that the guard switched off', () => {
    const guard = work({
      stages: [stage('stepping', 2, 19)],
      peakA: 4,
      run: { end: 'guard' },
      report: { marks: [{ mark: 'guard-trip', atS: 3, text: 'more than 3.5 A' }] },
    });
    expect(guard.keys).toContain('supply-off:tripped');
    expect(guard.claims).toContain('more than 3.5 A');
  });
});

describe('a flat draw', () => {
  it('that the habit calls a dead processor is overturned by the main rail’s reading', () => {
    const flat = { stages: [stage('stalled', 0.26, 19)], peakA: 0.27 };
    const shop = Array.from({ length: 12 }, (_, i) => ({
      jobId: `j${i}`,
      boardModel: null,
      cause: 'logic:processor',
      proof: 'proved' as const,
      sights: [{ question: 'draw', outcome: 'stalled' }],
      closedAt: i,
    }));
    const weigh = (readings: readonly Reading[]) => {
      const whole = { ...flat, readings };
      const findings = findingsOfJob(
        {
          job: {
            ...jobFields({ liquid: 'unknown' }),
            id: 'job',
            number: 1,
            state: 'open',
            createdAt: 1,
            updatedAt: 1,
            comebackOf: null,
            outcome: null,
          },
          items: [],
          readings: [...readings],
          parts: [],
          runs: [run()],
        },
        [{ run: run(), report: { ...report(), ...whole, marks: [] } }],
        [],
      );
      return likelyCauses(STARTER_TABLE, shop, findings, null);
    };
    const habit = weigh([]);
    expect(habit.causes[0]?.cause.key).toBe('logic:processor');
    expect(habit.standing).not.toBe('strong');
    const read = weigh([
      reading('Main rail', 2.7, { expectedLow: 8.2, expectedHigh: 9 }),
      reading('Main rail', 0.3, { quantity: 'ohms', expectedLow: 1000 }),
    ]);
    expect(read.causes[0]?.cause.key).toBe('short:main');
    const at = read.causes.findIndex(({ cause }) => cause.key === 'logic:processor');
    expect(read.causes[at]?.probability).toBeLessThan(0.1);
  });
});
