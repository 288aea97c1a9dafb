import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { NO_DETAILS } from '../../../core/donors/donor-board.ts';
import { WakelineError } from '../../../core/errors.ts';
import type { PartFields } from '../../../core/job/job.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { openBare } from '../../support/ledger-schema.ts';
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

describe('taking a part into a job', () => {
  it('does all of it or nothing, when the ledger fails half-way', async () => {
    const file = path.join(tempFolder('half-way'), 'ledger.sqlite');
    const first = await openLedgerInThread({ path: file });
    const donor = await first.handlers.saveDonor({
      id: null,
      fields: { boardModel: 'Tern 14', shelf: 'B2', note: '' },
    });
    await first.handlers.saveModelParts({
      boardModel: 'Tern 14',
      table: 'C12 10uF 25V X5R 1206 on MAIN',
      knownFrom: 'schematic',
    });
    const { id: jobId } = await first.handlers.createJob(jobFields({ boardModel: 'Tern 14' }));
    await first.close();
    const steps = {
      part_details: 'after insert on part_details',
      items: 'after insert on checklist_items',
      equivalence: 'after update of equivalence_json on part_details',
      take: 'after insert on donor_takes',
      job: 'after update of updated_at on jobs',
    };
    for (const [name, when] of Object.entries(steps)) {
      const sqlite = openBare(file);
      sqlite.exec(`create trigger fails ${when} begin select raise(abort, 'no room'); end`);
      sqlite.close();
      const ledgerNow = await openLedgerInThread({ path: file });
      const take = { donorId: donor.id, designator: 'C12', jobId, place: '' };
      expect(await troubleOf(() => ledgerNow.handlers.takeFromDonor(take)), name).not.toBeNull();
      const { parts: kept, items } = await ledgerNow.handlers.readJob({ id: jobId });
      expect(kept, name).toEqual([]);
      expect(items.some(({ step }) => step === 'second-run')).toBe(false);
      expect((await ledgerNow.handlers.listDonors({}))[0], name).toMatchObject({
        left: [{ designator: 'C12' }],
        taken: [],
      });
      await ledgerNow.close();
      const after = openBare(file);
      after.exec('drop trigger fails');
      after.close();
    }
    const whole = await openLedgerInThread({ path: file });
    const taken = await whole.handlers.takeFromDonor({
      donorId: donor.id,
      designator: 'c12',
      jobId,
      place: '',
    });
    expect(taken).toMatchObject({ action: 'fitted', designator: 'C12' });
    await whole.close();
  });

  it('finds a donor for a part that was written in a word, by its place on the board', async () => {
    const jobId = await newJob();
    await handlers.saveDonor({
      id: null,
      fields: { boardModel: 'Tern 14', shelf: 'C3', note: '' },
    });
    const [lifted] = await handlers.quickPart({ jobId, line: 'R7 lifted' });
    expect(lifted).toMatchObject({ value: '4k7 1% 0805', rail: '' });
    const found = await handlers.findDonor({ partId: lifted!.id });
    expect(found.matches.map(({ part: one }) => one.designator)).toContain('R7');
    const [unknown] = await handlers.quickPart({ jobId, line: 'C999 lifted' });
    const none = await handlers.findDonor({ partId: unknown!.id });
    expect(none.matches).toEqual([]);
  });

  it('puts a part back on its board: told there, lifted in the job, and free to be taken again', async () => {
    const donor = await handlers.saveDonor({
      id: null,
      fields: { boardModel: 'Tern 14', shelf: 'D1', note: '' },
    });
    const jobId = await newJob();
    const take = { donorId: donor.id, designator: 'C12', jobId, place: 'C14' };
    await handlers.takeFromDonor(take);
    const [taken] = (await handlers.listDonors({})).find(({ id }) => id === donor.id)!.taken;
    const facts = await handlers.readPartFacts({ jobId });
    expect(facts).toHaveLength(1);
    const back = await handlers.returnToDonor({ takeId: taken!.id, why: 'did not help' });
    expect(back).toMatchObject({
      taken: [],
      returned: [{ designator: 'C12', why: 'did not help' }],
    });
    expect(back.left.map(({ designator }) => designator)).toContain('C12');
    const { parts: kept } = await handlers.readJob({ id: jobId });
    expect(kept.map(({ action, designator }) => [action, designator])).toEqual([
      ['fitted', 'C14'],
      ['lifted', 'C14'],
    ]);
    expect(await troubleOf(() => handlers.closeJob({ id: jobId, outcome }))).toMatchObject({
      code: 'gate-closed',
      what: expect.stringContaining('C14 is lifted with nothing fitted there since'),
    });
    expect(
      await troubleOf(() => handlers.returnToDonor({ takeId: taken!.id, why: 'again' })),
    ).toMatchObject({ code: 'not-found' });
    expect(await handlers.takeFromDonor(take)).toMatchObject({ designator: 'C14' });
    const again = (await handlers.listDonors({})).find(({ id }) => id === donor.id)!.taken[0];
    const notWoken = { ...outcome, verdict: 'not-repaired' as const };
    await handlers.closeJob({ id: jobId, outcome: notWoken });
    expect(
      await troubleOf(() => handlers.returnToDonor({ takeId: again!.id, why: 'late' })),
    ).toMatchObject({ code: 'bad-input', what: expect.stringContaining('which is closed') });
  });
});

