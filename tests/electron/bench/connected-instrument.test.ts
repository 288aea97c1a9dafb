import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import type { MeterReading } from '../../../core/instruments/meter.ts';
import type { SupplyReading } from '../../../core/instruments/supply.ts';
import { connectMeter } from '../../../electron/bench/connected-meter.ts';
import { connectSupply } from '../../../electron/bench/connected-supply.ts';
import { monotonicClock } from '../../../electron/bench/monotonic-clock.ts';
import { openPretendLink } from '../../../electron/bench/pretend-link.ts';
import { openSerialLink } from '../../../electron/bench/serial-link.ts';
import { dialogueMeter } from '../../support/dialogue-meter.ts';
import { dialogueSupply } from '../../support/dialogue-supply.ts';
import { nodePath } from '../../support/node-path.ts';
import { devicePty, hasSocat, type Pty } from '../../support/pty.ts';

const DEVICE = new URL('../../support/dialogue-process.ts', import.meta.url).pathname;
const device = (...words: string[]) => devicePty([nodePath, DEVICE, ...words]);

const ends: (() => Promise<void>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});
const plugged = async (...words: string[]): Promise<Pty> => {
  const pty = await device(...words);
  ends.push(() => pty.remove());
  return pty;
};

/** Everything that a connected supply reported. */
function witness() {
  const readings: { reading: SupplyReading; midMs: number }[] = [];
  const events: string[] = [];
  const troubles: Trouble[] = [];
  return {
    readings,
    events,
    troubles,
    hooks: {
      clock: monotonicClock,
      intervalMs: 20,
      onReading: (reading: SupplyReading, at: { midMs: number }) =>
        void readings.push({ reading, midMs: at.midMs }),
      onTrouble: (trouble: Trouble) => void troubles.push(trouble),
      onLost: (trouble: Trouble) => {
        events.push('lost');
        troubles.push(trouble);
      },
      onBack: () => void events.push('back'),
    },
  };
}

async function until(isSo: () => boolean, longestMs = 8000): Promise<void> {
  const endMs = Date.now() + longestMs;
  while (!isSo()) {
    if (Date.now() > endMs) throw new Error('it never came to be so');
    await sleep(10);
  }
}

async function troubleIn(work: Promise<unknown>): Promise<Trouble> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
}

const open = (pty: Pty) => () => openSerialLink(pty.path, 115_200);

if (!hasSocat()) console.log('the pseudo-terminal tests are skipped: socat is not installed');

