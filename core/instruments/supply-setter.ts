import { WakelineError } from '../errors.ts';
import { appliedReply } from '../scpi/response-applied.ts';
import { ampsReply, compoundReply, voltsReply } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import { inChannel, type SupplyDialect } from './supply-dialect.ts';
import { TAKE_REMOTE } from './supply-dialects.ts';
import type { Setpoints } from './supply-reading.ts';

/** What a set-point is: its messages, its unit, and the most that the supply takes. */
export interface SetTarget {
  readonly set: string | null;
  readonly ask: string | null;
  readonly unit: 'V' | 'A';
  readonly max: number | null;
}

/** Sends sets in a supply's dialect and makes sure that they hold. */
export interface SupplySetter {
  /** Sets a number. Throws `out-of-range` before a byte is sent; else as `send`. */
  setNumber(target: SetTarget, value: number): Promise<void>;
  /**
   * Sends a set, taking remote control when it is refused for want of it. Throws
   * `instrument-refused`, also when something was urged after the count of `urges` given.
   */
  send(message: string, urges?: number): Promise<void>;
  /** Takes remote control by the mildest way that the supply knows. */
  takeRemote(urges?: number): Promise<void>;
  /** Asks both set-points. */
  setpoints(): Promise<Setpoints>;
}

/** Replies to a set that mean "not in remote control": -203 command protected, and words. */
const NOT_REMOTE = /-203\b|\blocal|remote|protected|locked/i;

/** A number as a program message takes it: no exponent, no more digits than a supply resolves. */
const inDigits = (value: number) => String(Number(value.toFixed(6)));

/** A set-point read back this share away from what was set is still held: rounding to its own steps. */
const HELD_SHARE = 0.002;
const APPLIED_STEP = 0.0101;
/** A set-point that is not held yet is looked at again: slow supplies take it over in their own time. */
const HELD_LOOKS = 2;
const HELD_WAIT_MS = 200;

const setpointsReply = compoundReply([voltsReply, ampsReply]);

/** Both set-points in one message, where the dialect joins queries; else null. */
function pairOfSetpoints(dialect: SupplyDialect): string | null {
  const { askSetVolts, askSetAmps, compound } = dialect;
  if (askSetVolts === null || askSetAmps === null) return null;
  if (compound !== 'full' && compound !== 'bare') return null;
  const join = compound === 'full' ? ';:' : ';';
  return inChannel(`${askSetVolts}${join}${askSetAmps}`, dialect);
}

export function supplySetter(session: Session, dialect: SupplyDialect): SupplySetter {
  const inFull = (message: string) => inChannel(message, dialect);
  const trouble = (
    code: 'out-of-range' | 'cannot-switch' | 'instrument-refused',
    what: string,
    todo: string,
  ) => new WakelineError({ code, what, where: session.name, todo });

  async function askNumber(ask: string | null, unit: 'V' | 'A') {
    if (ask === null) return null;
    const { value } = await session.query(inFull(ask), unit === 'V' ? voltsReply : ampsReply);
    return value.kind === 'value' ? value : null;
  }

  /** The set-point that it holds, and how far its answer may lie from what was set. */
  async function held(ask: string | null, unit: 'V' | 'A') {
    const own = await askNumber(ask, unit);
    if (own !== null) return { value: own.value, step: 10 ** -own.decimals * 1.01 };
    if (dialect.askApplied === null) return null;
    const { value } = await session.query(inFull(dialect.askApplied), appliedReply);
    return { value: unit === 'V' ? value.setV : value.limitA, step: APPLIED_STEP };
  }

  async function takeRemote(urges: number): Promise<void> {
    for (const message of new Set([dialect.takeRemote, ...TAKE_REMOTE])) {
      if (message === null) return;
      try {
        await session.set(message, urges);
        return;
      } catch (thrown) {
        const isUnknown =
          thrown instanceof WakelineError && /(^|\D)-1\d\d\b/.test(thrown.trouble.what);
        if (!isUnknown) return;
      }
    }
  }

  // Several messages, one act: an OFF in between ends it, and nothing of it comes after.
  async function send(message: string, urges: number): Promise<void> {
    const set = (one: string) => session.set(inFull(one), urges);
    if (dialect.selectChannel !== null && dialect.channel.form === 'select') {
      await set(dialect.selectChannel);
    }
    try {
      await set(message);
    } catch (thrown) {
      const isRefused =
        thrown instanceof WakelineError && thrown.trouble.code === 'instrument-refused';
      if (!isRefused || !NOT_REMOTE.test(thrown.trouble.what) || dialect.takeRemote === null) {
        throw thrown;
      }
      await takeRemote(urges);
      await set(message);
    }
  }

  /** How far what it holds lies from what was set; null when it holds it, or does not tell. */
  async function notHeld(ask: string | null, unit: 'V' | 'A', value: number) {
    for (let look = 1; ; look += 1) {
      const holds = await held(ask, unit);
      if (holds === null) return null;
      if (Math.abs(holds.value - value) <= holds.step + Math.abs(value) * HELD_SHARE) return null;
      if (look >= HELD_LOOKS) return holds.value;
      await new Promise<void>((resolve) => {
        session.clock.setTimer(resolve, HELD_WAIT_MS);
      });
    }
  }

  return {
    send: (message, urges = session.urges) => send(message, urges),
    takeRemote: (urges = session.urges) => takeRemote(urges),
    async setNumber({ set, ask, unit, max }, value) {
      if (set === null) {
        const what = unit === 'V' ? 'set volts' : 'current limit';
        throw trouble('cannot-switch', `It takes no ${what}`, 'Set it by hand at the instrument.');
      }
      if (!Number.isFinite(value) || value < 0 || (max !== null && value > max)) {
        const span = max === null ? 'from 0 up' : `from 0 to ${max} ${unit}`;
        throw trouble(
          'out-of-range',
          `${value} ${unit} is outside what it can do, ${span}`,
          'Nothing was sent. Enter a value that it can do.',
        );
      }
      const message = set.replaceAll('{value}', inDigits(value));
      const { urges } = session;
      await send(message, urges);
      // Some supplies clip in silence, or ignore sets in local control without an error.
      let holds = await notHeld(ask, unit, value);
      if (holds !== null && dialect.takeRemote !== null && session.urges === urges) {
        await takeRemote(urges);
        await send(message, urges);
        holds = await notHeld(ask, unit, value);
      }
      if (holds === null) return;
      throw trouble(
        'instrument-refused',
        `It was set to ${inDigits(value)} ${unit} and holds ${holds} ${unit}`,
        'Look at the instrument: remote control may be off, or its own limit lower.',
      );
    },
    async setpoints() {
      const both = pairOfSetpoints(dialect);
      if (both !== null) {
        const { value } = await session.query(both, setpointsReply);
        const [volts, amps] = value.map((one) => (one.kind === 'value' ? one.value : null));
        return { setV: volts ?? null, limitA: amps ?? null };
      }
      if (dialect.askApplied !== null) {
        const { value } = await session.query(inFull(dialect.askApplied), appliedReply);
        return { setV: value.setV, limitA: value.limitA };
      }
      const volts = await askNumber(dialect.askSetVolts, 'V');
      const amps = await askNumber(dialect.askSetAmps, 'A');
      return { setV: volts?.value ?? null, limitA: amps?.value ?? null };
    },
  };
}
