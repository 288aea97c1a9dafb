import type { ChecklistItem, JobFields, PartFields, Quantity, Run } from '../../core/job/job.ts';
import { classifyTrace } from '../../core/stages/tracker.ts';
import type { Ledger } from '../../electron/ledger/ledger-client.ts';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { CHARGER_FEED, jobFields, runStart } from './ledger-samples.ts';
import { type Draw, loops, runsFlatAt, stallsAt, supplyTrace, wakes } from './seed-draws.ts';

/** The ledger's clock while it is filled: UTC ms, moved on by the seeding. */
export interface SeedClock {
  ms: number;
}

/** Ids of what was put in, by what each is for. */
export interface Seeded {
  readonly jobs: {
    /** Closed, repaired: readings, parts, runs before and after, outcome. */
    readonly repaired: string;
    /** The same serial number again, open. */
    readonly comeback: string;
    /** Got wet, waiting for a part, board unknown. */
    readonly liquid: string;
    /** A 24 V controller that runs flat. */
    readonly controller: string;
    /** Just taken in: nothing done. */
    readonly fresh: string;
  };
  readonly runs: {
    readonly before: string;
    readonly after: string;
    readonly looping: string;
    readonly controller: string;
    /** Recorded while no job was open. */
    readonly loose: string;
  };
}

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

