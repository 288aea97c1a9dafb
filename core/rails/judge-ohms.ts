import { formatQuantity } from '../units/format.ts';
import type { Rail } from './board-model.ts';
import { halfWidthOf, type JudgedReading, type RailReading } from './rail-reading.ts';

/** Two-wire leads add between these when nobody measured them (common practice, no source). */
const LEADS_OHM = { least: 0.1, most: 0.3 } as const;
/** Below this two wires are not enough (common practice, no source). */
const FOUR_WIRE_BELOW_OHM = 2;
/** Boards of one kind differ by at least this much (common practice, no source). */
const LEAST_SPREAD_SHARE = 0.1;
/** A reading below this share of known-good is a short, not a difference (common practice, no source). */
const SHORT_SHARE = 0.25;
const SIGMAS = 3;
/** Nominal volts across it have to push this much for a short; less is a leak (common practice, no source). */
const SHORT_FROM_A = 0.25;
/** A null may be off by this much. */
const NULL_SLIP_OHM = 0.05;

type Judgement = Omit<JudgedReading, 'reading'>;

/** What the ohms may really be once leads and the meter's accuracy are allowed for. */
export interface OhmsInterval {
  readonly low: number;
  readonly high: number;
  readonly arithmetic: string;
}

/** Takes the leads off a reading and widens it by the meter's accuracy. */
export function trueOhms(reading: RailReading): OhmsInterval {
  const value = reading.value ?? Number.NaN;
  const width = halfWidthOf(value, reading.accuracy);
  if (reading.wires === 4) {
    const low = Math.max(0, value - width);
    return { low, high: value + width, arithmetic: `${say(value)} ± ${say(width)}, four-wire` };
  }
  if (reading.leadOhm !== null) {
    const net = value - reading.leadOhm;
    const arithmetic = `${say(value)} \u2212 ${say(reading.leadOhm)} of leads = ${say(net)} ± ${say(width)}`;
    return { low: Math.max(0, net - width), high: Math.max(0, net + width), arithmetic };
  }
  // Leads of a tenth of an ohm change nothing that can be seen at a kilo-ohm.
  const isSmall = value < 100 * LEADS_OHM.most;
  const arithmetic = isSmall
    ? `${say(value)} ± ${say(width)} with ${LEADS_OHM.least} to ${LEADS_OHM.most} Ω of leads in it`
    : `${say(value)} ± ${say(width)}`;
  const low = Math.max(0, value - LEADS_OHM.most - width);
  return { low, high: Math.max(0, value - LEADS_OHM.least + width), arithmetic };
}

/**
 * Judges ohms to ground with the board off. Against known-good where there is one. Without, a core is
 * not judged at all, and other rails only by orders of magnitude.
 */
export function judgeOhms(reading: RailReading, rail: Rail): Judgement {
  if (reading.powered) {
    return cannot(
      'Ohms mean nothing while the board is fed: switch off, discharge, check the volts first.',
      '',
    );
  }
  const known = rail.expectedOhms;
  if (reading.overload || reading.value === null) {
    if (known !== null && known.median > 1e6) {
      return {
        verdict: 'as-known-good',
        isOdd: false,
        arithmetic: 'over range',
        reason: 'Over range, as on known-good boards.',
        source: goodSource(rail),
        share: null,
      };
    }
    return {
      verdict: 'open',
      isOdd: true,
      arithmetic: 'over range',
      reason:
        'Over range: nothing on this rail reaches ground, or the probe does not touch. Press again elsewhere.',
      source: known === null ? PRACTICE : goodSource(rail),
      share: null,
    };
  }
  const below = reading.wires === 2 ? (reading.leadOhm ?? LEADS_OHM.least) : 0;
  if (reading.value - below < -halfWidthOf(reading.value, reading.accuracy) - NULL_SLIP_OHM) {
    return cannot(
      'Less than nothing: the rail still holds charge, or the leads were nulled wrongly. Discharge it, check its volts, then read again.',
      trueOhms(reading).arithmetic,
    );
  }
  const ohms = trueOhms(reading);
  const isCoarse = reading.wires === 2 && ohms.low < FOUR_WIRE_BELOW_OHM;
  const hint = isCoarse ? ' Two wires below 2 Ω: null the leads or use four.' : '';
  return known === null ? judgeByMagnitude(rail, ohms, hint) : judgeAgainstGood(rail, ohms, hint);
}

