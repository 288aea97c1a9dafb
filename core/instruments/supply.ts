import { WakelineError } from '../errors.ts';
import type { NumericReply } from '../scpi/response-number.ts';
import { ampsReply, booleanReply, voltsReply } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';
import type { Regulation } from '../trace/sample.ts';
import { probeSupply } from './probe-supply.ts';
import { inferRegulation, regulationOfRegister, regulationOfWord } from './regulation.ts';
import type { SupplyDialect } from './supply-dialect.ts';
import { inChannel, type PollPart, pollPlan } from './supply-poll.ts';

/** One reading of a supply. `null` = the instrument did not tell. */
export interface SupplyReading {
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: Regulation | null;
  readonly outputOn: boolean | null;
  /** When its request left and its last answer was complete, on the session's clock. */
  readonly sentMs: number;
  readonly gotMs: number;
}

/** A bench supply, or an inline meter that can only be read (`canSwitch` false). */
export interface Supply {
  readonly identity: string;
  readonly canSwitch: boolean;
  /** Highest set-points that it tells; null = it does not tell. */
  readonly maxV: number | null;
  readonly maxA: number | null;
  /** Digits after the point that its readings have. */
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
  /** Key of the dialect it is spoken to in. */
  readonly dialect: string;
  /** Measures volts and amps and asks regulation and output. Throws as `Session.query`. */
  read(): Promise<SupplyReading>;
  /** Sets volts. Throws `out-of-range` before a byte is sent, `instrument-refused` after. */
  setVolts(volts: number): Promise<void>;
  /** Sets the current limit in amps. Throws as `setVolts`. */
  setLimit(amps: number): Promise<void>;
  /** Asks the set-points. Null = it does not tell. */
  setpoints(): Promise<{ setV: number | null; limitA: number | null }>;
  /** Switches on and reads back. Throws `instrument-refused` when it stays off. */
  outputOn(): Promise<void>;
  /** Switches off before all that waits, reads back, repeats until it is off. */
  outputOff(): Promise<void>;
}

const OFF_TRIES = 3;

