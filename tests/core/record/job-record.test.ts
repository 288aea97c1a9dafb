import { describe, expect, it } from 'vitest';
import { buildJobRecord } from '../../../core/record/job-record.ts';
import {
  inventedJob,
  inventedRecord,
  inventedWhole,
  inventRun,
  runAfter,
  runBefore,
  TAKEN_IN,
} from '../../support/record-job.ts';

const bare = { ...inventedWhole, items: [], readings: [], parts: [] };

describe('buildJobRecord', () => {
  it('is plain data: it survives being written out and read back', () => {
    const record = inventedRecord();
    expect(JSON.parse(JSON.stringify(record))).toEqual(record);
  });

  it('gives the same record for the same job', () => {
    expect(inventedRecord()).toEqual(inventedRecord());
  });

  it('writes every time in the shop clock that it was given', () => {
    const at = (utcOffsetMin: number) =>
      buildJobRecord({ whole: bare, runs: [], printedAt: TAKEN_IN, utcOffsetMin, paper: 'A4' })
        .printed;
    expect(at(0)).toBe('24\u00a0Nov\u00a02025, 13:03 (UTC)');
    expect(at(-300)).toBe('24\u00a0Nov\u00a02025, 08:03 (UTC\u221205:00)');
    expect(at(660)).toBe('25\u00a0Nov\u00a02025, 00:03 (UTC+11:00)');
  });

  it('says plainly when the pretend bench made all runs, some, or none', () => {
    const real = runAfter({ pretend: false });
    const saidBy = (runs: Parameters<typeof inventedRecord>[2]) =>
      inventedRecord('A4', inventedWhole, runs).pretend;
    expect(saidBy([runBefore(), runAfter()])).toMatch(/No real board was powered/);
    expect(saidBy([runBefore(), real])).toMatch(/^1 of the 2 runs/);
    expect(saidBy([real])).toBeNull();
    expect(saidBy([])).toBeNull();
  });

  it('explains each stage that occurs once, and no other', () => {
    const used = inventedRecord().stagesUsed.map((stage) => stage.stage);
    expect(used).toEqual(['off', 'flat-low', 'stepping', 'stalled', 'running']);
  });

  it('prints an open job without runs, readings or a board model', () => {
    const job = { ...inventedJob, boardModel: null, outcome: null, comebackOf: null };
    const record = inventedRecord('Letter', { ...bare, job }, []);
    expect(record).toMatchObject({
      board: 'Board unknown',
      outcome: [],
      runs: [],
      readings: { isChanged: false, rows: [] },
    });
    expect(record.summary.join(' ')).toMatch(
      /An unidentified board .* not finished.* not been powered/,
    );
  });

  it('keeps user text out of the footer, which the printer takes as markup', () => {
    const job = { ...inventedJob, serialNumber: '<b>', boardModel: '<script>' };
    expect(inventedRecord('A4', { ...bare, job }, []).footer).not.toMatch(/[<>]/);
  });

  it('prints a run without a single reading as dashes, with nothing to draw', () => {
    const [run] = inventedRecord('A4', bare, [inventRun({}, [])]).runs;
    expect(run).toMatchObject({ plot: null, stages: [], marks: [] });
    expect(run?.facts.find((fact) => fact.label === 'Peak')?.text).toBe('–');
    expect(run?.sentence).toBe('No readings were taken in this run.');
  });

  it('links a comeback to its first visit by number', () => {
    expect(inventedRecord().facts.at(-1)?.text).toContain('job 17');
  });
});
