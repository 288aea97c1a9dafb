import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('evidence');
const open = (name: string) => openLedgerInThread({ path: path.join(folder, `${name}.sqlite`) });
const ledgers: Awaited<ReturnType<typeof open>>[] = [];
afterAll(async () => {
  for (const one of ledgers) await one.close();
});
async function fresh(name: string) {
  const ledger = await open(name);
  ledgers.push(ledger);
  const { handlers } = ledger;
  const newJob = async () =>
    (await handlers.createJob(jobFields({ boardModel: 'Tern 14', liquid: 'unknown' }))).id;
  const look = (jobId: string, question: string, outcome: string) =>
    handlers.answerQuestion({ jobId, question, outcome });
  const close = (jobId: string, causeKey: string | null, proved: boolean) =>
    handlers.closeJob({
      id: jobId,
      outcome: { verdict: 'wakes', cause: 'as told', provedBy: '', misledBy: '' },
      details: {
        causeKey,
        part: 'C12',
        rail: 'MAIN',
        gaveAway: 'heat',
        changed: proved,
        readingCameBack: proved,
        boardWoke: proved,
      },
    });
  return { handlers, newJob, look, close };
}
const troubleOf = (call: Promise<unknown>) =>
  call.then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
  );

describe('likely causes of a job', () => {
  it('count proved outcomes only, with guessed and unsolved ones shown beside', async () => {
    const { handlers, newJob, look, close } = await fresh('counts');
    const endings: readonly (readonly [string | null, boolean])[] = [
      ...Array.from({ length: 7 }, () => ['short:main', true] as const),
      ...Array.from({ length: 2 }, () => ['power:converter', true] as const),
      ...Array.from({ length: 4 }, () => [null, false] as const),
      ['logic:processor', false],
    ];
    for (const [cause, proved] of endings) {
      const past = await newJob();
      await look(past, 'draw', 'stalled');
      await look(past, 'main-rail', 'low');
      await close(past, cause, proved);
    }
    const jobId = await newJob();
    await look(jobId, 'draw', 'stalled');
    await look(jobId, 'main-rail', 'low');
    const { likely, counted } = await handlers.likelyCauses({ jobId });
    expect(counted).toEqual({ proved: 9, guessed: 1, unsolved: 4 });
    expect(likely.causes[0]!.cause.key).toBe('short:main');
    // Wilson's interval of 7 of 9 at 95 %: 0.453 to 0.937 (formula in the NIST/SEMATECH e-Handbook 7.2.4.1, cited from memory).
    expect(likely.causes[0]!.like).toMatchObject({
      proved: 9,
      withCause: 7,
      unsolved: 4,
      guessed: 1,
    });
    expect(likely.causes[0]!.like.interval.low).toBeCloseTo(0.453, 2);
    expect(likely.causes[0]!.like.interval.high).toBeCloseTo(0.937, 2);
    expect(likely.basis).toBe('mixed');
  });

  it('lean on the starter table and say so while the ledger has few cases, and never on one number', async () => {
    const { handlers, newJob, look } = await fresh('few');
    const jobId = await newJob();
    await look(jobId, 'draw', 'stalled');
    const one = await handlers.likelyCauses({ jobId });
    expect(one.likely.basis).toBe('starter');
    expect(one.likely.summary).toContain('common practice, no source');
    expect(one.likely.standing).not.toBe('strong');
    expect(one.likely.next.length).toBeGreaterThan(0);
    const rank = (answer: typeof one, key: string) =>
      answer.likely.causes.findIndex(({ cause }) => cause.key === key);
    await look(jobId, 'main-rail', 'low');
    await look(jobId, 'main-ohms', 'shorted');
    const more = await handlers.likelyCauses({ jobId });
    expect(rank(more, 'short:main')).toBe(0);
    expect(rank(more, 'logic:processor')).toBeGreaterThan(rank(one, 'logic:processor'));
  });

  it('put a limit that is too low before any fault of the board', async () => {
    const { handlers, newJob, look } = await fresh('bench');
    const jobId = await newJob();
    await look(jobId, 'draw', 'limited');
    await look(jobId, 'main-rail', 'low');
    const { likely } = await handlers.likelyCauses({ jobId });
    expect(likely.benchFirst.map(({ cause }) => cause.key)).toContain('bench:limit');
    expect(likely.summary).toMatch(/^The bench first/);
    expect(likely.standing).not.toBe('strong');
    await look(jobId, 'limit', 'too-low');
    const after = await handlers.likelyCauses({ jobId });
    expect(after.likely.causes[0]!.cause.key).toBe('bench:limit');
  });

  it('take an answer back, and refuse one that the question does not have', async () => {
    const { handlers, newJob, look } = await fresh('answers');
    const jobId = await newJob();
    await look(jobId, 'polarity', 'reversed');
    await handlers.answerQuestion({ jobId, question: 'polarity', outcome: null });
    expect((await handlers.likelyCauses({ jobId })).findings).toEqual([]);
    expect(await troubleOf(Promise.resolve(look(jobId, 'polarity', 'sideways')))).toMatchObject({
      code: 'bad-input',
    });
  });
});

describe('the tree of causes', () => {
  it('takes a cause of the shop under another, and refuses one under itself', async () => {
    const { handlers, newJob, close } = await fresh('tree');
    const text = 'cracked corner ceramic';
    const fields = { key: null, text, parent: 'short', check: '', weight: 1 };
    const added = (await handlers.saveCause(fields)).find((cause) => cause.text === text)!;
    expect(added).toMatchObject({ parent: 'short', isBench: false });
    const loop = handlers.saveCause({ ...fields, key: added.key, parent: added.key });
    expect(await troubleOf(Promise.resolve(loop))).toMatchObject({ code: 'bad-input' });
    const jobId = await newJob();
    await close(jobId, added.key, true);
    expect(await handlers.readCaseDetails({ jobId })).toMatchObject({ causeKey: added.key });
    const { likely } = await handlers.likelyCauses({ jobId: await newJob() });
    expect(likely.causes.some(({ cause }) => cause.key === added.key)).toBe(true);
  });
});
