import { copyFileSync } from 'node:fs';
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

describe('what is kept when a job is closed', () => {
  it('is what was seen and how it was weighed that day, and later cases do not change it', async () => {
    const { handlers, newJob, look, close } = await fresh('kept');
    const jobId = await newJob();
    await look(jobId, 'draw', 'stalled');
    await look(jobId, 'main-rail', 'low');
    expect(await handlers.readKeptEvidence({ jobId })).toBeNull();
    const open = await handlers.likelyCauses({ jobId });
    await close(jobId, 'short:main', true);
    const kept = await handlers.readKeptEvidence({ jobId });
    expect(kept?.findings).toEqual(open.findings);
    expect(kept).toMatchObject({
      summary: open.likely.summary,
      causeText: 'a shorted capacitor on the main rail',
      counted: { proved: 0 },
    });
    expect(kept?.evidenceVersion).toBeGreaterThan(0);
    for (let i = 0; i < 6; i += 1) {
      const other = await newJob();
      await look(other, 'draw', 'stalled');
      await close(other, 'power:converter', true);
    }
    // Somebody looks again at the closed job and renames the cause: the kept page stays as it was.
    await look(jobId, 'main-rail', 'present');
    await handlers.saveCause({
      key: 'short:main',
      text: 'a dead capacitor',
      parent: 'short',
      check: '',
      weight: 3,
    });
    expect(await handlers.readKeptEvidence({ jobId })).toEqual(kept);
    expect(await handlers.likelyCauses({ jobId })).not.toMatchObject({ counted: { proved: 0 } });
  });

  it('is nothing where a job was closed before it was kept', async () => {
    const file = path.join(folder, 'older.sqlite');
    const older = path.resolve(
      import.meta.dirname,
      '../../../sample-data/databases/0005_add_signatures.sqlite',
    );
    copyFileSync(older, file);
    const ledger = await openLedgerInThread({ path: file });
    ledgers.push(ledger);
    const lines = await ledger.handlers.listJobs({ search: '', limit: 99 });
    const closed = lines.filter(({ state }) => state === 'closed');
    expect(closed.length).toBeGreaterThan(0);
    for (const { id } of closed) {
      expect(await ledger.handlers.readKeptEvidence({ jobId: id })).toBeNull();
    }
  });
});

describe('the shop and its causes', () => {
  it('retires a cause without breaking the jobs that ended with it', async () => {
    const { handlers, newJob, look, close } = await fresh('retire');
    const jobId = await newJob();
    await look(jobId, 'draw', 'stalled');
    await close(jobId, 'logic:memory', true);
    const causes = await handlers.retireCause({ key: 'logic:memory', isRetired: true });
    expect(causes.find(({ key }) => key === 'logic:memory')).toMatchObject({ isRetired: true });
    await handlers.retireCause({ key: 'peripheral', isRetired: true });
    const { likely, counted } = await handlers.likelyCauses({ jobId: await newJob() });
    const keys = likely.causes.map(({ cause }) => cause.key);
    // One that a job ended with goes on counting; one that never happened is out.
    expect(keys).toContain('logic:memory');
    expect(keys).not.toContain('peripheral');
    expect(counted.proved).toBe(1);
    expect(await handlers.readCaseDetails({ jobId })).toMatchObject({ causeKey: 'logic:memory' });
    const again = await handlers.retireCause({ key: 'peripheral', isRetired: false });
    expect(again.find(({ key }) => key === 'peripheral')).toMatchObject({ isRetired: false });
  });

  it('does not retire a heading over causes in use, and says what stands under it', async () => {
    const { handlers } = await fresh('heading');
    const refused = await troubleOf(
      Promise.resolve(handlers.retireCause({ key: 'short', isRetired: true })),
    );
    expect(refused).toMatchObject({ code: 'bad-input', where: 'causes, short' });
    expect(
      await troubleOf(Promise.resolve(handlers.retireCause({ key: 'no', isRetired: true }))),
    ).toMatchObject({
      code: 'not-found',
    });
  });

  it('puts its own odds in the place of the starter table, says so, and goes back', async () => {
    const { handlers, newJob, look } = await fresh('odds');
    const jobId = await newJob();
    await look(jobId, 'draw', 'stalled');
    await look(jobId, 'main-rail', 'present');
    const chance = async () =>
      (await handlers.likelyCauses({ jobId })).likely.causes.find(
        ({ cause }) => cause.key === 'logic:memory',
      )?.probability ?? 0;
    const before = await chance();
    const row = { question: 'draw', cause: 'logic:memory' };
    const table = await handlers.saveOdds({ ...row, odds: { stalled: 0.95 } });
    expect(table.ownRows).toEqual([row]);
    expect(table.source).toMatch(/common practice, no source; 1 row of it as this shop put it/);
    expect(await chance()).toBeGreaterThan(before);
    const sum = handlers.saveOdds({ ...row, odds: { stalled: 0.9, cycling: 0.9 } });
    expect(await troubleOf(Promise.resolve(sum))).toMatchObject({ code: 'bad-input' });
    expect((await handlers.saveOdds({ ...row, odds: null })).ownRows).toEqual([]);
    expect(await chance()).toBe(before);
  });
});
