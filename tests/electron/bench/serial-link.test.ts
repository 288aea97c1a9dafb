import { afterEach, describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../core/errors.ts';
import { openSerialLink } from '../../../electron/bench/serial-link.ts';
import { crossedPty, hasSocat, type Pty } from '../../support/pty.ts';

const bytes = (text: string) => new TextEncoder().encode(text);
let pty: Pty | null = null;
afterEach(async () => {
  await pty?.remove();
  pty = null;
});

async function troubleIn(work: Promise<unknown>): Promise<Trouble> {
  const thrown = await work.then(
    () => null,
    (error: unknown) => error,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
}

if (!hasSocat()) console.log('serial-link.test.ts is skipped: socat is not installed');

describe.skipIf(!hasSocat())('a serial link over a pseudo-terminal', () => {
  it('carries every byte value both ways and in order', async () => {
    pty = await crossedPty();
    const near = await openSerialLink(pty.path, 115_200);
    const far = await openSerialLink(pty.farPath, 115_200);
    const all = Uint8Array.from({ length: 256 }, (_, i) => i);
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      const heard: number[] = [];
      const whole = new Promise<void>((resolve) => {
        to.onBytes((piece) => {
          heard.push(...piece);
          if (heard.length >= 256) resolve();
        });
      });
      from.write(all);
      await whole;
      expect(heard).toEqual([...all]);
    }
    await near.close();
    await far.close();
  });

  it('tells a pulled cable from its own close, and refuses bytes afterwards', async () => {
    pty = await crossedPty();
    const link = await openSerialLink(pty.path, 9600);
    const closed = new Promise<boolean>((resolve) => link.onClosed(resolve));
    await pty.pull();
    // Some systems say nothing until the next write, and a poller always writes.
    const polling = setInterval(() => {
      if (link.isOpen) link.write(bytes('MEAS:VOLT?\n'));
    }, 20);
    expect(await closed).toBe(true);
    clearInterval(polling);
    expect(link.isOpen).toBe(false);
    expect(() => link.write(bytes('OUTP OFF\n'))).toThrow(WakelineError);

    await pty.plugIn();
    const again = await openSerialLink(pty.path, 9600);
    const ours = new Promise<boolean>((resolve) => again.onClosed(resolve));
    await again.close();
    expect(await ours).toBe(false);
    await again.close();
  });

  it('that does not open says why, where, and what to do', async () => {
    const trouble = await troubleIn(openSerialLink('/dev/no-such-port', 9600));
    expect(trouble).toMatchObject({
      code: 'port-not-opened',
      what: 'There is no such port',
      where: '/dev/no-such-port',
    });
    expect(trouble.todo).toContain('Plug the instrument in');
  });

  it('that another program holds says so', async () => {
    pty = await crossedPty();
    const first = await openSerialLink(pty.path, 9600);
    const trouble = await troubleIn(openSerialLink(pty.path, 9600));
    expect(trouble.what).toBe('Another program holds this port');
    expect(trouble.todo).toContain('Close the other program');
    await first.close();
  });

  it('to something that is no serial port says so', async () => {
    const trouble = await troubleIn(openSerialLink('/etc/hostname', 9600));
    expect(trouble.code).toBe('port-not-opened');
    expect(trouble.what).not.toMatch(/undefined|\[object/);
  });
});