/** Finds out who answers and in which dialect, changing nothing, and gives it as a supply. */
export async function openSupply(session: Session, known?: SupplyDialect): Promise<Supply> {
  const probed = await probeSupply(session, known);
  const { dialect, maxV, maxA } = probed;
  const plan = pollPlan(dialect);
  const decimals = { volts: probed.voltsDecimals, amps: probed.ampsDecimals };
  const set = { setV: probed.setV, limitA: probed.limitA };
  const canSwitch = dialect.outputOff !== null && dialect.outputOn !== null;
  let turn = 0;

  const refuse = (code: 'out-of-range' | 'cannot-switch' | 'instrument-refused', what: string) =>
    new WakelineError({ code, what, where: session.name, todo: TODO[code] });

  const numberOf = (reply: NumericReply, of: 'volts' | 'amps'): number | null => {
    if (reply.kind !== 'value') return null;
    if (reply.decimals > decimals[of]) decimals[of] = reply.decimals;
    return reply.value;
  };

  async function setNumber(
    message: string | null,
    value: number,
    max: number | null,
    unit: 'V' | 'A',
  ): Promise<void> {
    const what = unit === 'V' ? 'volts' : 'a current limit';
    if (message === null) throw refuse('cannot-switch', `This instrument takes no set ${what}`);
    if (!Number.isFinite(value) || value < 0 || (max !== null && value > max)) {
      const upTo = max === null ? 'from 0 up' : `from 0 to ${max} ${unit}`;
      throw refuse('out-of-range', `${value} ${unit} is outside what it can do, ${upTo}`);
    }
    await setWithRemote(message.replaceAll('{value}', plainNumber(value)));
  }

  /** A supply in local control refuses sets; only then is remote taken, once. */
  async function setWithRemote(message: string): Promise<void> {
    const inFull = inChannel(message, dialect);
    if (dialect.selectChannel !== null)
      await session.set(inChannel(dialect.selectChannel, dialect));
    try {
      await session.set(inFull);
    } catch (thrown) {
      const isRefused =
        thrown instanceof WakelineError && thrown.trouble.code === 'instrument-refused';
      const isLocal = isRefused && /-203|-221|local|remote|protected/i.test(thrown.trouble.what);
      if (!isLocal || dialect.takeRemote === null) throw thrown;
      await session.set(dialect.takeRemote).catch(() => undefined);
      await session.set(inFull);
    }
  }

  async function askNumber(message: string | null, of: 'volts' | 'amps'): Promise<number | null> {
    if (message === null) return null;
    const shape = of === 'volts' ? voltsReply : ampsReply;
    const { value } = await session.query(inChannel(message, dialect), shape);
    return value.kind === 'value' ? value.value : null;
  }

  const askOutput = async (lane: 'usual' | 'urgent'): Promise<boolean | null> =>
    dialect.askOutput === null
      ? null
      : (await session.query(inChannel(dialect.askOutput, dialect), booleanReply, { lane })).value;

  return {
    identity: session.identity,
    canSwitch,
    maxV,
    maxA,
    get voltsDecimals() {
      return decimals.volts;
    },
    get ampsDecimals() {
      return decimals.amps;
    },
    dialect: dialect.key,
    async read() {
      const steps = plan.turns[turn % plan.turns.length]!;
      turn += 1;
      const told: Partial<Record<PollPart, unknown>> = {};
      let sentMs = Number.NaN;
      let gotMs = Number.NaN;
      for (const step of steps) {
        const answer = await session.query(step.message, step.shape, { class: 'measurement' });
        if (Number.isNaN(sentMs)) sentMs = answer.sentMs;
        gotMs = answer.gotMs;
        for (let i = 0; i < step.parts.length; i += 1) told[step.parts[i]!] = answer.value[i];
      }
      const volts = numberOf(told.volts as NumericReply, 'volts');
      const amps = numberOf(told.amps as NumericReply, 'amps');
      const outputOn = (told.output as boolean | undefined) ?? null;
      let regulation: Regulation | null = null;
      if (outputOn === false) regulation = 'off';
      else if (told.mode !== undefined) regulation = regulationOfWord(told.mode as string);
      else if (told.register !== undefined && dialect.regulation.by === 'register') {
        const { coding } = dialect.regulation;
        if (coding !== null) {
          regulation = regulationOfRegister(told.register as number, coding, outputOn);
        }
      }
      regulation ??= inferRegulation({ volts, amps, ...set, outputOn });
      return { volts, amps, regulation, outputOn, sentMs, gotMs };
    },
    async setVolts(volts) {
      await setNumber(dialect.setVolts, volts, maxV, 'V');
      set.setV = volts;
    },
    async setLimit(amps) {
      await setNumber(dialect.setAmps, amps, maxA, 'A');
      set.limitA = amps;
    },
    async setpoints() {
      set.setV = await askNumber(dialect.askSetVolts, 'volts');
      set.limitA = await askNumber(dialect.askSetAmps, 'amps');
      return { ...set };
    },
    async outputOn() {
      if (dialect.outputOn === null) throw refuse('cannot-switch', 'It has no output to switch');
      await setWithRemote(dialect.outputOn);
      if ((await askOutput('usual')) === false) {
        throw refuse('instrument-refused', 'It took the command and its output stayed off');
      }
    },
    async outputOff() {
      if (dialect.outputOff === null) throw refuse('cannot-switch', 'It has no output to switch');
      const off = inChannel(dialect.outputOff, dialect);
      let last: unknown;
      for (let i = 0; i < OFF_TRIES; i += 1) {
        await session.urge(off);
        try {
          if ((await askOutput('urgent')) !== true) return;
        } catch (thrown) {
          last = thrown;
          if (!session.isOpen) throw thrown;
        }
        if (dialect.takeRemote !== null) await session.urge(dialect.takeRemote);
      }
      throw last ?? refuse('instrument-refused', `It was sent ${off} and its output stayed on`);
    },
  };
}

const TODO = {
  'out-of-range': 'Nothing was sent. Enter a value that it can do.',
  'cannot-switch': 'Switch the feed by hand; this instrument can only be read.',
  'instrument-refused': 'Switch the output by hand at the instrument, now.',
} as const;

/** A number as a program message takes it: no exponent, no more digits than a supply resolves. */
function plainNumber(value: number): string {
  return String(Number(value.toFixed(6)));
}
