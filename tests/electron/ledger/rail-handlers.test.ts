import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import type { Quantity } from '../../../core/job/job.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';

const folder = tempFolder('rails');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({
  path: path.join(folder, 'ledger.sqlite'),
  now: () => clock.ms,
});
beforeAll(() => handlers.saveBoard({ name: 'Tern 14', was: null, table: TERN_TABLE }));
afterAll(() => ledger.close());
const { handlers } = ledger;

const troubleOf = (call: Promise<unknown> | unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble : e),
  );

async function newJob(boardModel: string | null = 'Tern 14') {
  const { id: jobId } = await handlers.createJob(jobFields({ boardModel }));
  const open = async () => {
    for (const step of ['cells-unplugged', 'capacitors-discharged']) {
      const { items } = await handlers.readJob({ id: jobId });
      const item = items.find((one) => one.step === step)!;
      await handlers.doItem({ jobId, itemId: item.id, note: '' });
    }
  };
  const take = async (rail: string, quantity: Quantity, value: number | null) => {
    clock.ms += 1000;
    return handlers.addRailReading({
      reading: {
        jobId,
        itemId: null,
        runId: null,
        quantity,
        value,
        overload: value === null,
        decimals: 3,
        place: '',
        expectedLow: null,
        expectedHigh: null,
        source: 'meter',
      },
      rail,
      point: 'output',
      against: null,
      state: null,
      powered: quantity === 'volts',
    });
  };
  const walk = () => handlers.railWalk({ jobId, state: null, isPowered: false });
  const line = async (rail: string) =>
    (await walk()).job!.rails.find((one) => one.rail.name === rail)!;
  return { jobId, open, take, walk, line };
}

describe('readings on rails', () => {
  it('are readings of the job like any other, with a verdict and its arithmetic', async () => {
    const { jobId, take, line } = await newJob();
    const kept = await take('MAIN_8V6', 'volts', 2.713);
    expect((await handlers.readJob({ id: jobId })).readings).toEqual([kept]);
    expect(kept.place).toBe('MAIN_8V6');
    const main = await line('MAIN_8V6');
    expect(main.verdict).toBe('low');
    expect(main.now[0]?.arithmetic).toMatch(/^2\.713\sV/);
    expect(main.now[0]?.arithmetic).toMatch(/against 8\.6\sV/);
    expect((await line('SYS_5V')).verdict).toBe('not-measured');
  });

  it('in ohms wait for the gates and for a board that is off', async () => {
    const { open, take, line } = await newJob();
    expect(await troubleOf(take('MAIN_8V6', 'ohms', 2.1))).toMatchObject({ code: 'gate-closed' });
    await open();
    await take('MAIN_8V6', 'ohms', 2.1);
    expect((await line('MAIN_8V6')).verdict).toBe('shorted');
  });

  it('on no rail of the board are refused, and nothing is kept', async () => {
    const { jobId, take } = await newJob();
    expect(await troubleOf(take('MAIN', 'volts', 8))).toMatchObject({
      code: 'bad-input',
      where: 'MAIN',
    });
    expect((await handlers.readJob({ id: jobId })).readings).toEqual([]);
  });

  it('taken for a checklist step or by place stand on the rail of that name', async () => {
    const { jobId, line } = await newJob();
    await handlers.addReading({
      jobId,
      itemId: null,
      runId: null,
      quantity: 'volts',
      value: 18.9,
      overload: false,
      decimals: 2,
      place: 'f1 board side',
      expectedLow: null,
      expectedHigh: null,
      source: 'typed',
    });
    expect((await line('DC_FUSED')).verdict).toBe('present');
  });

  it('of a board that nobody knows stand alone until it gets a name', async () => {
    const { jobId, take, walk } = await newJob(null);
    expect(await troubleOf(take('MAIN_8V6', 'volts', 8))).toMatchObject({ code: 'not-found' });
    await handlers.addReading({
      jobId,
      itemId: null,
      runId: null,
      quantity: 'volts',
      value: 8.61,
      overload: false,
      decimals: 2,
      place: 'MAIN_8V6',
      expectedLow: null,
      expectedHigh: null,
      source: 'typed',
    });
    expect(await walk()).toMatchObject({ board: null, job: null, alone: [{ value: 8.61 }] });
    await handlers.changeJob({ id: jobId, fields: { boardModel: 'Tern 14' } });
    const named = await walk();
    expect(named.alone).toEqual([]);
    expect(named.job!.rails[1]).toMatchObject({ verdict: 'present' });
  });

  it('carry the leads and accuracy that the bench knows at the time', async () => {
    const { open, take, line } = await newJob();
    await open();
    await handlers.saveMeterFacts({
      facts: { wires: 2, leadOhm: 0.14, voltsPercent: 0.1, ohmsPercent: 1 },
    });
    await take('MAIN_8V6', 'ohms', 2.24);
    expect((await line('MAIN_8V6')).now[0]?.arithmetic).toMatch(
      /2\.24\sΩ − 0\.14\sΩ of leads = 2\.1\sΩ/,
    );
    await handlers.saveMeterFacts({
      facts: { wires: 2, leadOhm: null, voltsPercent: null, ohmsPercent: null },
    });
    expect((await line('MAIN_8V6')).now[0]?.arithmetic).toMatch(/0\.14\sΩ of leads/);
  });
});

