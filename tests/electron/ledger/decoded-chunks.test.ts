import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { DecodedChunks } from '../../../electron/ledger/decoded-chunks.ts';
import { openDatabase } from '../../../electron/ledger/open-database.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { report, runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const file = path.join(tempFolder('decoded'), 'ledger.sqlite');
const ledger = await openLedgerInThread({ path: file });
const run = await ledger.recorder.startRun(runStart());
const columns = samples(30_000);
await ledger.recorder.appendSupply({ runId: run.id, columns });
const { settings } = runStart();
await ledger.recorder.endRun({
  runId: run.id,
  endedAt: 1,
  end: 'output-off',
  report: report(),
  settings,
});
await ledger.close();
const { db } = await openDatabase({ path: file });
afterAll(() => db.destroy());
const track = await db.selectFrom('tracks').select('id').executeTakeFirstOrThrow();

describe('DecodedChunks', () => {
  it('hands out the stretches that touch a time, the same ones when they are asked for again', async () => {
    const decoded = new DecodedChunks(db);
    const all = await decoded.touching(track.id, 0, 1e9);
    expect(all.flatMap((chunk) => [...chunk.ticks])).toEqual([...columns.ticks]);
    const some = await decoded.touching(track.id, 9_000 * 500, 9_010 * 500);
    expect(some).toHaveLength(1);
    expect(all).toContain(some[0]);
    expect(await decoded.touching(track.id, 1e9, 2e9)).toEqual([]);
  });

  it('reads again what it was told to forget, and nothing of what was deleted', async () => {
    const decoded = new DecodedChunks(db);
    const [first] = await decoded.touching(track.id, 0, 10);
    decoded.forgetAll();
    const [again] = await decoded.touching(track.id, 0, 10);
    expect(again).not.toBe(first);
    expect(again).toEqual(first);
    await db.deleteFrom('chunks').execute();
    expect(await decoded.touching(track.id, 29_000 * 500, 1e9)).toEqual([]);
  });
});