describe('a lifted part', () => {
  const placesOf = async (jobId: string) =>
    (await handlers.readPartFacts({ jobId })).map(({ place }) => place);
  const notWoken = { ...outcome, verdict: 'not-repaired' as const };

  it('is asked for at closing even when nobody called it a test', async () => {
    const jobId = await newJob();
    await handlers.quickPart({ jobId, line: 'C40 C41 lifted' });
    expect(
      await troubleOf(() => handlers.closeJob({ id: jobId, outcome: notWoken })),
    ).toMatchObject({ code: 'gate-closed', what: expect.stringContaining('C40, C41 are lifted') });
  });

  it('goes back as the same part: nothing to compare, and its points are asked again', async () => {
    const jobId = await newJob();
    const [lifted] = await handlers.quickPart({ jobId, line: 'C40 off for a test' });
    expect(await placesOf(jobId)).toEqual(['off-for-a-test']);
    const [back] = await handlers.quickPart({ jobId, line: 'C40 back' });
    expect(back).toMatchObject({ action: 'fitted', from: 'the same part, put back' });
    expect(await placesOf(jobId)).toEqual(['put-back', null]);
    expect((await handlers.readPartFacts({ jobId }))[1]?.equivalence).toBeNull();
    const { items } = await handlers.readJob({ id: jobId });
    expect(items.some(({ step }) => step === 'same-points-again')).toBe(true);
    expect(await troubleOf(() => handlers.putPartBack({ id: lifted!.id }))).toMatchObject({
      code: 'bad-input',
      what: 'C40 is not off the board',
    });
    expect((await handlers.closeJob({ id: jobId, outcome: notWoken })).state).toBe('closed');
  });

  it('is forgotten when its line was no part; a put-back that is forgotten is off again', async () => {
    const jobId = await newJob();
    await handlers.quickPart({ jobId, line: 'C40' });
    const [back] = await handlers.quickPart({ jobId, line: 'C40 back' });
    await handlers.forgetPart({ id: back!.id });
    expect(await placesOf(jobId)).toEqual(['undecided']);
    const { parts: kept, items } = await handlers.readJob({ id: jobId });
    expect(items.find(({ step }) => step === 'part-lifted')?.state).toBe('done');
    await handlers.forgetPart({ id: kept[0]!.id });
    const after = await handlers.readJob({ id: jobId });
    expect(after.parts).toEqual([]);
    expect(after.items.find(({ step }) => step === 'part-lifted')?.state).toBe('open');
  });

  it('cannot be called put back without soldering it', async () => {
    const jobId = await newJob();
    const [lifted] = await handlers.quickPart({ jobId, line: 'C40' });
    const details = { ...NO_DETAILS, leftOff: 'put-back' as const };
    expect(
      await troubleOf(() => handlers.keepPartDetails({ partId: lifted!.id, details })),
    ).toMatchObject({ code: 'bad-input', todo: expect.stringContaining('Put back') });
  });

  it('keeps the verdict on its replacement as it was judged, and judges again when told more', async () => {
    const jobId = await newJob();
    const original = await handlers.addPart({ jobId, part: part({}) });
    const fitted = await handlers.addPart({
      jobId,
      part: part({ action: 'fitted', value: '10uF 6.3V 20% X5R 1206' }),
    });
    const verdictOf = async () =>
      (await handlers.readPartFacts({ jobId })).find(({ partId }) => partId === fitted.id)
        ?.equivalence?.verdict;
    expect(await verdictOf()).toBe('not-equal');
    await handlers.changePart({ id: fitted.id, part: part({ action: 'fitted' }) });
    expect(await verdictOf()).toBe('not-ruled-out');
    await handlers.keepPartDetails({
      partId: fitted.id,
      details: { ...NO_DETAILS, knownFrom: 'marking' },
    });
    await handlers.keepPartDetails({
      partId: original.id,
      details: { ...NO_DETAILS, critical: true },
    });
    expect(['equal', 'not-ruled-out']).toContain(await verdictOf());
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
