import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields, report, runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';

const folder = tempFolder('hunts');
const file = path.join(folder, 'ledger.sqlite');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const open = () =>
  openLedgerInThread({
    path: file,
    now: () => {
      clock.ms += 1000;
      return clock.ms;
    },
  });
let ledger = await open();
const on = () => ledger.handlers;
beforeAll(() => on().saveBoard({ name: 'Tern 14', was: null, table: TERN_TABLE }));
afterAll(() => ledger.close());

const troubleOf = (call: Promise<unknown> | unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
  );

async function newHunt(rail = 'MAIN_8V6', boardModel: string | null = 'Tern 14') {
  const { id: jobId } = await on().createJob(jobFields({ boardModel }));
  const { hunt } = await on().beginHunt({ jobId, rail });
  return { jobId, huntId: hunt.id };
}

/** Two points read without current and at one ampere; the second lies at the short. */
async function readPoints(huntId: string) {
  const points: string[] = [];
  for (const [name, volts] of [
    ['C1', 0.06],
    ['C2', 0.05],
  ] as const) {
    const point = { name, alongMm: null, onPicture: null };
    const { hunt } = await on().addHuntPoint({ huntId, point });
    const pointId = hunt.points.at(-1)!.id;
    points.push(pointId);
    for (const [read, amps] of [
      [1e-5, 0],
      [volts, 1],
    ] as const) {
      await on().addHuntReading({ pointId, volts: read, decimals: 6, amps, source: 'meter' });
    }
  }
  return points;
}

describe('hunts in the ledger', () => {
  it('begin with the points where the board says that its rail is touched, under the board’s own name', async () => {
    const { jobId } = await newHunt('main_8v6');
    const [whole] = await on().listHunts({ jobId });
    expect(whole?.hunt).toMatchObject({ rail: 'MAIN_8V6', leadOhm: null, finding: null });
    expect(whole?.hunt.points.map(({ name }) => name)).toEqual(['MAIN_8V6']);
  });

  it('begin on a board that nobody entered, several to a job, and are told apart', async () => {
    const { jobId } = await newHunt('VBUS', null);
    await on().beginHunt({ jobId, rail: 'VSYS' });
    const rails = (await on().listHunts({ jobId })).map(({ hunt }) => hunt.rail);
    expect(rails).toEqual(['VBUS', 'VSYS']);
  });

  it('keep points, readings and conclusions, and all of it outlives the app', async () => {
    const { jobId, huntId } = await newHunt();
    await readPoints(huntId);
    const lead = { ohm: 0.06, from: 'measured' } as const;
    const ratings = [{ name: 'C7', standsV: 4 }];
    await on().changeHunt({ huntId, lead, meterSigmaV: 2e-6, mostA: 3, ratings });
    const concluded = await on().concludeHunt({ huntId });
    expect(concluded.found.gradient).toMatchObject({ verdict: 'nearest', nearest: ['C2'] });
    expect(concluded.hunt.finding).toMatchObject({ key: 'gradient:MAIN_8V6:nearest', unit: 'Ω' });
    const before = await on().listHunts({ jobId });
    await ledger.close();
    ledger = await open();
    expect(await on().listHunts({ jobId })).toEqual(before);
    // What was concluded is among what the job has seen.
    const { findings } = await on().likelyCauses({ jobId });
    expect(findings.map(({ key }) => key)).toContain('gradient:MAIN_8V6:nearest');
  });

  it('take points and readings back, and leave the others', async () => {
    const { jobId, huntId } = await newHunt();
    const [first = ''] = await readPoints(huntId);
    const point = { name: 'L1, board side', alongMm: 12.5, onPicture: null };
    await on().changeHuntPoint({ pointId: first, point });
    const [whole] = await on().listHunts({ jobId });
    const renamed = whole?.hunt.points.find(({ id }) => id === first);
    expect(renamed).toMatchObject({ name: 'L1, board side', alongMm: 12.5 });
    expect(renamed?.readings).toHaveLength(2);
    const gone = await on().forgetHuntReading({ readingId: renamed!.readings[1]!.id });
    expect(gone.hunt.points.find(({ id }) => id === first)?.readings).toHaveLength(1);
    const left = await on().removeHuntPoint({ pointId: first });
    expect(left.hunt.points.map(({ name }) => name)).toEqual(['MAIN_8V6', 'C2']);
    expect(left.hunt.points[1]?.readings).toHaveLength(2);
    await on().deleteHunt({ huntId });
    expect(await on().listHunts({ jobId })).toEqual([]);
  });

  it('refuse a point twice, a conclusion from nothing, and what is not there', async () => {
    const { huntId } = await newHunt();
    const point = { name: 'main_8v6', alongMm: null, onPicture: null };
    expect(await troubleOf(on().addHuntPoint({ huntId, point }))).toMatchObject({
      code: 'bad-input',
      what: 'main_8v6 is there already',
      where: 'hunt along MAIN_8V6',
    });
    expect(await troubleOf(on().concludeHunt({ huntId }))).toMatchObject({ code: 'bad-input' });
    const nobody = '01890000-0000-7000-8000-000000000000';
    for (const call of [
      () => on().changeHunt({ huntId: nobody }),
      () => on().removeHuntPoint({ pointId: nobody }),
      () => on().forgetHuntReading({ readingId: nobody }),
      () => on().beginHunt({ jobId: nobody, rail: 'X' }),
    ]) {
      expect(await troubleOf(call())).toMatchObject({ code: 'not-found' });
    }
  });

  it('plan from the board, its parts and the readings of the job', async () => {
    const { huntId } = await newHunt();
    await on().saveModelParts({
      boardModel: 'Tern 14',
      table: 'C44 47u 2.5V polymer on SYS_5V\nC45 22u 16V X5R 0805 on MAIN_8V6',
      knownFrom: 'schematic',
    });
    const plan = await on().planHunt({
      huntId,
      supply: { mostV: 30, mostA: 5 },
      cellAttached: false,
    });
    expect(plan.reach.map(({ name }) => name)).toContain('MAIN_8V6');
    // SYS_5V was not measured apart: what stands least on it sets the ceiling.
    expect(plan.plan).toMatchObject({ ok: true, startV: 0.5, ceilingV: 2.5, guard: { mostA: 5 } });
    expect(plan.plan.ok && plan.plan.ceilingBecause).toMatch(/^C44/);
    const closed = await on().planHunt({
      huntId,
      supply: { mostV: 30, mostA: 5 },
      cellAttached: null,
    });
    expect(closed.plan).toMatchObject({ ok: false, refusals: [{ why: 'cell-unknown' }] });
  });
});

