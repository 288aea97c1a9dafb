import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { isTagCode, shownTagCode } from '../../../core/tags/tag-code.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const clock = { ms: Date.UTC(2026, 1, 2, 12) };
const ledger = await openLedgerInThread({
  path: path.join(tempFolder('shop'), 'ledger.sqlite'),
  now: () => clock.ms,
});
const { handlers } = ledger;
afterAll(() => ledger.close());

const troubleOf = (call: Promise<unknown> | unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
  );
const lineOf = async (number: number) =>
  (await handlers.listJobs({ search: `#${number}`, limit: 1 }))[0];

describe('a customer', () => {
  it('is made of the name at intake, or chosen', async () => {
    const first = await handlers.createJob({
      ...jobFields({ customer: 'Rook Wells' }),
      customerReach: '0555 0101',
    });
    const terms = await handlers.readTerms({ jobId: first.id });
    expect(terms.customer).toMatchObject({ name: 'Rook Wells', reach: '0555 0101', jobs: 1 });
    const again = await handlers.createJob({
      ...jobFields({ customer: 'typed otherwise' }),
      customerId: terms.customer!.id,
    });
    expect(again.customer).toBe('Rook Wells');
    expect(await handlers.listCustomers({ search: 'wel roo', limit: 9 })).toMatchObject([
      { jobs: 2 },
    ]);
    expect(await handlers.listCustomers({ search: '0555', limit: 9 })).toHaveLength(1);
    expect(await handlers.listCustomers({ search: 'nobody', limit: 9 })).toEqual([]);
  });

  it('is called by a new name on every job, and can be taken off one', async () => {
    const job = await handlers.createJob(jobFields({ customer: 'Old Name' }));
    const { customer } = await handlers.readTerms({ jobId: job.id });
    const fields = { name: 'New Name', reach: '', note: '' };
    await handlers.saveCustomer({ id: customer!.id, fields });
    expect((await handlers.readJob({ id: job.id })).job.customer).toBe('New Name');
    const none = await handlers.giveCustomer({ jobId: job.id, customerId: null });
    expect(none.customer).toBeNull();
    expect((await handlers.readJob({ id: job.id })).job.customer).toBe('');
  });

  it('is forgotten on request while the jobs stay', async () => {
    const job = await handlers.createJob(jobFields({ customer: 'Forget Me' }));
    const { customer } = await handlers.readTerms({ jobId: job.id });
    expect(await handlers.eraseCustomer({ id: customer!.id })).toBe(1);
    expect((await handlers.readTerms({ jobId: job.id })).customer).toBeNull();
    expect((await handlers.readJob({ id: job.id })).job).toMatchObject({
      customer: '',
      state: 'open',
    });
    expect(await troubleOf(handlers.eraseCustomer({ id: customer!.id }))).toMatchObject({
      code: 'not-found',
    });
  });
});

describe('money', () => {
  it('waits for a currency, which is set once', async () => {
    const job = await handlers.createJob(jobFields());
    const quote = { jobId: job.id, amountMinor: 12_000, words: 'Main rail' };
    expect(await troubleOf(handlers.addQuote(quote))).toMatchObject({
      what: expect.stringContaining('no currency'),
    });
    const shop = { currency: 'EUR', hourMinor: 7_500, warrantyDays: 90 };
    expect(await handlers.saveShop(shop)).toEqual(shop);
    expect(await handlers.saveShop({ ...shop, currency: 'CHF' })).toMatchObject({
      currency: 'CHF',
    });
    await handlers.saveShop(shop);
    await handlers.addQuote(quote);
    expect(await troubleOf(handlers.saveShop({ ...shop, currency: 'CHF' }))).toMatchObject({
      what: 'Amounts are written in EUR already',
    });
    expect(await handlers.saveShop({ ...shop, hourMinor: 8_000 })).toMatchObject({
      hourMinor: 8_000,
    });
  });

  it('lets a job wait for approval, and opens it with the answer', async () => {
    const job = await handlers.createJob(jobFields({ serialNumber: 'quote-1' }));
    const asked = await handlers.addQuote({ jobId: job.id, amountMinor: 9_950, words: '' });
    expect(asked).toMatchObject({
      waitingFor: 'approval',
      quotes: [{ answer: 'open', currency: 'EUR' }],
    });
    expect(await lineOf(job.number)).toMatchObject({ state: 'waiting', waitingFor: 'approval' });
    clock.ms += 60_000;
    const answer = { answer: 'approved', how: 'by-phone', note: 'spoke to the son' } as const;
    const said = await handlers.answerQuote({ quoteId: asked.quotes[0]!.id, ...answer });
    expect(said.quotes[0]).toMatchObject({
      answer: 'approved',
      answeredHow: 'by-phone',
      answeredAt: clock.ms,
    });
    expect(await lineOf(job.number)).toMatchObject({ state: 'open', waitingFor: null });
  });

  it('leaves a job waiting for parts alone when a quote is answered', async () => {
    const job = await handlers.createJob(jobFields({ serialNumber: 'quote-2' }));
    const asked = await handlers.addQuote({ jobId: job.id, amountMinor: 1, words: '' });
    await handlers.letWait({ jobId: job.id, waitingFor: 'parts' });
    const answer = { answer: 'approved', how: 'in-person', note: '' } as const;
    await handlers.answerQuote({ quoteId: asked.quotes[0]!.id, ...answer });
    expect(await lineOf(job.number)).toMatchObject({ state: 'waiting', waitingFor: 'parts' });
    expect(await handlers.listJobs({ search: 'waiting for parts', limit: 9 })).toHaveLength(1);
    await handlers.setJobState({ id: job.id, state: 'open' });
    await handlers.setJobState({ id: job.id, state: 'waiting' });
    expect(await lineOf(job.number)).toMatchObject({ state: 'waiting', waitingFor: null });
  });

  it('keeps lines of parts and time, and takes one away again', async () => {
    const job = await handlers.createJob(jobFields({ serialNumber: 'charges' }));
    const charge = {
      words: 'Capacitor',
      partId: null,
      quantityMilli: 2_000,
      minutes: 30,
      unitMinor: 120,
    };
    const one = await handlers.addCharge({ jobId: job.id, charge: { ...charge, kind: 'part' } });
    expect(one.charges).toMatchObject([{ minutes: 0, quantityMilli: 2_000, currency: 'EUR' }]);
    const two = await handlers.addCharge({ jobId: job.id, charge: { ...charge, kind: 'time' } });
    expect(two.charges[1]).toMatchObject({ minutes: 30, quantityMilli: 0 });
    expect((await handlers.dropCharge({ chargeId: one.charges[0]!.id })).charges).toHaveLength(1);
  });
});

