import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { classifyTrace } from '../../../core/stages/tracker.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { CHARGER_FEED, jobFields, runStart } from '../../support/ledger-samples.ts';
import { openBare } from '../../support/ledger-schema.ts';
import { type Draw, stallsAt, supplyTrace, wakes } from '../../support/seed-draws.ts';
import { openSeededLedger } from '../../support/seed-ledger.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('match');
const file = path.join(folder, 'ledger.sqlite');
const { ledger, seeded, clock } = await openSeededLedger(file);
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;

async function record(jobId: string | null, draw: Draw, part: Parameters<typeof runStart>[0] = {}) {
  const start = runStart({ jobId, setV: 19, limitA: 3, startedAt: clock.ms, ...part });
  const run = await recorder.startRun(start);
  const columns = supplyTrace(draw, { seconds: 40, setV: start.setV ?? 19 });
  await recorder.appendSupply({ runId: run.id, columns });
  clock.ms += 60_000;
  const report = classifyTrace(columns, start.settings);
  const { settings } = start;
  return recorder.endRun({ runId: run.id, endedAt: clock.ms, end: 'output-off', report, settings });
}
const askBand = (part: object = {}) =>
  handlers.bandFor({
    jobId: seeded.jobs.repaired,
    boardModel: null,
    feed: CHARGER_FEED,
    feedV: 19,
    notRunId: null,
    ...part,
  });
const next = await handlers.createJob(jobFields({ serialNumber: 'HR3-0200' }));
const stalled = await record(next.id, stallsAt(0.25));

describe('likeRuns', () => {
  it('finds the earlier run that drew like this one, with how its job ended', async () => {
    const found = await handlers.likeRuns({ runId: stalled.id, limit: 3 });
    expect(found.why).toBeNull();
    expect(found.runs[0]).toMatchObject({
      run: { id: seeded.runs.before },
      jobNumber: 1,
      unlikeFeed: null,
      outcome: { verdict: 'wakes', cause: 'C3107 shorted on the main rail' },
    });
    expect(found.runs[0]!.likeness).toMatch(/same curve|much alike/);
    expect(found.runs.map(({ distance }) => distance)).toEqual(
      found.runs.map(({ distance }) => distance).sort((a, b) => a - b),
    );
    expect(found.runs.map(({ run }) => run.id)).not.toContain(stalled.id);
  });

  it('says where a run was fed otherwise instead of passing it off as alike', async () => {
    const cells = { ...CHARGER_FEED, point: 'battery-line', cells: true } as const;
    const other = await record(next.id, stallsAt(0.25), { feed: cells });
    const found = await handlers.likeRuns({ runId: stalled.id, limit: 5 });
    const like = found.runs.find(({ run }) => run.id === other.id)!;
    expect(like.distance).toBeLessThan(0.3);
    expect(like.unlikeFeed).toBe('fed at the battery line, not the charger input, with cells');
    expect(like.outcome).toBeNull();
  });

  it('keeps a signature of each run; older runs get theirs the first time that somebody asks', async () => {
    const old = path.join(folder, 'old.sqlite');
    const before = await openSeededLedger(old);
    await before.ledger.close();
    const sqlite = openBare(old);
    const count = (sql: string) => sqlite.prepare<[], number>(sql).pluck().get();
    const powered = count("select count(*) from runs where kind = 'powered'");
    expect(count('select count(*) from signatures where shape is not null')).toBe(powered);
    expect(count('select max(length(shape)) from signatures')).toBe(64 * 4);
    sqlite.exec('delete from signatures');
    sqlite.close();
    const again = await openLedgerInThread({ path: old });
    const { runs } = await again.handlers.likeRuns({ runId: before.seeded.runs.before, limit: 5 });
    expect(runs.map(({ run }) => run.id)).toContain(before.seeded.runs.after);
    await again.close();
  });

  it('leaves out runs of jobs in the bin', async () => {
    await handlers.binJob({ id: seeded.jobs.repaired });
    const found = await handlers.likeRuns({ runId: stalled.id, limit: 10 });
    expect(found.runs.map(({ run }) => run.id)).not.toContain(seeded.runs.before);
    await handlers.restoreJob({ id: seeded.jobs.repaired });
  });

  it('says why there is nothing to show for a run without draw', async () => {
    const empty = await recorder.startRun(runStart({ startedAt: clock.ms }));
    const found = await handlers.likeRuns({ runId: empty.id, limit: 5 });
    expect(found).toMatchObject({ runs: [], why: expect.stringContaining('no draw') });
  });
});