/** Fills a ledger through its public calls with invented jobs and runs. */
export async function seedLedger(
  ledger: Ledger,
  clock: SeedClock = { ms: Date.now() },
): Promise<Seeded> {
  const { handlers, recorder } = ledger;

  const record = async (
    jobId: string | null,
    draw: Draw,
    o: { seconds: number; setV: number; limitA: number; role?: Run['role'] },
  ): Promise<string> => {
    const { setV, limitA } = o;
    const feed = CHARGER_FEED;
    const settings = await recorder.settingsFor({ jobId, setV, limitA, feed });
    const startedAt = clock.ms;
    const run = await recorder.startRun(
      runStart({
        jobId,
        kind: jobId === null ? 'idle' : 'powered',
        startedAt,
        feed,
        setV,
        limitA,
        settings,
      }),
    );
    const columns = supplyTrace(draw, o);
    await recorder.appendSupply({ runId: run.id, columns });
    const report = classifyTrace(columns, settings);
    clock.ms += o.seconds * 1000;
    await recorder.endRun({
      runId: run.id,
      endedAt: clock.ms,
      end: 'output-off',
      report,
      settings,
    });
    if (o.role !== undefined) await handlers.changeRun({ id: run.id, role: o.role });
    clock.ms += MINUTE;
    return run.id;
  };

  const itemsOf = async (jobId: string) => (await handlers.readJob({ id: jobId })).items;

  const measure = async (
    jobId: string,
    item: ChecklistItem | null,
    o: {
      quantity: Quantity;
      value: number;
      place: string;
      between?: readonly [number, number];
    },
  ) => {
    clock.ms += MINUTE;
    await handlers.addReading({
      jobId,
      itemId: item?.id ?? null,
      runId: null,
      quantity: o.quantity,
      value: o.value,
      overload: false,
      decimals: 3,
      place: o.place,
      expectedLow: o.between?.[0] ?? null,
      expectedHigh: o.between?.[1] ?? null,
      source: 'meter',
    });
  };

  /** Walks the open steps up to power as a careful person would. */
  const walkBeforePower = async (jobId: string, ohms: Readonly<Record<string, number>>) => {
    const early = ['Take in', 'Look', 'Before power'];
    for (const item of await itemsOf(jobId)) {
      if (item.state !== 'open' || !(early.includes(item.phase) || item.beforePower)) continue;
      clock.ms += MINUTE / 2;
      if (item.needs === 'photo') {
        const reason = 'The camera was on loan';
        await handlers.skipItem({ jobId, itemId: item.id, reason });
        continue;
      }
      if (item.quantity === null) {
        const note = item.needs === 'note' ? 'Asked and written down' : '';
        await handlers.doItem({ jobId, itemId: item.id, note });
        continue;
      }
      const value = ohms[item.place] ?? 1_800;
      await measure(jobId, item, { quantity: item.quantity, value, place: item.place });
    }
  };

  const take = (fields: Partial<JobFields>) => handlers.createJob(jobFields(fields));

  const part = (fields: Partial<PartFields>): PartFields => ({
    action: 'lifted',
    designator: 'C3107',
    kind: 'ceramic capacitor',
    value: '22 uF 25 V X5R 0805',
    rail: 'Main rail',
    stateFound: 'shorted, 0.3 ohm',
    from: '',
    ...fields,
  });

  const repaired = await take({
    symptom: 'Dead after a drop, charger lamp stays on',
    accessories: 'Charger, sleeve',
    promised: 'Call before more than two hours',
    matters: 'data',
  });
  await walkBeforePower(repaired.id, { 'Main rail': 0.31, Input: 41_000 });
  const before = await record(repaired.id, stallsAt(0.26), {
    seconds: 30,
    setV: 19,
    limitA: 1,
    role: 'before',
  });
  for (const item of await itemsOf(repaired.id)) {
    if (item.state !== 'open' || item.quantity !== 'volts') continue;
    const isMain = item.place === 'Main rail';
    await measure(repaired.id, item, {
      quantity: 'volts',
      value: isMain ? 2.714 : 3.302,
      place: item.place,
      between: isMain ? [8.2, 8.9] : [3.2, 3.4],
    });
  }
  await handlers.addPart({ jobId: repaired.id, part: part({}) });
  clock.ms += 12 * MINUTE;
  await handlers.addPart({
    jobId: repaired.id,
    part: part({ action: 'fitted', stateFound: '', from: 'donor board, same place' }),
  });
  await walkBeforePower(repaired.id, { 'Main rail': 14_300, Input: 41_000 });
  const after = await record(repaired.id, wakes(0.5), {
    seconds: 45,
    setV: 19,
    limitA: 3,
    role: 'after',
  });
  for (const item of await itemsOf(repaired.id)) {
    if (item.state !== 'open' || item.step !== 'same-volts-again') continue;
    const isMain = item.place === 'Main rail';
    await measure(repaired.id, item, {
      quantity: 'volts',
      value: isMain ? 8.604 : 3.301,
      place: item.place,
      between: isMain ? [8.2, 8.9] : [3.2, 3.4],
    });
  }
  await handlers.closeJob({
    id: repaired.id,
    outcome: {
      verdict: 'wakes',
      cause: 'C3107 shorted on the main rail',
      provedBy: 'Main rail 8.6 V, three cold wakes',
      misledBy: 'The flat 0.26 A looked like a processor',
    },
  });

  clock.ms += 3 * DAY;
  const liquid = await take({
    boardModel: null,
    serialNumber: '',
    customer: 'M. Osprey',
    symptom: 'Tea over the keys, restarts for ever',
    liquid: 'yes',
    template: 'liquid',
    board: { statedInputV: null, statedLimitA: null, runningA: null, runsFlat: null },
  });
  await walkBeforePower(liquid.id, {});
  const looping = await record(liquid.id, loops, { seconds: 40, setV: 12, limitA: 2 });
  await handlers.setJobState({ id: liquid.id, state: 'waiting' });

  clock.ms += DAY;
  const controller = await take({
    boardModel: 'Millrace C2',
    serialNumber: 'MR 0007',
    customer: 'Weir Mill',
    symptom: 'No output on Q3',
    template: 'controller',
    board: { statedInputV: 24, statedLimitA: 0.5, runningA: 0.18, runsFlat: true },
  });
  await walkBeforePower(controller.id, {});
  const controllerRun = await record(controller.id, runsFlatAt(0.18), {
    seconds: 30,
    setV: 24,
    limitA: 0.5,
  });

  clock.ms += 10 * DAY;
  const loose = await record(null, runsFlatAt(0), { seconds: 20, setV: 5, limitA: 1 });
  await handlers.addReading({
    jobId: null,
    itemId: null,
    runId: loose,
    quantity: 'volts',
    value: 5.021,
    overload: false,
    decimals: 3,
    place: 'Bench',
    expectedLow: null,
    expectedHigh: null,
    source: 'meter',
  });
  const comeback = await take({
    serialNumber: 'hr3-00 42',
    symptom: 'Back again: off after an hour',
    template: 'after-repair',
  });
  clock.ms += MINUTE;
  const fresh = await take({
    boardModel: 'Heron 3',
    serialNumber: 'HR3-0100',
    customer: 'Fernbank School',
    symptom: 'No picture',
    template: 'no-picture',
  });
  return {
    jobs: {
      repaired: repaired.id,
      comeback: comeback.id,
      liquid: liquid.id,
      controller: controller.id,
      fresh: fresh.id,
    },
    runs: { before, after, looping, controller: controllerRun, loose },
  };
}

/**
 * Opens a ledger at `path` in this thread, on an invented clock, and fills it. `asideEntry` is for tests
 * that copy it inside an older Electron.
 */
export async function openSeededLedger(
  path: string,
  asideEntry?: URL,
): Promise<{ ledger: Ledger; seeded: Seeded; clock: SeedClock }> {
  const clock: SeedClock = { ms: Date.UTC(2026, 0, 5, 8, 30, 0) };
  const ledger = await openLedgerInThread({ path, now: () => clock.ms, asideEntry });
  return { ledger, seeded: await seedLedger(ledger, clock), clock };
}
