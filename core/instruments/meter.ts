import { WakelineError } from '../errors.ts';
import type { Quantity } from '../job/job.ts';
import type { NumericReply } from '../scpi/response-number.ts';
import type { UnitOf } from '../scpi/response-unit.ts';
import type { Session } from '../scpi/session.ts';
import type { Answer } from '../scpi/session-step.ts';
import type { MeterDialect } from './meter-dialect.ts';
import { functionReply, readingReply, type ToldFunction, UNIT_OF } from './meter-shape.ts';
import { joined, probeMeter, readingWithFunction } from './probe-meter.ts';

/** One reading of a meter. `value` null with `overload` = over range; without = no data. */
export interface MeterReading {
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  /** Digits after the point in base units that the meter resolved. */
  readonly decimals: number;
  /** When its request left and its answer was complete, on the session's clock. */
  readonly sentMs: number;
  readonly gotMs: number;
}

/** A multimeter, left in the function that it is found in. */
export interface Meter {
  readonly identity: string;
  /** Key of the dialect it is spoken to in. */
  readonly dialect: string;
  /**
   * Measures in the function that the meter is in. Throws `instrument-refused` when that is none
   * that is used here, and as `Session.query`.
   */
  read(): Promise<MeterReading>;
  /** Sets the function. Throws `cannot-switch`, or `instrument-refused` in the meter's words. */
  configure(quantity: Quantity): Promise<void>;
  /** The function last seen; null before the first reading, or when it is none used here. */
  quantity(): Quantity | null;
}

export interface MeterOptions {
  /** The dialect that this instrument was found to speak before. */
  readonly known?: MeterDialect | undefined;
  /** Called with what was found: keep it for the next time. */
  readonly onDialect?: ((dialect: MeterDialect) => void) | undefined;
}

/** The quantity that a unit tells, for meters whose function cannot be asked. */
const QUANTITY_OF: Partial<Record<UnitOf, Quantity>> = { V: 'volts', OHM: 'ohms', A: 'amps' };

/** Finds out how this meter is read, changing nothing, and gives it as a meter. */
export async function openMeter(session: Session, options: MeterOptions = {}): Promise<Meter> {
  const dialect = await probeMeter(session, options.known);
  session.canJoin = dialect.compound === 'full';
  options.onDialect?.(dialect);
  let seen: Quantity | null = null;

  const told = async () => {
    if (dialect.askFunction === null) return null;
    return (await session.query(dialect.askFunction, functionReply)).value;
  };

  /** A reading and the function it was taken in; the function is asked after it, and must not have moved. */
  async function readWithFunction(): Promise<{
    answer: Answer<NumericReply>;
    told: ToldFunction | null;
  }> {
    if (dialect.compound === 'full' && dialect.askFunction !== null) {
      const message = joined(dialect.read, dialect.askFunction);
      const both = await session.query(message, readingWithFunction, { class: 'measurement' });
      return { answer: { ...both, value: both.value[0] }, told: both.value[1] };
    }
    const before = seen;
    const answer = await session.query(dialect.read, readingReply, { class: 'measurement' });
    const after = await told();
    if (after === null || after.quantity === before) return { answer, told: after };
    seen = after.quantity;
    return {
      answer: await session.query(dialect.read, readingReply, { class: 'measurement' }),
      told: await told(),
    };
  }

  return {
    identity: session.identity,
    dialect: dialect.key,
    async read() {
      const { answer, told } = await readWithFunction();
      if (told !== null) seen = told.quantity;
      else if (answer.value.kind === 'value' && answer.value.unit !== null) {
        seen ??= QUANTITY_OF[answer.value.unit] ?? null;
      }
      if (seen === null) {
        const set = told === null ? 'a function that it does not tell' : told.word;
        throw new WakelineError({
          code: 'instrument-refused',
          what: `The meter is set to ${set}`,
          where: session.name,
          todo: 'Set it to DC volts, ohms, diode, continuity or DC amps.',
        });
      }
      const { value: reply, sentMs, gotMs } = answer;
      if (reply.kind !== 'value') {
        const overload = reply.kind === 'overload';
        return { quantity: seen, value: null, overload, decimals: 0, sentMs, gotMs };
      }
      if (reply.unit !== null && reply.unit !== UNIT_OF[seen]) {
        throw new WakelineError({
          code: 'bad-reply',
          what: `The meter says that it measures ${seen} and sent a reading in ${reply.unit}`,
          where: session.name,
          todo: 'The reading was dropped. Wait for the meter to settle after turning its switch.',
        });
      }
      const { value, decimals } = reply;
      return { quantity: seen, value, overload: false, decimals, sentMs, gotMs };
    },
    async configure(quantity) {
      const message = dialect.configure[quantity];
      if (message === null) {
        throw new WakelineError({
          code: 'cannot-switch',
          what: `This meter cannot be set to ${quantity} from here`,
          where: session.name,
          todo: 'Turn its switch by hand.',
        });
      }
      await session.set(message);
      seen = quantity;
    },
    quantity: () => seen,
  };
}
