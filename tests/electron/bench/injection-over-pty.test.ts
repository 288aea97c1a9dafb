import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ArgsOf } from '../../../core/contract/call.ts';
import type { Calls } from '../../../core/contract/contract.ts';
import type { InjectionState } from '../../../core/contract/injection-calls.ts';
import { type GuardedMain, startGuardedMain } from '../../support/guarded-main.ts';
import { CHARGER_FEED, jobFields } from '../../support/ledger-samples.ts';
import { type PretendProcess, startPretend } from '../../support/pretend-process.ts';
import { hasSocat } from '../../support/pty.ts';
import { TERN_TABLE } from '../../support/tern-rails.ts';
import { msUntilOff, switchings } from '../../support/watch-off.ts';

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

async function until<T>(what: () => Promise<T | undefined> | T | undefined): Promise<T> {
  const endMs = performance.now() + 8000;
  for (;;) {
    const found = await what();
    if (found !== undefined) return found;
    if (performance.now() > endMs) throw new Error(`not in time: ${what}`);
    await pause(25);
  }
}

const why = !hasSocat()
  ? 'socat is not installed'
  : process.versions.electron === undefined
    ? null
    : 'the app is killed and stopped here in a process of plain Node, which runs there';
if (why !== null) console.log(`injection-over-pty.test: skipped, ${why}`);

