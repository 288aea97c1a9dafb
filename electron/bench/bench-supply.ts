import type { InstrumentAddress, SupplyState } from '../../core/contract/bench-calls.ts';
import { type Trouble, troubleOf, WakelineError } from '../../core/errors.ts';
import type { Supply, SupplyReading } from '../../core/instruments/supply.ts';
import type { SwitchOff } from '../../core/instruments/switch-off.ts';
import type { ByteLink } from '../../core/scpi/byte-link.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { Connected } from './connected-instrument.ts';
import { connectSupply } from './connected-supply.ts';
import { inTurn } from './in-turn.ts';
import type { InstrumentLines } from './instrument-lines.ts';

const NOTHING: SupplyState = {
  link: 'none',
  address: null,
  identity: '',
  trouble: null,
  outputOn: null,
  canSwitch: false,
  setV: null,
  limitA: null,
  maxV: null,
  maxA: null,
  volts: null,
  amps: null,
  regulation: null,
  voltsDecimals: 3,
  ampsDecimals: 3,
  pollHz: 0,
};

/** Set-points are asked again this often: somebody may turn the knobs. */
const SETPOINTS_EVERY_MS = 2000;

export interface SupplyHooks {
  readonly clock: Clock;
  readonly intervalMs: number;
  readonly lines: InstrumentLines;
  open(address: InstrumentAddress): Promise<ByteLink>;
  reading(reading: SupplyReading, midMs: number): void;
  changed(): void;
  setpointsMoved(setV: number | null, limitA: number | null): void;
  lost(trouble: Trouble): void;
  back(): void;
}

/** The bench's supply: connected or not, its newest reading, and what may be asked of it. */
export interface BenchSupply {
  readonly state: SupplyState;
  connect(address: InstrumentAddress): Promise<void>;
  disconnect(): Promise<void>;
  /** How it would be switched off by somebody else, also while it is lost; null = it cannot be. */
  readonly switchOff: SwitchOff | null;
  /** The driver, for a set. Throws `not-connected` or `port-lost`. */
  driver(): Supply;
  /** Asks the set-points now, after a set. */
  refresh(): Promise<void>;
}

/** Makes the bench's supply, not connected yet. */
export function createBenchSupply(hooks: SupplyHooks): BenchSupply {
  let state = NOTHING;
  let connected: Connected<Supply> | null = null;
  let askedMs = 0;

  const change = (part: Partial<SupplyState>) => {
    state = { ...state, ...part };
    hooks.changed();
  };

  async function refresh(): Promise<void> {
    if (connected === null || !connected.isLive) return;
    askedMs = hooks.clock.nowMs();
    const { setV, limitA } = await connected.driver.setpoints();
    if (setV === state.setV && limitA === state.limitA) return;
    change({ setV, limitA });
    hooks.setpointsMoved(setV, limitA);
  }

  function onReading(reading: SupplyReading, midMs: number): void {
    const supply = connected?.driver;
    state = {
      ...state,
      volts: reading.volts,
      amps: reading.amps,
      regulation: reading.regulation ?? state.regulation,
      outputOn: reading.outputOn ?? state.outputOn,
      voltsDecimals: supply?.voltsDecimals ?? state.voltsDecimals,
      ampsDecimals: supply?.ampsDecimals ?? state.ampsDecimals,
      pollHz: connected?.rateHz ?? 0,
      trouble: null,
    };
    hooks.reading(reading, midMs);
    hooks.changed();
    if (midMs - askedMs > SETPOINTS_EVERY_MS) refresh().catch(() => {});
  }

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
      connected = await connectSupply(
        {
          open: () => hooks.open(address),
          clock: hooks.clock,
          intervalMs: hooks.intervalMs,
          onReading: (reading, at) => onReading(reading, at.midMs),
          onTrouble: (trouble) => change({ trouble }),
          onLost: (trouble) => {
            change({ link: 'lost', trouble, volts: null, amps: null, regulation: null });
            hooks.lost(trouble);
          },
          onBack: () => {
            change({ link: 'live', trouble: null });
            hooks.back();
          },
          onTraffic: hooks.lines.logs.supply.hear,
        },
        hooks.lines.book,
      );
    } catch (thrown) {
      change({ ...NOTHING, address, trouble: troubleOf(thrown, 'supply') });
      throw thrown;
    }
    const { identity, canSwitch, maxV, maxA, voltsDecimals, ampsDecimals } = connected.driver;
    change({ link: 'live', identity, canSwitch, maxV, maxA, voltsDecimals, ampsDecimals });
    await refresh();
  }

  return {
    get state() {
      return state;
    },
    get switchOff() {
      return connected?.driver.switchOff ?? null;
    },
    connect: (address) => turn(() => join(address)),
    disconnect: () => turn(leave),
    driver() {
      if (connected?.isLive) return connected.driver;
      throw new WakelineError({
        code: state.link === 'lost' ? 'port-lost' : 'not-connected',
        what: state.link === 'lost' ? 'The supply does not answer' : 'No supply is connected',
        where: 'supply',
        todo:
          state.link === 'lost'
            ? 'Switch it off at its own front, then look at its cable.'
            : 'Connect one in the instruments view.',
      });
    },
    refresh,
  };
}
