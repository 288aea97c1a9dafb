import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { classifyTrace } from '../../../core/stages/tracker.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { CHARGER_FEED, jobFields, runStart } from '../../support/ledger-samples.ts';
import { type Draw, runsFlatAt, stallsAt, supplyTrace, wakes } from '../../support/seed-draws.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('known');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({
  path: path.join(folder, 'ledger.sqlite'),
  now: () => clock.ms,
});
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;

async function record(
  jobId: string | null,
  draw: Draw,
  o: { setV?: number; feed?: typeof CHARGER_FEED; role?: 'before' | 'after'; instrument?: string },
) {
  const { setV = 19, feed = CHARGER_FEED, instrument = 'PRETEND,Supply,1,1' } = o;
  clock.ms += 60_000;
  const start = runStart({ jobId, startedAt: clock.ms, setV, feed, limitA: 3, instrument });
  const settings = await recorder.settingsFor(start);
  const run = await recorder.startRun({ ...start, settings });
  const columns = supplyTrace(draw, { seconds: 30, setV });
  await recorder.appendSupply({ runId: run.id, columns });
  const report = classifyTrace(columns, settings);
  clock.ms += 30_000;
  await recorder.endRun({
    runId: run.id,
    endedAt: clock.ms,
    end: 'output-off',
    report,
    settings,
  });
  if (o.role !== undefined) await handlers.changeRun({ id: run.id, role: o.role });
  return run.id;
}

const settingsOf = (jobId: string | null, o: { setV?: number; feed?: typeof CHARGER_FEED } = {}) =>
  recorder.settingsFor({ jobId, setV: o.setV ?? 19, limitA: 1, feed: o.feed ?? CHARGER_FEED });

describe('what the tracker is told of a board', () => {
  it('is nothing but the set-points for a board that was never seen', async () => {
    const job = await handlers.createJob(jobFields({ boardModel: null }));
    expect(await settingsOf(job.id)).toEqual({
      setV: 19,
      limitA: 1,
      runningA: null,
      runningV: 19,
      runsFlat: null,
      zeroFloorA: null,
      wakesWithinS: null,
    });
  });

  it('comes from the notes on the board as long as no good run is known', async () => {
    const board = { statedInputV: 12, statedLimitA: null, runningA: 0.8, runsFlat: false };
    const job = await handlers.createJob(jobFields({ boardModel: 'Plover', board }));
    expect(await settingsOf(job.id)).toMatchObject({
      runningA: 0.8,
      runningV: 12,
      runsFlat: false,
    });
    const next = await handlers.createJob(jobFields({ boardModel: ' plover ' }));
    expect(await settingsOf(next.id)).toMatchObject({ runningA: 0.8, runsFlat: false });
  });

  it('comes from earlier good runs of the same model with the same feed', async () => {
    const first = await handlers.createJob(jobFields({ boardModel: 'Heron 3' }));
    await record(first.id, stallsAt(0.26), { role: 'before' });
    await record(first.id, wakes(0.5), { role: 'after' });
    const next = await handlers.createJob(jobFields({ boardModel: 'heron 3' }));
    const told = await settingsOf(next.id);
    expect(told.runningA).toBeGreaterThan(0.45);
    expect(told.runningA).toBeLessThan(0.55);
    expect(told.runningV).toBeGreaterThan(18);
    expect(told.runsFlat).toBe(false);
    // The draw reaches its level 5 s after output on.
    expect(told.wakesWithinS).toBeGreaterThan(3);
    expect(told.wakesWithinS).toBeLessThan(8);

    const other = await settingsOf(next.id, { feed: { ...CHARGER_FEED, screen: true } });
    expect(other.runningA).toBeNull();
    const stranger = await handlers.createJob(jobFields({ boardModel: 'Heron 4' }));
    expect((await settingsOf(stranger.id)).runningA).toBeNull();
  });

  it('knows a board that runs flat', async () => {
    const board = { statedInputV: 24, statedLimitA: null, runningA: null, runsFlat: null };
    const job = await handlers.createJob(jobFields({ boardModel: 'Millrace C2', board }));
    await record(job.id, runsFlatAt(0.18), { setV: 24, role: 'after' });
    expect(await settingsOf(job.id, { setV: 24 })).toMatchObject({ runsFlat: true });
  });

  it('does not learn from a job that ended as not repaired, nor from one in the bin', async () => {
    const job = await handlers.createJob(jobFields({ boardModel: 'Avocet' }));
    await record(job.id, stallsAt(0.3), { role: 'after' });
    expect((await settingsOf(job.id)).runningA).not.toBeNull();
    const outcome = { verdict: 'not-repaired', cause: '', provedBy: '', misledBy: '' } as const;
    await handlers.closeJob({ id: job.id, outcome });
    const next = await handlers.createJob(jobFields({ boardModel: 'Avocet' }));
    expect((await settingsOf(next.id)).runningA).toBeNull();

    const gone = await handlers.createJob(jobFields({ boardModel: 'Dunlin' }));
    await record(gone.id, wakes(0.5), { role: 'after' });
    await handlers.binJob({ id: gone.id });
    const after = await handlers.createJob(jobFields({ boardModel: 'Dunlin' }));
    expect((await settingsOf(after.id)).runningA).toBeNull();
  });

  it('brings the zero of the supply in use, learned from its own stretches without draw', async () => {
    const offset: Draw = () => 0.004;
    for (let i = 0; i < 3; i += 1) await record(null, offset, { instrument: 'OTHER,Supply,2,1' });
    const told = await settingsOf(null);
    expect(told.zeroFloorA).toBeGreaterThan(0.003);
    expect(told.zeroFloorA).toBeLessThan(0.005);
    await record(null, runsFlatAt(0), {});
    const back = await settingsOf(null);
    expect(back.zeroFloorA).toBeLessThan(0.002);
  });
});