describe('bandFor', () => {
  it('bands the one good run of a model, and says how little that is', async () => {
    const { bands, why } = await askBand();
    expect(why).toBeNull();
    expect(bands[0]).toMatchObject({ anchor: 'output-on', quantity: 'amps', runs: 1 });
    expect(bands[0]!.basis).toContain('One good run only');
    expect(bands[0]!.variants[0]!.runIds).toEqual([seeded.runs.after]);
  });

  it('finds the model by name, leaves out the run that is judged, and says when none is left', async () => {
    const byName = await askBand({ jobId: null, boardModel: 'HERON  3' });
    expect(byName.bands).toHaveLength(1);
    const none = await askBand({ notRunId: seeded.runs.after });
    expect(none).toMatchObject({ bands: [], why: expect.stringContaining('No good run') });
    const unknown = await askBand({ jobId: seeded.jobs.liquid });
    expect(unknown.why).toContain('board model is not known');
    const fedElsewhere = await askBand({ feed: { ...CHARGER_FEED, screen: true } });
    expect(fedElsewhere.why).toContain('fed like this one');
  });

  it('narrows as good runs are added', async () => {
    const widthAt = async () => {
      const { low, high } = (await askBand()).bands[0]!.variants[0]!;
      return high[15]! - low[15]!;
    };
    const before = await widthAt();
    for (let i = 0; i < 3; i += 1) {
      const good = await record(seeded.jobs.repaired, wakes(0.5));
      await handlers.changeRun({ id: good.id, role: 'after' });
    }
    expect((await askBand()).bands[0]!.runs).toBe(4);
    expect(await widthAt()).toBeLessThan(before);
  });
});

describe('stageEvidence', () => {
  it('opens a stall into its level, its thresholds and the good runs behind them', async () => {
    const settings = await recorder.settingsFor({
      jobId: next.id,
      setV: 19,
      limitA: 3,
      feed: CHARGER_FEED,
    });
    const again = await record(next.id, stallsAt(0.25), { settings, startedAt: clock.ms });
    const { report } = await handlers.readRun({ id: again.id });
    const stage = report.stages.findLast((one) => one.endS - one.startS > 5)!;
    const { startS, endS } = stage;
    const found = await handlers.stageEvidence({ runId: again.id, startS, endS });
    expect(found.levels.meanA).toBeCloseTo(0.25, 2);
    expect(found.levels.noiseA).toBeLessThan(0.002);
    expect(found.levels.countA).toBeCloseTo(0.001, 6);
    const running = found.thresholds.find(({ name }) => name === 'Running level')!;
    expect(running).toMatchObject({ value: settings.runningA, from: 'good runs', decides: true });
    expect(found.goodRuns.map(({ runId }) => runId)).toContain(seeded.runs.after);
    expect(found.isFromNotes).toBe(false);
  });
});

describe('classifyAgain', () => {
  it('names stages with what is known of the board now, and keeps what was said before', async () => {
    const { report: before } = await handlers.readRun({ id: stalled.id });
    const why = (said: typeof before) => said.stages.map(({ reason }) => reason).join(' ');
    expect(why(before)).not.toContain('% of the running level');
    await handlers.addRunNote({ id: stalled.id, atS: 5, text: 'lamp on' });
    const after = await handlers.classifyAgain({ runId: stalled.id });
    expect(after.stages.map(({ stage }) => stage)).toContain('stalled');
    expect(why(after)).toContain('% of the running level');
    expect(after.marks.filter(({ mark }) => mark === 'note')).toHaveLength(1);
    expect((await handlers.readRun({ id: stalled.id })).report).toEqual(after);
  });

  it('leaves a run alone that is still being recorded', async () => {
    const live = await recorder.startRun(runStart({ startedAt: clock.ms }));
    await expect(handlers.classifyAgain({ runId: live.id })).rejects.toThrow(
      'still being recorded',
    );
  });
});

describe('compareRuns', () => {
  it('tells the run before from the run after in words', async () => {
    const compared = await handlers.compareRuns({
      ids: [seeded.runs.after, seeded.runs.before, seeded.runs.controller],
      alignBy: { by: 'output-on' },
    });
    expect(compared.map(({ run }) => run.id)).toEqual([
      seeded.runs.after,
      seeded.runs.before,
      seeded.runs.controller,
    ]);
    const [first, before, controller] = compared;
    expect(first!.lines).toEqual([]);
    expect(before!.lines.join('; ')).toMatch(
      /holds 260.mA, 3\d\d.mA less; first step 0\.5 s earlier/,
    );
    expect(controller!.lines[0]).toMatch(/^fed at 24/);
    expect(controller!.boardModel).toBe('Millrace C2');
  });
});
