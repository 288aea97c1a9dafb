import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Trouble } from '../../../core/errors.ts';
import { type GuardedMain, startGuardedMain } from '../../support/guarded-main.ts';
import { type PretendProcess, startPretend } from '../../support/pretend-process.ts';
import { hasSocat } from '../../support/pty.ts';
import { msUntilOff, switchings } from '../../support/watch-off.ts';

const until = async <T>(what: () => Promise<T | undefined> | T | undefined): Promise<T> => {
  const endMs = performance.now() + 8000;
  for (;;) {
    const found = await what();
    if (found !== undefined) return found;
    if (performance.now() > endMs) throw new Error(`not in time: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
};

describe.skipIf(!hasSocat())('the guard on a run, over a pseudo-terminal', () => {
  let pretend: PretendProcess;
  let main: GuardedMain;
  beforeAll(async () => {
    pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
    const port = path.join(pretend.folder, 'supply');
    main = await startGuardedMain({ by: 'serial', path: port, baud: 115_200 });
    await main.started;
    await main.call('setVolts', { volts: 19, confirmed: true });
    await main.call('setLimit', { amps: 2.5 });
  });
  afterAll(async () => {
    await main.quit();
    main.remove();
    await pretend.stop();
  });
  const tripped = () => main.alarms.find(({ code }: Trouble) => code === 'guard-tripped');

  it('switches off above its amps, and says in the timeline which reading, what limit and what it did', async () => {
    await main.call('setGuardLimits', {
      jobId: null,
      readings: [{ on: 'amps', aboveA: 0.05, holdS: 0, action: 'off' }],
      stages: [],
      own: { overV: null, overA: null },
    });
    await main.call('outputOn', {});
    expect(await msUntilOff(pretend, 8000)).not.toBeNull();
    const alarm = await until(tripped);
    expect(alarm.what).toMatch(/^0\.\d+ A is above the guard's 0\.05 A$/);
    expect(alarm.todo).toMatch(/switched the output off/);
    const run = await until(async () =>
      (await main.call('listRuns', { jobId: null })).find(
        (one) => one.kind === 'powered' && one.end !== null,
      ),
    );
    expect(run.end).toBe('guard');
    const { report } = await main.call('readRun', { id: run.id });
    const mark = report.marks.find((one) => one.mark === 'guard-trip');
    expect(mark?.text).toMatch(
      /is above the guard's 0\.05 A\. The guard switched the output off\./,
    );
  });

  it('only tells where it was asked only to tell', async () => {
    main.alarms.length = 0;
    await main.call('setGuardLimits', {
      jobId: null,
      readings: [{ on: 'watts', aboveW: 0.5, holdS: 0, action: 'alert' }],
      stages: [],
      own: { overV: null, overA: null },
    });
    await until(async () =>
      (await main.call('benchState', {})).supply.outputOn === false ? true : undefined,
    );
    await main.call('outputOn', {});
    const alarm = await until(tripped);
    expect(alarm.what).toMatch(/W is above the guard's 0\.5 W/);
    expect((await switchings(pretend)).at(-1)).toBe('on');
    await main.call('outputOff', {});
  });

  it("sets the supply's own trips and reads them back", async () => {
    const state = await main.call('setGuardLimits', {
      jobId: null,
      readings: [],
      stages: [],
      own: { overV: 21, overA: 3 },
    });
    expect(state.ownSet).toEqual({ overV: true, overA: true });
    const log = (await pretend.hands({ do: 'log' })) as { command: string }[];
    expect(log.map(({ command }) => command)).toEqual(
      expect.arrayContaining(['VOLT:PROT 21', 'CURR:PROT 3']),
    );
  });

  it('sets them again before output on: it may be another supply than last time', async () => {
    const counted = async () => {
      const log = (await pretend.hands({ do: 'log' })) as { command: string }[];
      return log.filter(({ command }) => command === 'VOLT:PROT 21').length;
    };
    const before = await counted();
    await main.call('outputOn', {});
    expect(await counted()).toBe(before + 1);
    await main.call('outputOff', {});
  });

  it('refuses a limit that this supply can never reach, and keeps the ones in force', async () => {
    await expect(
      main.call('setGuardLimits', {
        jobId: null,
        readings: [{ on: 'amps', aboveA: 50, holdS: 0, action: 'off' }],
        stages: [],
        own: { overV: null, overA: null },
      }),
    ).rejects.toThrow(/out-of-range: A guard at 50 A never trips: this supply gives at most 10 A/);
    const { settings } = await main.call('guardState', { jobId: null });
    expect(settings.own).toEqual({ overV: 21, overA: 3 });
  });
});
