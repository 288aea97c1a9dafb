import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { NO_DETAILS } from '../../../core/donors/donor-board.ts';
import { WakelineError } from '../../../core/errors.ts';
import type { PartFields } from '../../../core/job/job.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const ledger = await openLedgerInThread({ path: path.join(tempFolder('donors'), 'ledger.sqlite') });
afterAll(() => ledger.close());
const { handlers } = ledger;

const troubleOf = (call: () => unknown) =>
  Promise.resolve()
    .then(call)
    .then(
      () => null,
      (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
    );
const part = (fields: Partial<PartFields>): PartFields => ({
  action: 'lifted',
  designator: 'C12',
  kind: '',
  value: '10uF 25V 20% X5R 1206',
  rail: 'MAIN',
  stateFound: '',
  from: '',
  ...fields,
});
const newJob = async () => (await handlers.createJob(jobFields({ boardModel: 'Tern 14' }))).id;
const outcome = { verdict: 'wakes', cause: '', provedBy: '', misledBy: '' } as const;

describe('donor boards', () => {
  it('give a part of the same place as an equal, take it once, and remember into which job', async () => {
    const donor = await handlers.saveDonor({
      id: null,
      fields: { boardModel: 'tern 14', shelf: 'B2', note: 'dead core' },
    });
    await handlers.saveModelParts({
      boardModel: 'Tern 14',
      table: 'C12 10uF 25V 20% X5R 1206 on MAIN\nR7 4k7 1% 0805',
      knownFrom: 'unknown',
    });
    const jobId = await newJob();
    const lifted = await handlers.addPart({ jobId, part: part({}) });
    const found = await handlers.findDonor({ partId: lifted.id });
    expect(found.lookedThrough).toBe(2);
    expect(found.matches.map(({ part: one, shelf }) => [one.designator, shelf])).toEqual([
      ['C12', 'B2'],
    ]);
    expect(found.matches[0]!.equivalence.notChecked.length).toBeGreaterThan(0);
    const take = { donorId: donor.id, designator: 'C12', jobId, place: '' };
    const fitted = await handlers.takeFromDonor(take);
    expect(fitted).toMatchObject({ action: 'fitted', designator: 'C12', rail: 'MAIN' });
    expect(fitted?.from).toContain('shelf B2');
    expect((await handlers.listDonors({}))[0]).toMatchObject({
      left: [{ designator: 'R7' }],
      taken: [{ designator: 'C12', jobNumber: 1 }],
    });
    const facts = await handlers.readPartFacts({ jobId });
    expect(facts.find(({ partId }) => partId === fitted!.id)?.equivalence?.verdict).not.toBe(
      'not-equal',
    );
    expect(await troubleOf(() => handlers.takeFromDonor(take))).toMatchObject({
      code: 'bad-input',
      what: 'C12 was taken already, into job 1',
    });
    expect((await handlers.readJob({ id: jobId })).parts).toHaveLength(2);
  });

  it('never call an unmarked ceramic of another place an equal', async () => {
    await handlers.saveDonor({
      id: null,
      fields: { boardModel: 'Plover 3', shelf: 'A1', note: '' },
    });
    await handlers.saveModelParts({
      boardModel: 'Plover 3',
      table: 'C90 10uF 25V 20% X5R 1206',
      knownFrom: 'unknown',
    });
    const found = await handlers.findDonor({ text: 'C5 10uF 25V 20% X5R 1206', jobId: null });
    expect(found.matches.map(({ equivalence }) => equivalence.verdict)).toEqual(['not-ruled-out']);
  });

  it('refuse a list with a bad line, name the character, and keep the list before it', async () => {
    const table = 'C1 100nF 16V 0402in\nC2 10u 25W!';
    const trouble = await troubleOf(() =>
      handlers.saveModelParts({ boardModel: 'Plover 3', table, knownFrom: 'marking' }),
    );
    expect(trouble).toMatchObject({
      code: 'bad-input',
      where: expect.stringMatching(/^line 2, character \d+/),
    });
    expect(await handlers.readModelParts({ boardModel: 'Plover 3' })).toHaveLength(1);
  });

  it('leave the shelf, and a part of one that left cannot be taken', async () => {
    const { id } = await handlers.saveDonor({
      id: null,
      fields: { boardModel: 'Plover 3', shelf: 'A2', note: '' },
    });
    await handlers.scrapDonor({ id });
    expect((await handlers.listDonors({})).some((one) => one.id === id)).toBe(false);
    const take = { donorId: id, designator: 'C90', jobId: null, place: '' };
    expect(await troubleOf(() => handlers.takeFromDonor(take))).toMatchObject({
      code: 'not-found',
    });
  });
});

describe('a part left off for a test', () => {
  it('keeps the job from closing until it is fitted or somebody decides', async () => {
    const jobId = await newJob();
    const { id } = await handlers.addPart({ jobId, part: part({ designator: 'C40' }) });
    const details = { ...NO_DETAILS, leftOff: 'for-a-test' as const };
    await handlers.keepPartDetails({ partId: id, details });
    expect(await troubleOf(() => handlers.closeJob({ id: jobId, outcome }))).toMatchObject({
      code: 'gate-closed',
      what: expect.stringContaining('C40'),
    });
    expect((await handlers.readJob({ id: jobId })).job.state).toBe('open');
    const forGood = { ...details, leftOff: 'for-good' as const };
    expect(
      await troubleOf(() => handlers.keepPartDetails({ partId: id, details: forGood })),
    ).toMatchObject({ code: 'bad-input' });
    const why = { ...forGood, decision: 'one of six in a bulk bank' };
    expect(
      await troubleOf(() => handlers.keepPartDetails({ partId: id, details: why })),
    ).toMatchObject({ code: 'bad-input', todo: expect.stringContaining('who agreed') });
    await handlers.keepPartDetails({
      partId: id,
      details: { ...why, agreedBy: 'customer, by phone' },
    });
    expect((await handlers.closeJob({ id: jobId, outcome })).state).toBe('closed');
  });
});
