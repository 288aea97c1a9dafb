import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { report, runStart, samples } from '../../support/ledger-samples.ts';
import { openBare } from '../../support/ledger-schema.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('reports');
const { settings } = runStart();
const stage = report().stages[0]!;
const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

describe('classifications of a run', () => {
  it('grow as one while it goes on, and each later one is a row of its own', async () => {
    const file = path.join(folder, 'ledger.sqlite');
    const ledger = await openLedgerInThread({ path: file });
    const { recorder } = ledger;
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(100) });
    const growing = [1, 2, 3].map((n) =>
      report({
        stages: Array.from({ length: n }, (_, i) => ({
          ...stage,
          startS: i,
          endS: i + 1,
          final: i < n - 1,
        })),
      }),
    );
    for (const said of growing) {
      await recorder.saveReport({ runId: run.id, report: said, settings });
      await wait(450);
    }
    const last = report({ stages: [{ ...stage, stage: 'stalled' }], peakA: 0.7 });
    await recorder.endRun({
      runId: run.id,
      endedAt: 1,
      end: 'output-off',
      report: last,
      settings,
    });
    const later = report({ trackerVersion: 2 });
    await recorder.saveReport({ runId: run.id, report: later, settings });
    await recorder.saveReport({
      runId: run.id,
      report: later,
      settings: { ...settings, runningA: 0.4 },
    });
    await ledger.close();

    const sqlite = openBare(file);
    const rows = sqlite
      .prepare(
        'select tracker_version, settings_json, peak_a, (select count(*) from stages s where s.classification_id = c.id) as stages from classifications c order by id',
      )
      .all();
    sqlite.close();
    const json = JSON.stringify(settings);
    expect(rows).toEqual([
      { tracker_version: 1, settings_json: json, peak_a: 0.7, stages: 1 },
      { tracker_version: 2, settings_json: json, peak_a: 0.45, stages: 1 },
      {
        tracker_version: 2,
        settings_json: JSON.stringify({ ...settings, runningA: 0.4 }),
        peak_a: 0.45,
        stages: 1,
      },
    ]);
  });

  it('hold thousands of stages', async () => {
    const ledger = await openLedgerInThread({ path: path.join(folder, 'many.sqlite') });
    const run = await ledger.recorder.startRun(runStart());
    await ledger.recorder.appendSupply({ runId: run.id, columns: samples(10) });
    const many = report({
      stages: Array.from({ length: 6000 }, (_, i) => ({ ...stage, startS: i, endS: i + 1 })),
    });
    await ledger.recorder.endRun({
      runId: run.id,
      endedAt: 1,
      end: 'output-off',
      report: many,
      settings,
    });
    expect((await ledger.handlers.readRun({ id: run.id })).report).toEqual(many);
    await ledger.close();
  });
});