describe('known-good', () => {
  it('is learned from readings marked as good: median, spread and count', async () => {
    const { open, take } = await newJob();
    await open();
    for (const ohms of [880, 910, 900]) {
      const kept = await take('SYS_5V', 'ohms', ohms);
      await handlers.markReadingGood({ readingId: kept.id, good: true });
    }
    const board = await handlers.readBoard({ name: 'Tern 14' });
    // Median absolute deviation 10, times 1.4826 (Hampel 1974, the factor from memory).
    expect(board?.learned.rails[3]?.expectedOhms).toEqual({
      median: 900,
      spread: expect.closeTo(14.826, 6),
      count: 3,
    });
    expect(board?.stated.rails[3]?.expectedOhms).toMatchObject({ median: 900, count: 1 });
    const odd = await take('SYS_5V', 'ohms', 100);
    await handlers.markReadingGood({ readingId: odd.id, good: true });
    await handlers.markReadingGood({ readingId: odd.id, good: false });
    const again = await handlers.readBoard({ name: 'Tern 14' });
    expect(again?.learned.rails[3]?.expectedOhms?.count).toBe(3);
  });

  it('is not taught by volts', async () => {
    const { take } = await newJob();
    const kept = await take('SYS_5V', 'volts', 5);
    expect(
      await troubleOf(handlers.markReadingGood({ readingId: kept.id, good: true })),
    ).toMatchObject({ code: 'bad-input' });
  });
});

describe('the walk of a job', () => {
  it('ends at the shorted main rail, and counts its measurements beside the advice', async () => {
    const { jobId, open, take, walk } = await newJob();
    await open();
    const fresh = await walk();
    expect(fresh.job!.walk.next).toHaveLength(3);
    expect(fresh.job!.walk.next[0]?.why).toMatch(/^If /);
    await take('MAIN_8V6', 'volts', 2.713);
    await take('DC_FUSED', 'volts', 18.93);
    await take('MAIN_8V6', 'ohms', 2.1);
    const { job } = await walk();
    expect(job!.walk.suspects[0]?.faults[0]?.key).toBe('short:MAIN_8V6');
    expect(job!.walk.suspects[0]?.probability).toBeGreaterThan(0.9);
    expect(job!.walk.isSettled).toBe(true);
    expect(job!.taken).toBe(3);
    expect(job!.advised?.count).toBeGreaterThan(0);
    expect(job!.advised?.fault).toContain('MAIN_8V6');
    // Thought through once, it is there also while a run is being recorded.
    const powered = await handlers.railWalk({ jobId, state: null, isPowered: true });
    expect(powered.job!.advised).toEqual(job!.advised);
    for (const finding of job!.findings) expect(finding.source).not.toBe('');
  });

  it('takes "cannot reach it" for an answer and proposes something else', async () => {
    const { jobId, walk } = await newJob();
    const first = (await walk()).job!.walk.next[0]!.measurement.key;
    await handlers.cannotReach({ jobId, measurement: first, cannot: true });
    const keys = async () => (await walk()).job!.walk.next.map((one) => one.measurement.key);
    expect(await keys()).not.toContain(first);
    expect((await walk()).cannotReach).toEqual([first]);
    await handlers.cannotReach({ jobId, measurement: first, cannot: false });
    expect(await keys()).toContain(first);
  });

  it('asks for the same points again after a part was changed, and sets both side by side', async () => {
    const { jobId, open, take, walk, line } = await newJob();
    await open();
    await take('MAIN_8V6', 'volts', 2.713);
    await take('MAIN_8V6', 'ohms', 2.1);
    clock.ms += 1000;
    for (const action of ['lifted', 'fitted'] as const) {
      await handlers.addPart({
        jobId,
        part: {
          action,
          designator: 'C112',
          kind: 'ceramic capacitor',
          value: '22u',
          rail: 'MAIN_8V6',
          stateFound: '',
          from: '',
        },
      });
    }
    const asked = (await walk()).job!;
    expect(asked.again.map(({ reading }) => [reading.rail, reading.quantity])).toEqual([
      ['MAIN_8V6', 'volts'],
      ['MAIN_8V6', 'ohms'],
    ]);
    expect(asked.taken).toBe(2);
    expect(await line('MAIN_8V6')).toMatchObject({
      verdict: 'not-measured',
      verdictBefore: 'shorted',
    });
    await take('MAIN_8V6', 'ohms', 8210);
    await take('MAIN_8V6', 'volts', 8.604);
    expect((await walk()).job!.again).toEqual([]);
    expect(await line('MAIN_8V6')).toMatchObject({ verdict: 'present', isOdd: false });
  });

  it('says what contradicts', async () => {
    const { take, walk } = await newJob();
    await take('ALW_3V3', 'volts', 3.3);
    await take('ALW_3V3', 'volts', 0.01);
    expect((await walk()).job!.walk.contradictions[0]?.text).toMatch(/ALW_3V3/);
  });
});