describe.skipIf(why !== null)('current put into a board, over a pseudo-terminal', () => {
  let pretend: PretendProcess;
  let main: GuardedMain;
  let jobId: string;
  let huntId: string;

  const supply = async () => (await main.call('benchState', {})).supply;
  const commands = async () =>
    ((await pretend.hands({ do: 'log' })) as { instrument: string; command: string }[])
      .filter(({ instrument }) => instrument === 'supply')
      .map(({ command }) => command);
  const enter = (more: Partial<ArgsOf<Calls['enterInjection']>> = {}) =>
    main.call('enterInjection', {
      ...{ huntId, purpose: 'rail', leadsAt: 'MAIN_8V6', cellsOff: true },
      ...more,
    });
  const hold = (how: 'press' | 'held' | 'release') => main.call('holdInjection', { hold: how });
  const state = () => main.call('injectionState', {});
  /** Tells main as the window does while a key is held. */
  async function holdFor(ms: number): Promise<InjectionState> {
    const endMs = performance.now() + ms;
    let told = await hold('press');
    while (performance.now() < endMs) {
      await pause(120);
      told = await hold('held');
    }
    return told;
  }

  beforeAll(async () => {
    pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-main-short');
    const port = path.join(pretend.folder, 'supply');
    main = await startGuardedMain({ by: 'serial', path: port, baud: 115_200 });
    await main.started;
    await main.call('saveBoard', { name: 'Tern 14', was: null, table: TERN_TABLE });
    const job = await main.call('createJob', jobFields({ boardModel: 'Tern 14' }));
    jobId = job.id;
    await main.call('openJobOnBench', { jobId });
    for (const item of (await main.call('readJob', { id: jobId })).items) {
      if (!item.beforePower) continue;
      await main.call('skipItem', { jobId, itemId: item.id, reason: 'pretend board' });
    }
    huntId = (await main.call('beginHunt', { jobId, rail: 'MAIN_8V6' })).hunt.id;
    await main.call('setVolts', { volts: 19, confirmed: true });
    await main.call('setLimit', { amps: 2.5 });
    await pretend.hands({ do: 'clip', point: 'MAIN_8V6' });
  });
  afterAll(async () => {
    await main.quit();
    main.remove();
    await pretend.stop();
  });

  it('refuses while the leads are elsewhere, while nobody spoke of cells, and while one is marked attached', async () => {
    const before = await commands();
    await expect(enter({ leadsAt: 'SYS_5V' })).rejects.toThrow(/gate-closed: The leads are said/);
    await expect(enter({ cellsOff: false })).rejects.toThrow(/Nobody said whether a cell/);
    await main.call('setFeed', { feed: { ...CHARGER_FEED, cells: true } });
    await expect(enter()).rejects.toThrow(/A cell is marked attached/);
    await main.call('setFeed', { feed: CHARGER_FEED });
    expect(await commands(), 'nothing was sent').toEqual(before);
  });

  it('lowers volts and limit on the way in, and refuses what feeds a waking board', async () => {
    const entered = await enter();
    expect(entered).toMatchObject({ phase: 'ready', rail: 'MAIN_8V6', setV: 0.5, step: 0 });
    // What hangs on it is not measured apart, so that the lowest of it sets the ceiling.
    expect(entered.plan).toMatchObject({ ceilingV: 3.3, guard: { mostV: 3.3, mostA: 8 } });
    expect(entered.before).toEqual({ setV: 19, limitA: 2.5 });
    expect(await supply()).toMatchObject({ setV: 0.5, limitA: 0.5, outputOn: false });
    await expect(main.call('outputOn', {})).rejects.toThrow(/while current is put in/);
    await expect(main.call('setVolts', { volts: 19, confirmed: true })).rejects.toThrow(
      /No other volts while/,
    );
    await expect(enter()).rejects.toThrow(/already/);
  });

  it('is on while it is held, off when it is let go, and each press is sent its volts and limit again', async () => {
    const before = (await switchings(pretend)).length;
    const running = await holdFor(900);
    expect(running.phase).toBe('running');
    const seen = await supply();
    expect(seen.outputOn).toBe(true);
    // 0.5 V over the short of 2.1 ohm and leads of 0.06 ohm.
    expect(seen.amps).toBeCloseTo(0.5 / 2.162, 2);
    const startMs = performance.now();
    const let_go = await hold('release');
    expect(let_go).toMatchObject({ phase: 'ready', said: 'Off: released.' });
    const tookMs = await msUntilOff(pretend, 3000, startMs);
    expect(tookMs).toBeLessThan(500);
    expect((await switchings(pretend)).slice(before)).toEqual(['on', 'off']);
    expect((await commands()).slice(-4)).toEqual([
      expect.stringMatching(/CURR\S* 0\.5/),
      expect.stringMatching(/VOLT\S* 0\.5/),
      expect.stringMatching(/OUTP\S* (ON|1)/),
      expect.stringMatching(/OUTP\S* (OFF|0)/),
    ]);
  });

  it('takes silence for letting go: no more word of the key, and the OFF goes out', async () => {
    await hold('press');
    await until(async () => ((await supply()).outputOn === true ? true : undefined));
    await hold('held');
    const tookMs = await msUntilOff(pretend, 3000);
    expect(tookMs).not.toBeNull();
    expect(tookMs).toBeGreaterThan(300);
    expect(tookMs).toBeLessThan(1500);
    expect(await state()).toMatchObject({
      phase: 'ready',
      said: 'Off: the key or pedal went silent.',
    });
    // What a stuck window still says of the key switches nothing on.
    await hold('held');
    await pause(200);
    expect((await switchings(pretend)).at(-1)).toBe('off');
  });

  it('raises by one step a press of a person, up to the ceiling and no further', async () => {
    await main.call('stepInjection', { of: 'limit', up: true });
    expect(await state()).toMatchObject({ step: 1 });
    await expect(
      (async () => {
        for (let i = 0; i < 40; i += 1) await main.call('stepInjection', { of: 'volts', up: true });
      })(),
    ).rejects.toThrow(/out-of-range: .*ceiling of 3\.3 V/);
    expect((await state()).setV).toBeCloseTo(3.3, 9);
    for (let i = 0; i < 28; i += 1) await main.call('stepInjection', { of: 'volts', up: false });
    expect((await state()).setV).toBeCloseTo(0.5, 9);
    await expect(
      (async () => {
        for (let i = 0; i < 9; i += 1) await main.call('stepInjection', { of: 'limit', up: true });
      })(),
    ).rejects.toThrow(/8\sA is the ceiling/);
    for (let i = 0; i < 5; i += 1) await main.call('stepInjection', { of: 'limit', up: false });
    expect(await state()).toMatchObject({ step: 0 });
  });

  it('goes off when the volts pass the ceiling: here a cell that somebody said was off', async () => {
    main.alarms.length = 0;
    await holdFor(600);
    expect((await supply()).outputOn).toBe(true);
    await pretend.hands({ do: 'put-board', board: 'wren-cell-in' });
    const tripped = await until(async () => {
      const told = await hold('held');
      return told.phase === 'running' ? undefined : told;
    });
    expect(tripped.phase).toBe('tripped');
    expect(tripped.said).toMatch(/V is above the guard's 3\.366 V/);
    expect(main.alarms.map(({ code }) => code)).toContain('guard-tripped');
    await expect(hold('press')).rejects.toThrow(/above the guard/);
    expect((await switchings(pretend)).at(-1)).toBe('off');
    await pretend.hands({ do: 'put-board', board: 'tern-main-short' });
    await pretend.hands({ do: 'clip', point: 'MAIN_8V6' });
    expect(await main.call('seenInjectionTrip', {})).toMatchObject({ phase: 'ready', step: 0 });
  });

  it('does not go on with a cell that is marked attached, and leaves with everything as it was', async () => {
    await main.call('setFeed', { feed: { ...CHARGER_FEED, cells: true } });
    expect(await state()).toMatchObject({ phase: 'off' });
    await main.call('setFeed', { feed: CHARGER_FEED });
    expect(await supply()).toMatchObject({ setV: 19, limitA: 2.5, outputOn: false });
    await until(async () =>
      (await main.call('benchState', {})).run?.kind === 'idle' ? true : undefined,
    );
    const { runs } = await main.call('readJob', { id: jobId });
    // All presses of one stay in the mode lie in one run.
    expect(runs.map(({ kind }) => kind)).toEqual(['injection']);
    expect(runs[0]).toMatchObject({ endedAt: expect.any(Number), end: 'guard' });
    const [whole] = await main.call('listHunts', { jobId });
    expect(whole?.hunt.runIds).toEqual([runs[0]?.id]);
    expect(await main.call('listJobs', { search: '', limit: 9 })).toMatchObject([
      { runs: 0, lastReach: null },
    ]);
  });

  it('measures the leads with their tips together, by itself, and keeps them with the hunt', async () => {
    await pretend.hands({ do: 'clip', point: 'each other' });
    await enter({ purpose: 'leads', leadsAt: 'each other' });
    await holdFor(1800);
    await hold('release');
    const [whole] = await main.call('listHunts', { jobId });
    expect(whole?.hunt).toMatchObject({ leadFrom: 'measured' });
    expect(whole?.hunt.leadOhm).toBeCloseTo(0.06, 2);
    expect((await switchings(pretend)).at(-1)).toBe('off');
    await main.call('leaveInjection', {});
  });
});