describe('a run in which current was put in', () => {
  it('hangs on its hunt and its job, and is no wake-up for anybody who learns or compares', async () => {
    const { jobId, huntId } = await newHunt();
    const record = async (kind: 'powered' | 'injection') => {
      const run = await ledger.recorder.startRun(
        runStart({ jobId, kind, ...(kind === 'injection' ? { huntId } : {}) }),
      );
      await ledger.recorder.appendSupply({ runId: run.id, columns: samples(200) });
      await ledger.recorder.endRun({
        ...{ runId: run.id, endedAt: run.startedAt + 10_000, end: 'output-off' },
        ...{ report: report(), settings: runStart().settings },
      });
      return run.id;
    };
    const woke = await record('powered');
    const injected = await record('injection');
    const [whole] = await on().listHunts({ jobId });
    expect(whole?.hunt.runIds).toEqual([injected]);
    expect((await on().readJob({ id: jobId })).runs.map(({ kind }) => kind)).toEqual([
      'powered',
      'injection',
    ]);
    const compared = await on().runsToCompare({ jobId });
    expect(compared.map(({ run }) => run.id)).toEqual([woke]);
    // It draws exactly as the wake-up did, and yet nobody has "seen it before".
    const like = await on().likeRuns({ runId: woke, limit: 10 });
    expect(like.runs.map(({ run }) => run.id)).not.toContain(injected);
    // Marked as good, it teaches nothing: not a level, not a band.
    await on().changeRun({ id: injected, role: 'after' });
    await on().changeRun({ id: woke, role: 'before' });
    const { runningA } = await ledger.recorder.settingsFor({
      ...{ jobId, setV: 19, limitA: 1, feed: runStart().feed },
    });
    expect(runningA).toBe(0.9);
    const band = await on().bandFor({
      ...{ jobId, boardModel: null, feed: runStart().feed, feedV: 19, notRunId: null },
    });
    expect(band.bands).toEqual([]);
    const line = (await on().listJobs({ search: '', limit: 50 })).find(({ id }) => id === jobId);
    expect(line?.runs).toBe(1);
  });
});