function judgeAgainstGood(rail: Rail, ohms: OhmsInterval, hint: string): Judgement {
  const known = rail.expectedOhms ?? { median: Number.NaN, spread: 0, count: 0 };
  // The next board differs from so few by more than they differ from each other: a normal
  // distribution's interval for one more reading, standard textbooks, from memory.
  const few = Math.sqrt(1 + 1 / Math.max(1, known.count));
  const sigma = Math.max(known.spread, LEAST_SPREAD_SHARE * known.median) * few;
  const least = Math.max(SHORT_SHARE * known.median, known.median - SIGMAS * sigma);
  const most = known.median + Math.max(SIGMAS * sigma, known.median);
  const arithmetic = `${ohms.arithmetic}; known-good ${say(known.median)} ± ${say(sigma)} of ${known.count} (${say(least)} to ${say(most)})`;
  const judge = (verdict: Judgement['verdict'], reason: string): Judgement => ({
    verdict,
    isOdd: verdict !== 'as-known-good',
    arithmetic,
    reason: reason + hint,
    source: goodSource(rail),
    share: known.median > 0 ? (ohms.low + ohms.high) / 2 / known.median : null,
  });
  const pushedA = Math.abs(rail.nominalV) / ohms.high;
  if (ohms.high < SHORT_SHARE * known.median) {
    const quarter = `Less than a quarter of known-good ${say(known.median)}`;
    if (pushedA >= SHORT_FROM_A) return judge('shorted', `${quarter}.`);
    return judge(
      'low',
      `${quarter}, but ${formatQuantity(Number(pushedA.toPrecision(2)), 'A')} at its own volts is a leak rather than a short.`,
    );
  }
  if (ohms.low >= least && ohms.high <= most)
    return judge('as-known-good', 'Within what known-good boards read.');
  if (ohms.high < least)
    return judge('low', `Below known-good ${say(known.median)}: something pulls it down.`);
  if (ohms.low > most)
    return judge('high', `More than known-good ${say(known.median)}: a load may be cut off.`);
  return judge('cannot-tell', "The reading's own uncertainty spans a limit.");
}

const PRACTICE = 'orders of magnitude only: common practice, no source';

function judgeByMagnitude(rail: Rail, ohms: OhmsInterval, hint: string): Judgement {
  const { arithmetic } = ohms;
  if (rail.isCore) {
    return cannot(
      `${rail.name} is a core: a fraction of an ohm is healthy there. Compare with a known-good board.${hint}`,
      arithmetic,
    );
  }
  const nominal = Math.abs(rail.nominalV);
  const isInput = rail.fedBy.length === 0;
  const short = nominal < 3 ? 0.5 : 2;
  const usual = isInput ? 1000 : nominal < 3 ? 1 : 10;
  if (ohms.high < short) {
    return {
      verdict: 'shorted',
      isOdd: true,
      arithmetic,
      reason: `Under ${short} Ω on a ${nominal} V rail that is no core.${hint}`,
      source: PRACTICE,
      share: null,
    };
  }
  if (ohms.low >= usual) {
    return {
      verdict: 'as-known-good',
      isOdd: false,
      arithmetic,
      reason: `Of the usual order for a ${nominal} V rail; no known-good board to compare with.`,
      source: PRACTICE,
      share: null,
    };
  }
  if (isInput && ohms.high < 100) {
    return {
      verdict: 'low',
      isOdd: true,
      arithmetic,
      reason: `An input usually reads kilo-ohms and up.${hint}`,
      source: PRACTICE,
      share: null,
    };
  }
  return cannot(
    `Neither a plain short nor of the usual order; compare with a known-good board.${hint}`,
    arithmetic,
  );
}

/** Whether two rails are joined: ohms between them. */
export function judgeBetween(reading: RailReading, rail: Rail, other: Rail): Judgement {
  if (reading.powered) {
    return cannot(
      'Ohms mean nothing while the board is fed: switch off, discharge, check the volts first.',
      '',
    );
  }
  if (reading.overload || reading.value === null) {
    return {
      verdict: 'as-known-good',
      isOdd: false,
      arithmetic: 'over range',
      reason: `Nothing joins ${rail.name} and ${other.name}.`,
      source: PRACTICE,
      share: null,
    };
  }
  const ohms = trueOhms(reading);
  // Through ground two healthy rails still read the sum of their own ohms; a join reads less than either.
  const through = (rail.expectedOhms?.median ?? 0) + (other.expectedOhms?.median ?? 0);
  const joined = through > 0 ? Math.min(2, through / 4) : 0.5;
  const clear = through > 0 ? through / 2 : 10;
  const arithmetic =
    through > 0
      ? `${ohms.arithmetic}; by way of ground ${say(through)} on known-good boards`
      : ohms.arithmetic;
  if (ohms.high < joined) {
    return {
      verdict: 'shorted',
      isOdd: true,
      arithmetic,
      reason: `${rail.name} and ${other.name} are joined. Do not power it: the lower rail would get the higher volts.`,
      source: PRACTICE,
      share: null,
    };
  }
  if (ohms.low > clear) {
    return {
      verdict: 'as-known-good',
      isOdd: false,
      arithmetic,
      reason: `${rail.name} and ${other.name} are apart.`,
      source: PRACTICE,
      share: null,
    };
  }
  return cannot(
    'Neither joined nor clearly apart; use four wires and compare with a known-good board.',
    arithmetic,
  );
}

function cannot(reason: string, arithmetic: string): Judgement {
  return {
    verdict: 'cannot-tell',
    isOdd: false,
    arithmetic,
    reason,
    source: PRACTICE,
    share: null,
  };
}

function goodSource(rail: Rail): string {
  const count = rail.expectedOhms?.count ?? 0;
  return `${count} known-good ${count === 1 ? 'reading' : 'readings'} of this board model`;
}

function say(ohms: number): string {
  return formatQuantity(Number(ohms.toPrecision(4)), 'Ω');
}
