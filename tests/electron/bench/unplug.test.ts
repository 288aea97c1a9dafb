import { setTimeout as sleep } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { connectSupply } from '../../../electron/bench/connected-supply.ts';
import { monotonicClock } from '../../../electron/bench/monotonic-clock.ts';
import { openSerialLink } from '../../../electron/bench/serial-link.ts';
import { nodePath } from '../../support/node-path.ts';
import { devicePty, hasSocat } from '../../support/pty.ts';

/** Pulls in CI; in full by setting WAKELINE_PULLS to 100. */
const PULLS = Number(process.env.WAKELINE_PULLS ?? 6);
const DEVICE = new URL('../../support/dialogue-process.ts', import.meta.url).pathname;

if (!hasSocat()) console.log('the unplug test is skipped: socat is not installed');

describe.skipIf(!hasSocat())('a cable pulled and put in again and again during a run', () => {
  it(
    'loses the readings of the gaps and nothing else, and comes back every time',
    async () => {
      const pty = await devicePty([nodePath, DEVICE, 'supply']);
      const mids: number[] = [];
      let lost = 0;
      let back = 0;
      const supply = await connectSupply({
        open: () => openSerialLink(pty.path, 115_200),
        clock: monotonicClock,
        intervalMs: 20,
        onReading(reading, at) {
          expect(reading.volts).toBe(0.002);
          expect(reading.amps).toBe(-0.0001);
          mids.push(at.midMs);
        },
        onLost: () => {
          lost += 1;
        },
        onBack: () => {
          back += 1;
        },
      });
      try {
        for (let i = 1; i <= PULLS; i += 1) {
          const before = mids.length;
          // Somewhere in a poll, never at the same place.
          await sleep(20 + ((i * 37) % 83));
          await pty.pull();
          while (lost < i) await sleep(5);
          expect(supply.isLive).toBe(false);
          await pty.plugIn();
          while (back < i || mids.length < before + 5) await sleep(5);
        }
      } finally {
        await supply.close();
        await pty.remove();
      }
      expect([lost, back]).toEqual([PULLS, PULLS]);
      for (let i = 1; i < mids.length; i += 1) expect(mids[i]!).toBeGreaterThan(mids[i - 1]!);
    },
    PULLS * 10_000,
  );
});
