import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { describe, expect, it } from 'vitest';
import { connectMeter } from '../../../electron/bench/connected-meter.ts';
import { connectSupply } from '../../../electron/bench/connected-supply.ts';
import { oddMeter } from '../../support/odd-meter.ts';
import { feeding, scpiTable } from '../../support/odd-supplies.ts';
import { tableLink } from '../../support/table-link.ts';
import { virtualClock } from '../../support/virtual-clock.ts';

/** Simulated hours in CI; in full by setting WAKELINE_SOAK_HOURS to 24. */
const HOURS = Number(process.env.WAKELINE_SOAK_HOURS ?? 0.2);
const INTERVAL_MS = 50;

/** Bytes that are still in use after everything that can go has gone. */
function usedHeap(): number {
  setFlagsFromString('--expose-gc');
  runInNewContext('gc')();
  return process.memoryUsage().heapUsed;
}

describe('two instruments polled at 20 Hz for hours', () => {
  it(
    'miss no poll that is not accounted for, through cables pulled again and again',
    async () => {
      const clock = virtualClock();
      const { table, errors } = scpiTable(feeding({ isOn: true }), { mode: true });
      const odd = oddMeter();
      let supplyLink = tableLink(clock, table);
      const taken = { supply: 0, meter: 0 };
      let lost = 0;
      const supply = await clock.settle(
        connectSupply({
          open: async () => {
            supplyLink = tableLink(clock, table, {
              unknown: () => errors.push('-113,"Undefined header"'),
            });
            return supplyLink;
          },
          clock,
          intervalMs: INTERVAL_MS,
          onReading: () => {
            taken.supply += 1;
          },
          onLost: () => {
            lost += 1;
          },
          onBack: () => {},
        }),
      );
      const meter = await clock.settle(
        connectMeter({
          open: async () =>
            tableLink(clock, odd.table, {
              unknown: () => odd.errors.push('-113,"Undefined header"'),
            }),
          clock,
          intervalMs: INTERVAL_MS,
          onReading: () => {
            taken.meter += 1;
          },
          onLost: () => {
            lost += 1;
          },
          onBack: () => {},
        }),
      );
      const startMs = clock.nowMs();
      const before = { ...taken };
      const slots = (HOURS * 3_600_000) / INTERVAL_MS;
      let pulls = 0;
      const heaps: number[] = [];
      while (clock.nowMs() < startMs + HOURS * 3_600_000) {
        await clock.pass(120_000);
        supplyLink.pull();
        pulls += 1;
        if (HOURS >= 2 && pulls % 30 === 0) heaps.push(usedHeap());
      }
      if (heaps.length > 1) {
        const [first, last] = [heaps[0]!, heaps.at(-1)!];
        console.log(`heap after hour 1: ${first} bytes, after ${HOURS} hours: ${last} bytes`);
        expect(last).toBeLessThan(first * 1.05);
      }
      const passed = (clock.nowMs() - startMs) / INTERVAL_MS;
      expect(passed).toBeGreaterThanOrEqual(slots);
      expect(lost).toBe(pulls);
      const supplyPolls = taken.supply - before.supply + supply.missed;
      const meterPolls = taken.meter - before.meter + meter.missed;
      // One poll may be under way at each end of the span and of each gap.
      expect(Math.abs(passed - supplyPolls)).toBeLessThanOrEqual(2 + 2 * pulls);
      expect(Math.abs(passed - meterPolls)).toBeLessThanOrEqual(2);
    },
    60_000 + HOURS * 60_000,
  );
});