describe('a warranty', () => {
  it('is kept, and shown to the comeback', async () => {
    const first = await handlers.createJob(jobFields({ serialNumber: 'back-1' }));
    await handlers.setWarranty({ jobId: first.id, until: '2026-05-03', note: 'the charger side' });
    clock.ms += 86_400_000;
    const second = await handlers.createJob(jobFields({ serialNumber: 'BACK-1 ' }));
    const terms = await handlers.readTerms({ jobId: second.id });
    expect(terms.visits).toMatchObject([{ number: first.number, warrantyUntil: '2026-05-03' }]);
    const calls = { jobId: first.id, until: null, note: '' };
    expect((await handlers.setWarranty(calls)).warrantyUntil).toBeNull();
  });
});

describe('a bag tag', () => {
  it('keeps its code, and the code opens the job', async () => {
    const job = await handlers.createJob(jobFields());
    const code = await handlers.readTag({ jobId: job.id });
    expect(isTagCode(code)).toBe(true);
    expect(await handlers.readTag({ jobId: job.id })).toBe(code);
    const found = { jobId: job.id, number: job.number };
    expect(await handlers.findTag({ code })).toEqual(found);
    expect(await handlers.findTag({ code: shownTagCode(code) })).toEqual(found);
    expect(await handlers.listJobs({ search: shownTagCode(code), limit: 5 })).toMatchObject([
      { number: job.number },
    ]);
    await handlers.binJob({ id: job.id });
    expect(await troubleOf(handlers.findTag({ code }))).toMatchObject({ code: 'not-found' });
  });

  it('with a wrong digit is called so', async () => {
    const job = await handlers.createJob(jobFields());
    const code = await handlers.readTag({ jobId: job.id });
    const wrong = `${code.slice(0, 7)}${(Number(code.charAt(7)) + 1) % 10}`;
    expect(await troubleOf(handlers.findTag({ code: wrong }))).toMatchObject({
      what: expect.stringContaining('check digit'),
    });
    expect(await troubleOf(handlers.findTag({ code: 'hello' }))).toMatchObject({
      code: 'bad-input',
    });
  });
});

describe('the figures', () => {
  it('come from the jobs that were closed in the period', async () => {
    const job = await handlers.createJob(
      jobFields({ serialNumber: 'figures', boardModel: 'Avocet' }),
    );
    clock.ms += 7_200_000;
    const outcome = { verdict: 'wakes', cause: 'Lead', provedBy: '', misledBy: '' } as const;
    await handlers.closeJob({ id: job.id, outcome });
    const figures = await handlers.readFigures({ first: '2026-02-01', last: '2026-02-28' });
    expect(figures.closed).toBe(1);
    expect(figures.diagnosisH).toMatchObject({ count: 1, median: 2 });
    expect(figures.boards).toMatchObject([
      { boardName: 'Avocet', jobs: 1, causes: [{ cause: 'Lead', proved: 0, guessed: 1 }] },
    ]);
    const empty = await handlers.readFigures({ first: '2020-01-01', last: '2020-01-01' });
    expect(empty).toMatchObject({ closed: 0, takenIn: 0, diagnosisH: null });
    expect(
      await troubleOf(handlers.readFigures({ first: '2026-02-02', last: '2026-02-01' })),
    ).toMatchObject({
      code: 'bad-input',
    });
  });
});
