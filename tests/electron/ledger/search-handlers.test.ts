import { copyFileSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import type { JobFields } from '../../../core/job/job.ts';
import type { StageId } from '../../../core/stages/stage.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields, report, runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';

const folder = tempFolder('search');
const clock = { ms: Date.UTC(2026, 1, 2, 12) };
const file = path.join(folder, 'ledger.sqlite');
const ledger = await openLedgerInThread({ path: file, now: () => clock.ms });
const { handlers, recorder } = ledger;
afterAll(() => ledger.close());

const find = async (search: string, limit = 50) => handlers.searchJobs({ search, limit });
const numbers = async (search: string) => (await find(search)).found.map(({ line }) => line.number);
const take = (fields: Partial<JobFields>) =>
  handlers.createJob(jobFields({ serialNumber: '', customer: '', symptom: 'dead', ...fields }));

async function run(jobId: string, stages: readonly (readonly [StageId, number])[]) {
  const { settings } = runStart();
  const started = await recorder.startRun(runStart({ jobId, startedAt: clock.ms }));
  await recorder.appendSupply({ runId: started.id, columns: samples(40) });
  const [shape] = report().stages;
  const said = report({
    stages: stages.map(([stage, meanA], i) => ({
      ...shape!,
      stage,
      meanA,
      meanV: 19,
      startS: i,
      endS: i + 1,
    })),
  });
  const end = 'output-off' as const;
  await recorder.endRun({ runId: started.id, endedAt: clock.ms, end, report: said, settings });
  return started.id;
}

const volts = (
  jobId: string,
  place: string,
  value: number,
  expected: readonly [number, number] | null,
) =>
  handlers.addReading({
    jobId,
    itemId: null,
    runId: null,
    quantity: 'volts',
    value,
    overload: false,
    decimals: 2,
    place,
    expectedLow: expected?.[0] ?? null,
    expectedHigh: expected?.[1] ?? null,
    source: 'typed',
  });

const made: Record<'stalledLow' | 'stalledHigh' | 'unnamed' | 'wet', number> = {
  stalledLow: 0,
  stalledHigh: 0,
  unnamed: 0,
  wet: 0,
};

beforeAll(async () => {
  await handlers.saveBoard({ name: 'Tern 14', was: null, table: TERN_TABLE });
  const low = await take({
    boardModel: 'Tern 14',
    serialNumber: 'TN-14/00815',
    symptom: 'No picture',
  });
  await run(low.id, [
    ['stepping', 0.11],
    ['stalled', 0.26],
  ]);
  const reading = {
    jobId: low.id,
    itemId: null,
    runId: null,
    quantity: 'volts',
    value: 6.1,
    overload: false,
    decimals: 2,
    place: '',
    expectedLow: null,
    expectedHigh: null,
    source: 'typed',
  } as const;
  const on = {
    rail: 'MAIN_8V6',
    point: 'output',
    against: null,
    state: null,
    powered: true,
  } as const;
  await handlers.addRailReading({ reading, ...on });
  const high = await take({ boardModel: 'Tern 14', symptom: 'Stops half way' });
  await run(high.id, [['stalled', 0.52]]);
  await handlers.addRailReading({ reading: { ...reading, jobId: high.id, value: 8.6 }, ...on });
  const unnamed = await take({ boardModel: null, symptom: 'Flickers, café owner’s Ångström lamp' });
  await run(unnamed.id, [['stalled', 0.24]]);
  await volts(unnamed.id, 'main rail', 2.9, [8.2, 9]);
  const wet = await take({ boardModel: 'Curlew', liquid: 'yes', symptom: 'Tea' });
  await volts(wet.id, 'coil L7', 5.2, null);
  Object.assign(made, {
    stalledLow: low.number,
    stalledHigh: high.number,
    unnamed: unnamed.number,
    wet: wet.number,
  });
});

describe('searching the jobs', () => {
  it('finds the jobs that stalled there with that rail low, and says why', async () => {
    expect((await numbers('stalled 0.2..0.3 A main rail low')).sort()).toEqual(
      [made.stalledLow, made.unnamed].sort(),
    );
    const [first] = (await find(`stalled 0.2..0.3 A main rail low #${made.stalledLow}`)).found;
    expect(first?.whys).toMatchObject([
      {
        place: 'runs',
        parts: [{ text: 'Stalled', isHit: true }, {}, { text: '260\u00a0mA' }, {}, {}],
      },
      {
        place: 'readings',
        parts: [
          { text: 'main 8v6: ', isHit: false },
          { text: 'low', isHit: true },
        ],
      },
    ]);
    const { runs, readings } = await handlers.readJob({ id: first!.line.id });
    expect(first?.whys.map(({ refId }) => refId)).toEqual([runs[0]!.id, readings[0]!.id]);
  });

  it('keeps to the numbers that were asked for', async () => {
    expect(await numbers('stalled 0.5..0.6 A')).toEqual([made.stalledHigh]);
    expect(await numbers('stalled >0.52 A')).toEqual([]);
    expect(await numbers('stalled >=0.52 A')).toEqual([made.stalledHigh]);
    expect(await numbers('stalled ~0.5 A')).toEqual([made.stalledHigh]);
    expect(await numbers('main rail 2..3 V')).toEqual([made.unnamed]);
    expect(await numbers('main rail present')).toEqual([made.stalledHigh]);
    expect(await numbers('5.1..5.3 V')).toEqual([made.wet]);
    expect((await numbers('rail low')).length).toBe(2);
  });

  it('finds words by their beginnings, whatever their accents and case', async () => {
    expect(await numbers('CAFE')).toEqual([made.unnamed]);
    expect(await numbers('angstr')).toEqual([made.unnamed]);
    expect(await numbers('"half way"')).toEqual([made.stalledHigh]);
    expect(await numbers('"way half"')).toEqual([]);
    const [found] = (await find('angstr')).found;
    expect(found?.whys[0]).toMatchObject({ place: 'facts', refId: 'symptom', label: 'Symptom' });
    expect(found?.whys[0]?.parts.find(({ isHit }) => isHit)?.text).toBe('Ångström');
  });

  it('finds a serial number by its end, and without its dashes', async () => {
    for (const typed of ['tn1400815', '815', '0815', 'TN-14/00815', '14008']) {
      expect(await numbers(typed), typed).toContain(made.stalledLow);
    }
  });

  it('finds liquid, and what was taken in on a day', async () => {
    expect(await numbers('liquid')).toEqual([made.wet]);
    expect(await numbers('2026-02-02 liquid')).toEqual([made.wet]);
    expect(await numbers('today liquid')).toEqual([made.wet]);
    expect(await numbers('before 2026-02 liquid')).toEqual([]);
    expect(await numbers('no liquid curlew')).toEqual([]);
  });

  it('follows every change in the same moment', async () => {
    const job = await take({ symptom: 'zebra one' });
    expect(await numbers('zebra')).toEqual([job.number]);
    await handlers.changeJob({ id: job.id, fields: { symptom: 'okapi' } });
    expect(await numbers('zebra')).toEqual([]);
    expect(await numbers('okapi')).toEqual([job.number]);
    const runId = await run(job.id, [['creeping', 0.9]]);
    expect(await numbers('creeping 0.9 A')).toEqual([job.number]);
    await handlers.addRunNote({ id: runId, atS: 0.5, text: 'smells of gentian' });
    expect(await numbers('gentian')).toEqual([job.number]);
    const other = await take({ symptom: 'numbat' });
    await handlers.giveRun({ id: runId, jobId: other.id });
    expect(await numbers('creeping 0.9 A')).toEqual([other.number]);
    expect(await numbers('gentian')).toEqual([other.number]);
    await handlers.binJob({ id: other.id });
    expect(await numbers('numbat')).toEqual([]);
    await handlers.restoreJob({ id: other.id });
    expect(await numbers('numbat')).toEqual([other.number]);
    await handlers.binJob({ id: other.id });
    await handlers.emptyBin({});
    expect(await numbers('numbat')).toEqual([]);
  });

  it('puts the job first that says it in its symptom', async () => {
    const noted = await take({ symptom: 'dead' });
    await handlers.addPart({
      jobId: noted.id,
      part: {
        action: 'lifted',
        designator: 'C1',
        kind: '',
        value: '',
        rail: '',
        stateFound: 'marmot',
        from: '',
      },
    });
    const symptom = await take({ symptom: 'marmot' });
    await volts(noted.id, 'x', 1, null);
    expect(await numbers('marmot')).toEqual([symptom.number, noted.number]);
  });

  it('says at which character a search is wrong', async () => {
    const thrown = await find('stalled 0.2..0.3').catch((e: unknown) => e);
    expect(thrown).toBeInstanceOf(WakelineError);
    expect((thrown as WakelineError).trouble).toMatchObject({
      code: 'bad-input',
      where: expect.stringContaining('character 17'),
    });
  });

  it('never breaks on hostile text, and never hands out markup', async () => {
    await take({ symptom: '<b onmouseover=x>quokka</b> ") OR 1=1 -- \u0000 NEAR(' });
    const [nasty] = (await find('quokka')).found;
    expect(nasty?.whys[0]?.parts.map(({ text }) => text).join('')).toContain('<b onmouseover=x>');
    expect(nasty?.whys[0]?.parts.filter(({ isHit }) => isHit)).toEqual([
      { text: 'quokka', isHit: true },
    ]);
    const spice = fc.constantFrom(
      ...[
        '"',
        '*',
        'NEAR(a b, 2)',
        '--',
        ')',
        '(',
        'AND',
        'OR',
        'NOT',
        '^',
        ':',
        'facts:',
        '{',
        '}',
      ],
      ...[
        "'",
        ';',
        '\\',
        '%',
        '_',
        '\u0000',
        '-',
        '+',
        '#1',
        'stalled',
        'rail',
        'low',
        'a*',
        'İ',
        '🔥',
      ],
    );
    const text = fc.oneof(
      fc
        .array(fc.oneof(spice, fc.string({ maxLength: 6 })), { maxLength: 8 })
        .map((p) => p.join(' ')),
      fc.array(spice, { maxLength: 8 }).map((p) => p.join('')),
      fc.string({ unit: 'binary', maxLength: 30 }),
    );
    await fc.assert(
      fc.asyncProperty(text, async (search) => {
        const answer = await find(search, 5).catch((e: unknown) => e);
        if (answer instanceof WakelineError) expect(answer.trouble.code).toBe('bad-input');
        else expect(answer).toMatchObject({ waiting: 0 });
      }),
      { numRuns: 50 },
    );
  });

  it('finds again every word of a job by itself, and can say where it stands', async () => {
    // SQLite's tokenizer knows the letters of Unicode 6.1; scripts that came later are no words to it.
    const ranges = [
      [0x20, 0x24f],
      [0x370, 0x3ff],
      [0x400, 0x4ff],
      [0x5d0, 0x5ea],
      [0x620, 0x64a],
      [0x905, 0x939],
      [0x3041, 0x3096],
      [0x4e00, 0x9fa5],
      [0xac00, 0xd7a3],
      [0x1f600, 0x1f640],
    ] as const;
    const letter = fc
      .oneof(...ranges.map(([min, max]) => fc.integer({ min, max })))
      .map((point) => String.fromCodePoint(point));
    const words = fc.array(fc.string({ unit: letter, minLength: 1, maxLength: 8 }), {
      minLength: 1,
      maxLength: 5,
    });
    await fc.assert(
      fc.asyncProperty(words, async (parts) => {
        const symptom = parts.join(' ');
        const job = await take({ symptom, boardModel: 'Fuzz' });
        for (const word of parts) {
          if (!/[\p{L}\p{N}]/u.test(word.normalize('NFKD'))) continue;
          const { found } = await find(`"${word.replace(/["“”„«»]/gu, ' ')}" #${job.number}`);
          if (found.length === 0)
            expect
              .soft(found, `${JSON.stringify(word)} of ${JSON.stringify(symptom)}`)
              .not.toEqual([]);
          else expect(found[0]!.whys.length, JSON.stringify(word)).toBeGreaterThan(0);
        }
      }),
      { numRuns: 20 },
    );
  });
});

describe('the index of the searches', () => {
  it('is made for a ledger from before it', async () => {
    const shipped = path.resolve(
      import.meta.dirname,
      '../../../sample-data/databases/0005_add_signatures.sqlite',
    );
    const old = path.join(folder, 'old.sqlite');
    copyFileSync(shipped, old);
    const from = await openLedgerInThread({ path: old });
    const { found, waiting } = await from.handlers.searchJobs({ search: 'stalled', limit: 9 });
    expect(waiting).toBe(0);
    expect(found.length).toBeGreaterThan(0);
    expect(found[0]!.whys[0]?.place).toBe('runs');
    await from.close();
  });

  it('can be made anew and then answers the same', async () => {
    const asked = ['stalled', 'main rail low', 'café', '815', 'liquid'];
    const before = await Promise.all(asked.map(numbers));
    expect(await handlers.rebuildSearch({})).toBeGreaterThan(0);
    for (const [i, search] of asked.entries()) expect(await numbers(search)).toEqual(before[i]);
  });

  it('lets go of a customer who is to be forgotten, down to the bytes of the file', async () => {
    const jobs = [];
    for (let i = 0; i < 3; i += 1) {
      jobs.push(await take({ customer: 'Xylophia Quimbelsnatch', symptom: 'wants silence' }));
    }
    const [known] = await handlers.listCustomers({ search: 'quimbel', limit: 5 });
    await handlers.giveCustomer({ jobId: jobs[1]!.id, customerId: known!.id });
    expect((await numbers('quimbelsnatch')).length).toBe(3);
    const inFile = () =>
      [file, `${file}-wal`].some((name) =>
        readFileSync(name).toString('latin1').toLowerCase().includes('quimbelsnatch'),
      );
    expect(inFile()).toBe(true);
    for (const { id } of await handlers.listCustomers({ search: 'quimbel', limit: 5 })) {
      await handlers.eraseCustomer({ id });
    }
    expect(await numbers('quimbelsnatch')).toEqual([]);
    expect((await numbers('wants silence')).length).toBe(3);
    const { job } = await handlers.readJob({ id: jobs[0]!.id });
    expect(job.customer).toBe('');
    expect(inFile()).toBe(false);
  });
});
