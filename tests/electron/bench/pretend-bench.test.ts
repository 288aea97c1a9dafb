import { afterEach, describe, expect, it } from 'vitest';
import { createPretendBench } from '../../../core/bench-model/pretend-bench.ts';
import type { MeterReading } from '../../../core/instruments/meter.ts';
import type { SupplyReading } from '../../../core/instruments/supply.ts';
import type { ByteLink } from '../../../core/scpi/byte-link.ts';
import { connectMeter } from '../../../electron/bench/connected-meter.ts';
import { connectSupply } from '../../../electron/bench/connected-supply.ts';
import { monotonicClock } from '../../../electron/bench/monotonic-clock.ts';
import { hostOnPty } from '../../../electron/bench/pretend-host-pty.ts';
import { hostOnTcp } from '../../../electron/bench/pretend-host-tcp.ts';
import { openPretendLink } from '../../../electron/bench/pretend-link.ts';
import { openSerialLink } from '../../../electron/bench/serial-link.ts';
import { openTcpLink } from '../../../electron/bench/tcp-link.ts';
import { hasSocat } from '../../support/pty.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('bench');
const ends: (() => Promise<unknown>)[] = [];
afterEach(async () => {
  for (const end of ends.splice(0).reverse()) await end();
});

async function until(isSo: () => boolean, longestMs = 10_000): Promise<void> {
  const endMs = Date.now() + longestMs;
  while (!isSo()) {
    if (Date.now() > endMs) throw new Error('it never came to be so');
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

type Bench = ReturnType<typeof createPretendBench>;
type Ways = Record<'supply' | 'meter', () => Promise<ByteLink>>;

/** The three ways to the same bench. */
const ways: Record<string, (bench: Bench) => Promise<Ways>> = {
  'in this process': async (bench) => ({
    supply: () => openPretendLink(bench.supply, 'pretend supply'),
    meter: () => openPretendLink(bench.meter, 'pretend meter'),
  }),
  'over a pseudo-terminal': async (bench) => {
    const [supply, meter] = [
      await hostOnPty(bench.supply, `${folder}/supply`),
      await hostOnPty(bench.meter, `${folder}/meter`),
    ];
    ends.push(supply.close, meter.close);
    return {
      supply: () => openSerialLink(supply.where, 9600),
      meter: () => openSerialLink(meter.where, 9600),
    };
  },
  'over TCP': async (bench) => {
    const [supply, meter] = [await hostOnTcp(bench.supply, 0), await hostOnTcp(bench.meter, 0)];
    ends.push(supply.close, meter.close);
    const opener = (where: string) => {
      const [host = '', port = ''] = where.split(':');
      return () => openTcpLink(host, Number(port));
    };
    return { supply: opener(supply.where), meter: opener(meter.where) };
  },
};

describe('the pretend bench', () => {
  for (const [way, open] of Object.entries(ways)) {
    it.skipIf(way === 'over a pseudo-terminal' && !hasSocat())(
      `is driven ${way}: connected untouched, set, switched on, read, switched off`,
      async () => {
        const bench = createPretendBench({ seed: 5, nowS: () => performance.now() / 1000 });
        const to = await open(bench);
        const board = bench.shelf.find(({ key }) => key === 'plover-healthy')!;
        bench.putBoard(board.key);
        bench.probe(board.points[1]!);
        let supplyReads = 0;
        let reading: SupplyReading | null = null;
        const supply = await connectSupply({
          open: to.supply,
          clock: monotonicClock,
          intervalMs: 20,
          onReading(read) {
            reading = read;
            supplyReads += 1;
          },
          onLost: () => {},
          onBack: () => {},
        });
        ends.push(() => supply.close());
        let metered: MeterReading | null = null;
        const meter = await connectMeter({
          open: to.meter,
          clock: monotonicClock,
          intervalMs: 20,
          onReading(read) {
            metered = read;
          },
          onLost: () => {},
          onBack: () => {},
        });
        ends.push(() => meter.close());
        await until(() => supplyReads > 3 && metered !== null);
        expect(bench.log).toEqual([]);
        expect(supply.driver).toMatchObject({ canSwitch: true, maxV: 60, maxA: 10 });

        await meter.driver.configure('volts');
        await supply.driver.setVolts(board.statedInputV);
        await supply.driver.setLimit(board.statedLimitA);
        await supply.driver.outputOn();
        await until(() => reading?.regulation === 'cv' && (reading?.amps ?? 0) > 0.01);
        // The supply's own averaging is behind the truth for a moment, and level with it after.
        await until(() => Math.abs((reading?.volts ?? 0) - bench.truth().inputV) < 0.05);
        await until(() => metered?.quantity === 'volts' && Math.abs(metered?.value ?? 0) > 20);
        await supply.driver.outputOff();
        await until(() => reading?.outputOn === false);
        expect(reading!.regulation).toBe('off');
        const done = bench.log.map(({ command }) => command);
        expect(done).toEqual(['CONF:VOLT:DC', 'VOLT 24', 'CURR 1.5', 'OUTP ON', 'OUTP OFF']);
      },
    );
  }

  it('in current limit is read as such, by its own register', async () => {
    const bench = createPretendBench({ seed: 6, nowS: () => performance.now() / 1000 });
    bench.putBoard('tern-input-short');
    let reading: SupplyReading | null = null;
    const supply = await connectSupply({
      open: () => openPretendLink(bench.supply, 'pretend supply'),
      clock: monotonicClock,
      intervalMs: 20,
      onReading(read) {
        reading = read;
      },
      onLost: () => {},
      onBack: () => {},
    });
    ends.push(() => supply.close());
    await supply.driver.setVolts(19);
    await supply.driver.setLimit(1);
    await supply.driver.outputOn();
    await until(() => reading?.regulation === 'cc');
    expect(reading!.amps).toBeCloseTo(1, 1);
  });
});
