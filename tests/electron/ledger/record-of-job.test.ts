import path from 'node:path';
import { v7 } from 'uuid';
import { afterAll, describe, expect, it } from 'vitest';
import { addPicture } from '../../support/add-picture.ts';
import { makeJpeg } from '../../support/make-pictures.ts';
import { openSeededLedger } from '../../support/seed-ledger.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const { ledger, seeded } = await openSeededLedger(
  path.join(tempFolder('record-of-job'), 'ledger.sqlite'),
);
afterAll(() => ledger.close());
const printedAt = Date.UTC(2026, 5, 1);
const recordOf = (jobId: string) => ledger.records.recordOfJob({ jobId, paper: 'A4', printedAt });

describe('the content of a record, made in the ledger’s thread', () => {
  it('has the runs of the job with their curves, and its readings and parts', async () => {
    const record = await recordOf(seeded.jobs.repaired);
    expect(record.runs.map(({ title }) => title)).toEqual([
      'Run 1 of 2, before repair',
      'Run 2 of 2, after repair',
    ]);
    expect(record.runs.every(({ plot }) => plot !== null)).toBe(true);
    expect(record.readings.isChanged).toBe(true);
    expect(record.parts.map(({ action }) => action)).toEqual(['lifted', 'fitted']);
  });

  it('has its pictures with their marks, and its warranty', async () => {
    const jobId = seeded.jobs.repaired;
    const { id } = await addPicture(
      ledger.handlers,
      { jobId },
      makeJpeg({ width: 64, height: 48 }),
    );
    const hot = { kind: 'hot-spot' as const, name: 'C12', x: 0.5, y: 0.5, temperatureC: 90 };
    await ledger.handlers.saveMarks({ id, marks: [{ id: v7(), ...hot }] });
    await ledger.handlers.setWarranty({ jobId, until: '2026-08-01', note: 'On the part.' });
    const record = await recordOf(jobId);
    expect(record.pictures[0]?.figures[0]?.marks[0]?.tag).toBe('C12 90 °C');
    const warranty = record.customer.sections.find(({ title }) => title === 'Warranty');
    expect(warranty?.lines.join(' ').replaceAll('\u00a0', ' ')).toBe(
      'On this repair, until 1 Aug 2026. On the part.',
    );
  });

  it('leaves out a picture that lies in the bin', async () => {
    const jobId = seeded.jobs.fresh;
    const { id } = await addPicture(ledger.handlers, { jobId }, makeJpeg({ width: 8, height: 8 }));
    await ledger.handlers.binPicture({ id });
    expect((await recordOf(jobId)).pictures).toEqual([]);
  });

  it('says by name that a job is not there', async () => {
    await expect(recordOf(v7())).rejects.toMatchObject({ trouble: { code: 'not-found' } });
  });
});
