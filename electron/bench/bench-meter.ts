import type { InstrumentAddress, MeterState } from '../../core/contract/bench-calls.ts';
import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import type { Meter, MeterReading } from '../../core/instruments/meter.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { Connected } from './connected-instrument.ts';
import { connectMeter } from './connected-meter.ts';
import { inTurn } from './in-turn.ts';
import type { InstrumentLines } from './instrument-lines.ts';

const NOTHING: MeterState = {
  link: 'none',
  address: null,
  identity: '',
  trouble: null,
  quantity: null,
  value: null,
  overload: false,
  decimals: 3,
  pollHz: 0,
};

export interface MeterHooks {
  readonly clock: Clock;
  readonly intervalMs: number;
  readonly lines: InstrumentLines;
  open(address: InstrumentAddress): Promise<ByteLink>;
  reading(reading: MeterReading, midMs: number): void;
  changed(): void;
  lost(trouble: Trouble): void;
}

/** The bench's meter: connected or not, and its newest reading. */
export interface BenchMeter {
  readonly state: MeterState;
  connect(address: InstrumentAddress): Promise<void>;
  disconnect(): Promise<void>;
  /** The driver, for a change of function. Throws `not-connected`. */
  driver(): Meter;
}

/** Makes the bench's meter, not connected yet. */
export function createBenchMeter(hooks: MeterHooks): BenchMeter {
  let state = NOTHING;
  let connected: Connected<Meter> | null = null;
  const change = (part: Partial<MeterState>) => {
    state = { ...state, ...part };
    hooks.changed();
  };

  const turn = inTurn();

  async function leave(): Promise<void> {
    const old = connected;
    connected = null;
    state = NOTHING;
    hooks.changed();
    await old?.close();
  }

  async function join(address: InstrumentAddress): Promise<void> {
    await leave();
    change({ link: 'connecting', address });
    try {
      connected = await connectMeter(
        {
          open: () => hooks.open(address),
          clock: hooks.clock,
          intervalMs: hooks.intervalMs,
          onReading: (reading, at) => {
            const { quantity, value, overload, decimals } = reading;
            const pollHz = connected?.rateHz ?? 0;
            change({ quantity, value, overload, decimals, pollHz, trouble: null });
            hooks.reading(reading, at.midMs);
          },
          onTrouble: (trouble) => change({ trouble, value: null, overload: false }),
          onLost: (trouble) => {
            change({ link: 'lost', trouble, value: null, overload: false });
            hooks.lost(trouble);
          },
          onBack: () => change({ link: 'live', trouble: null }),
          onTraffic: hooks.lines.logs.meter.hear,
        },
        hooks.lines.book,
      );
    } catch (thrown) {
      change({ ...NOTHING, address, trouble: troubleOf(thrown, 'meter') });
      throw thrown;
    }
    change({ link: 'live', identity: connected.driver.identity });
  }

  return {
    get state() {
      return state;
    },
    connect: (address) => turn(() => join(address)),
    disconnect: () => turn(leave),
    driver() {
      if (connected?.isLive) return connected.driver;
      throw new WakelineError({
        code: 'not-connected',
        what: 'No meter is connected',
        where: 'meter',
        todo: 'Connect one in the instruments view, or type the reading.',
      });
    },
  };
}