describe.skipIf(!hasSocat())('a supply on a pseudo-terminal', () => {
  it('is connected through its boot banner, read, set, switched on and off', async () => {
    const pty = await plugged('supply', 'BENCHWORKS,TWO-FORTY,000017,1.4');
    const { hooks, readings } = witness();
    const supply = await connectSupply({ open: open(pty), ...hooks });
    ends.push(() => supply.close());
    expect(supply.driver).toMatchObject({ canSwitch: true, maxV: 40, maxA: 5 });
    await supply.driver.setVolts(12);
    await supply.driver.setLimit(0.05);
    await supply.driver.outputOn();
    await until(() => readings.at(-1)?.reading.regulation === 'cc');
    expect(readings.at(-1)?.reading).toMatchObject({ outputOn: true, amps: 0.0488 });
    await supply.driver.outputOff();
    await until(() => readings.at(-1)?.reading.outputOn === false);
    expect(readings.at(-1)?.reading.regulation).toBe('off');
    const refused = await troubleIn(supply.driver.setVolts(41));
    expect(refused.code).toBe('out-of-range');
  });

  it('whose cable is pulled leaves a gap, comes back by itself and goes on', async () => {
    const pty = await plugged('supply');
    const { hooks, readings, events, troubles } = witness();
    const supply = await connectSupply({ open: open(pty), ...hooks });
    ends.push(() => supply.close());
    await until(() => readings.length > 5);
    await pty.pull();
    await until(() => events.length === 1);
    expect(troubles.at(-1)?.code).toBe('port-lost');
    expect(supply.isLive).toBe(false);
    const before = readings.length;
    expect((await troubleIn(supply.driver.read())).code).toBe('port-lost');
    await sleep(300);
    expect(readings).toHaveLength(before);
    await pty.plugIn();
    await until(() => events.length === 2);
    await until(() => readings.length > before + 5);
    expect(events).toEqual(['lost', 'back']);
    expect(readings[before]!.midMs - readings[before - 1]!.midMs).toBeGreaterThan(300);
    expect(supply.missed).toBeGreaterThan(10);
  });

  it('comes back by identity, never by port name: another instrument there is refused', async () => {
    const first = await plugged('supply', 'BENCHWORKS,TWO-FORTY,000017,1.4');
    const other = await plugged('supply', 'BENCHWORKS,TWO-FORTY,000099,1.4');
    let pty = first;
    const { hooks, readings, events } = witness();
    const supply = await connectSupply({ open: () => open(pty)(), ...hooks });
    ends.push(() => supply.close());
    await until(() => readings.length > 2);
    pty = other;
    await first.pull();
    await until(() => events.includes('lost'));
    const before = readings.length;
    await sleep(1500);
    expect(events).toEqual(['lost']);
    expect(readings).toHaveLength(before);
    // The right one turns up under another name.
    const third = await plugged('supply', 'BENCHWORKS,TWO-FORTY,000017,1.4');
    pty = third;
    await until(() => events.includes('back'));
    await until(() => readings.length > before);
  });

  it('that answers another identity than expected is refused, with both names', async () => {
    const pty = await plugged('supply', 'BENCHWORKS,TWO-FORTY,000099,1.4');
    const { hooks } = witness();
    const trouble = await troubleIn(
      connectSupply({
        open: open(pty),
        ...hooks,
        expectIdentity: 'BENCHWORKS,TWO-FORTY,000017,1.4',
      }),
    );
    expect(trouble.what).toContain('000099');
    expect(trouble.what).toContain('000017');
  });

  it('that does not answer says so and leaves the port free', async () => {
    const pty = await plugged('silent');
    const { hooks } = witness();
    const trouble = await troubleIn(connectSupply({ open: open(pty), ...hooks }));
    expect(trouble).toMatchObject({ code: 'no-answer', where: pty.path });
    expect(trouble.todo).toContain('baud rate');
    await (await open(pty)()).close();
  });

  it('that answers garbage says so and shows it', async () => {
    const pty = await plugged('garbage');
    const { hooks } = witness();
    const trouble = await troubleIn(connectSupply({ open: open(pty), ...hooks }));
    expect(trouble.code).toBe('bad-reply');
    expect(trouble.what).toContain('\\xf8');
  });

  it('whose answers are cut in half gives no reading, says so, and counts as lost', async () => {
    const pty = await plugged('half');
    const { hooks, readings, troubles } = witness();
    const supply = await connectSupply({ open: open(pty), ...hooks });
    ends.push(() => supply.close());
    await until(() => troubles.length > 0, 20_000);
    const whole = readings.map(({ reading }) => reading.volts);
    expect(new Set(whole)).toEqual(new Set([0.002]));
    expect(troubles[0]!.code).toMatch(/no-answer|bad-reply/);
  });

  it('whose port does not open says so', async () => {
    const { hooks } = witness();
    const trouble = await troubleIn(
      connectSupply({ open: () => openSerialLink('/dev/no-such-port', 9600), ...hooks }),
    );
    expect(trouble.code).toBe('port-not-opened');
  });
});

describe.skipIf(!hasSocat())('a meter on a pseudo-terminal', () => {
  it('that takes its time and ends lines with LF CR is read and configured', async () => {
    const pty = await plugged('meter');
    const readings: MeterReading[] = [];
    const meter = await connectMeter({
      open: open(pty),
      clock: monotonicClock,
      intervalMs: 20,
      onReading: (reading) => void readings.push(reading),
      onLost: () => {},
      onBack: () => {},
    });
    ends.push(() => meter.close());
    await until(() => readings.length >= 3);
    expect(readings[0]).toMatchObject({ quantity: 'volts', value: 3.3021, decimals: 8 });
    await meter.driver.configure('ohms');
    await until(() => readings.at(-1)?.quantity === 'ohms');
    expect(meter.rateHz).toBeLessThan(10);
  });
});

describe('instruments in this process', () => {
  it('are polled side by side at 50 Hz without waiting for each other', async () => {
    const slow = dialogueMeter(60);
    const { hooks, readings } = witness();
    const supply = await connectSupply({
      open: () => openPretendLink(dialogueSupply(), 'pretend supply', 1),
      ...hooks,
    });
    ends.push(() => supply.close());
    let taken = 0;
    const meter = await connectMeter({
      open: () => openPretendLink(slow, 'pretend meter', 1),
      clock: monotonicClock,
      intervalMs: 20,
      onReading: () => {
        taken += 1;
      },
      onLost: () => {},
      onBack: () => {},
    });
    ends.push(() => meter.close());
    await until(() => taken >= 8);
    expect(supply.rateHz).toBeGreaterThan(40);
    expect(readings.length).toBeGreaterThan(taken * 2);
  });

  it('are never sent a reset, an output or a set-point by connecting and polling', async () => {
    const supplyDevice = dialogueSupply();
    const { hooks, readings } = witness();
    const supply = await connectSupply({
      open: () => openPretendLink(supplyDevice, 'pretend supply'),
      ...hooks,
    });
    await until(() => readings.length > 10);
    await supply.close();
    for (const message of supplyDevice.taken) {
      for (const unit of message.split(';')) expect(unit.split(' ')[0]).toMatch(/\?$/);
    }
  });
});
