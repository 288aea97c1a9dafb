import { setTimeout as sleep } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import type { ProbeEvent } from '../../../core/probing/probe-event.ts';
import { createProbeWatch } from '../../../core/probing/probe-watch.ts';
import { connectMeter } from '../../../electron/bench/connected-meter.ts';
import { monotonicClock } from '../../../electron/bench/monotonic-clock.ts';
import { openSerialLink } from '../../../electron/bench/serial-link.ts';
import { startPretend } from '../../support/pretend-process.ts';
import { hasSocat } from '../../support/pty.ts';

const ends: (() => unknown)[] = [];
afterAll(async () => {
  for (const end of ends.reverse()) await end();
});

/** A meter in a process of its own on a pseudo-terminal, polled as the bench does, and its hands. */
async function touchedMeter() {
  const meter = await startPretend(
    '--serial',
    'FOLDER/meter',
    '--meter',
    '--board',
    'tern-healthy',
  );
  ends.push(() => meter.stop());
  const watch = createProbeWatch();
  const heard: (ProbeEvent & { readonly atMs: number })[] = [];
  const connected = await connectMeter({
    open: () => openSerialLink(`${meter.folder}/meter`, 115_200),
    clock: monotonicClock,
    intervalMs: 200,
    onReading: ({ quantity, value, overload, decimals }, { midMs }) => {
      const reading = { quantity, value, overload, decimals, tMs: midMs };
      for (const event of watch.push({ ...reading, outputOn: false, feedV: 0 })) {
        heard.push({ ...event, atMs: monotonicClock.nowMs() });
      }
    },
    onLost: () => {},
    onBack: () => {},
  });
  ends.push(() => connected.close());
  await connected.driver.configure('ohms');
  return { meter, heard, probe: (point: string | null) => meter.hands({ do: 'probe', point }) };
}

describe('touches of a meter over a real pseudo-terminal', () => {
  it.skipIf(!hasSocat())(
    'are each taken once, in about a second',
    async () => {
      const { heard, probe } = await touchedMeter();
      await sleep(900);
      const waits: number[] = [];
      const points = ['MAIN_8V6', 'ALW_3V3', 'SYS_5V', 'CORE_0V9'];
      for (const point of points) {
        const before = heard.filter((one) => one.kind === 'taken').length;
        const touchedMs = monotonicClock.nowMs();
        await probe(point);
        while (heard.filter((one) => one.kind === 'taken').length === before) {
          if (monotonicClock.nowMs() - touchedMs > 4000) break;
          await sleep(5);
        }
        waits.push(monotonicClock.nowMs() - touchedMs);
        await sleep(300);
        await probe(null);
        await sleep(1500);
      }
      const taken = heard.filter((one) => one.kind === 'taken' || one.kind === 'replaced');
      console.log(
        `from the touch to the taken reading: ${waits.map((w) => w.toFixed(0)).join(', ')} ms`,
      );
      expect(taken.map((one) => one.kind)).toEqual(points.map(() => 'taken'));
      const ohms = taken.map((one) => (one.kind === 'taken' ? one.reading.value! : Number.NaN));
      expect(ohms.every((value) => value > 0 && Number.isFinite(value))).toBe(true);
      expect(new Set(ohms.map((value) => value.toPrecision(3))).size).toBe(points.length);
      expect(Math.max(...waits)).toBeLessThan(3000);
    },
    25_000,
  );
});
