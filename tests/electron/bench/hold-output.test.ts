import { afterEach, describe, expect, it, vi } from 'vitest';
import { createHoldOutput } from '../../../electron/bench/hold-output.ts';
import { benchState } from '../../support/idle-bench.ts';

afterEach(() => vi.useRealTimers());

function pedal(on: () => Promise<void> = async () => {}) {
  vi.useFakeTimers();
  let nowMs = 0;
  const did: string[] = [];
  const hold = createHoldOutput({
    on: async () => {
      await on();
      did.push('on');
      return benchState();
    },
    off: () => {
      did.push('off');
      return benchState();
    },
    nowMs: () => nowMs,
    silent: () => did.push('silent'),
  });
  const pass = async (ms: number) => {
    for (let past = 0; past < ms; past += 50) {
      nowMs += 50;
      await vi.advanceTimersByTimeAsync(50);
    }
  };
  return { hold, did, pass };
}

describe('an output that is held on', () => {
  it('is on while it is told so, and off when it is let go', async () => {
    const { hold, did, pass } = pedal();
    await hold.hold(true);
    for (let i = 0; i < 20; i += 1) {
      await pass(250);
      await hold.hold(true);
    }
    expect(did).toEqual(['on']);
    await hold.hold(false);
    expect(did).toEqual(['on', 'off']);
    await pass(3000);
    expect(did).toEqual(['on', 'off']);
  });

  it('goes off when nothing more is heard of the pedal', async () => {
    const { hold, did, pass } = pedal();
    await hold.hold(true);
    await pass(900);
    expect(did).toEqual(['on']);
    await pass(300);
    expect(did).toEqual(['on', 'off', 'silent']);
  });

  it('is off at last when it was let go while it was being switched on', async () => {
    let release = () => {};
    const { hold, did } = pedal(
      () =>
        new Promise((resolve) => {
          release = resolve;
        }),
    );
    const pressed = hold.hold(true);
    await hold.hold(false);
    release();
    await pressed;
    expect(did.at(-1)).toBe('off');
    expect(did).toEqual(['off', 'on', 'off']);
  });

  it('holds nothing when it could not be switched on', async () => {
    const { hold, did, pass } = pedal(() => Promise.reject(new Error('gate')));
    await expect(hold.hold(true)).rejects.toThrow('gate');
    await pass(3000);
    expect(did).toEqual([]);
  });
});
