import { formatQuantity } from '../units/format.ts';
import { isUpIn, type Rail } from './board-model.ts';
import { halfWidthOf, type JudgedReading, type RailReading } from './rail-reading.ts';

/** Below this share of nominal a rail is missing rather than low (common practice, no source). */
const MISSING_SHARE = 0.1;
/** A logic level between these two tells nothing when its volts are not stated (common practice, no source). */
const LOGIC_LOW_V = 0.4;
const LOGIC_HIGH_V = 1.0;
/** Words by which a reading of less than nothing is known. */
export const BELOW_GROUND = 'below ground';
/** This much of nominal with the wrong sign is a rail that is there, read the wrong way round. */
const WRONG_SIGN_SHARE = 0.5;
/** Lower than this is no zero of a meter. */
const BELOW_GROUND_V = 0.25;
const ROUNDING = 1e-9;

type Judgement = Omit<JudgedReading, 'reading'>;

/** What belongs at a point: the rail's own volts, one of its feeds', or an enable's level. */
export interface WantedVolts {
  readonly nominalV: readonly number[];
  readonly tolerance: number;
  readonly source: string;
}

/**
 * Judges volts against nominal and tolerance, limits included, with the meter's accuracy either side:
 * a reading whose accuracy spans a limit cannot be told.
 */
export function judgeVolts(reading: RailReading, rail: Rail, wanted: WantedVolts): Judgement {
  const value = reading.value ?? Number.NaN;
  const width = halfWidthOf(value, reading.accuracy);
  const isUp = reading.powered && isUpIn(rail, reading.state);
  const bands = wanted.nominalV.map((nominal) => bandOf(nominal, wanted.tolerance));
  const nearest = bands.reduce((best, band) =>
    distance(value, band) < distance(value, best) ? band : best,
  );
  const arithmetic = `${say(value)} ± ${say(width)} against ${say(nearest.nominal)} ± ${percent(wanted.tolerance)} (${say(nearest.low)} to ${say(nearest.high)})`;
  const judge = (verdict: Judgement['verdict'], reason: string, isOdd = true): Judgement => ({
    verdict,
    isOdd,
    arithmetic,
    reason: `${reason}${assumed(reading)}`,
    source: wanted.source,
    share: value / nearest.nominal,
  });
  // Negative rails are judged by size; one of the wrong sign is as good as missing.
  const sign = Math.sign(nearest.nominal);
  const size = value * sign;
  const nominal = Math.abs(nearest.nominal);
  const floor = MISSING_SHARE * nominal;
  if (size <= -WRONG_SIGN_SHARE * nominal) {
    return judge(
      'cannot-tell',
      'The sign is wrong: the probes are the wrong way round, or the feed is reversed. Output off and look before anything else.',
    );
  }
  const below =
    size < -BELOW_GROUND_V
      ? ` It lies ${BELOW_GROUND}: a reversed feed held by a protection diode, or the probes the wrong way round.`
      : '';
  if (!isUp) {
    const when = reading.powered ? `in state ${reading.state}` : 'with the board not fed';
    if (size - width > floor) {
      return judge(
        'back-fed',
        `${rail.name} belongs off ${when}, and ${say(value)} are there: fed from somewhere else, or still charged.`,
      );
    }
    return judge('missing', `${rail.name} belongs off ${when}, and it is.`, false);
  }
  const low =
    Math.abs(nearest.low) < Math.abs(nearest.high) ? nearest.low * sign : nearest.high * sign;
  const high = Math.max(nearest.low * sign, nearest.high * sign);
  const slack = ROUNDING * nominal;
  if (size + width <= floor + slack)
    return judge('missing', `Less than a tenth of ${say(nearest.nominal)}.${below}`);
  if (size - width >= low - slack && size + width <= high + slack) {
    return judge('present', 'Inside its limits.', false);
  }
  if (size + width < low - slack) {
    const share = Math.round((size / nominal) * 100);
    return judge(
      'low',
      `${say(Math.abs(low * sign - value))} below its lower limit: ${share} % of nominal.`,
    );
  }
  if (size - width > high + slack) {
    return judge('high', `${say(Math.abs(value - high * sign))} above its upper limit.`);
  }
  return judge('cannot-tell', "The meter's accuracy spans a limit.");
}

/** Judges an enable's level: by its stated volts, else as logic. */
export function judgeEnable(reading: RailReading, rail: Rail, statedV: number | null): Judgement {
  if (statedV !== null && statedV !== 0) {
    const wanted = { nominalV: [statedV], tolerance: 0.2, source: 'stated volts of the enable' };
    return judgeVolts(reading, rail, wanted);
  }
  const value = reading.value ?? Number.NaN;
  const width = halfWidthOf(value, reading.accuracy);
  const arithmetic = `${say(value)} ± ${say(width)} against logic: low below ${say(LOGIC_LOW_V)}, high above ${say(LOGIC_HIGH_V)}`;
  const source = 'common practice, no source';
  const isUp = reading.powered && isUpIn(rail, reading.state);
  if (value - width > LOGIC_HIGH_V) {
    const odd = isUp ? '' : ` It belongs off here.`;
    return {
      verdict: isUp ? 'present' : 'back-fed',
      isOdd: !isUp,
      arithmetic,
      reason: `Asked to start.${odd}`,
      source,
      share: null,
    };
  }
  if (value + width < LOGIC_LOW_V) {
    return {
      verdict: 'missing',
      isOdd: isUp,
      arithmetic,
      reason: isUp ? 'Nobody asks it to start.' : 'Off, as it belongs.',
      source,
      share: null,
    };
  }
  return {
    verdict: 'cannot-tell',
    isOdd: true,
    arithmetic,
    reason: 'Neither low nor high, and its volts are not stated.',
    source,
    share: null,
  };
}

function bandOf(nominal: number, tolerance: number) {
  const edges = [nominal * (1 - tolerance), nominal * (1 + tolerance)];
  return { nominal, low: Math.min(...edges), high: Math.max(...edges) };
}

function distance(value: number, band: { low: number; high: number }): number {
  return Math.max(band.low - value, value - band.high, 0);
}

function assumed({ accuracy }: RailReading): string {
  return accuracy === null ? " The meter's accuracy is not known; 0.5 % was taken." : '';
}

function say(volts: number): string {
  return formatQuantity(Number(volts.toPrecision(5)), 'V', null, { prefix: 0 });
}

function percent(share: number): string {
  return `${Number((share * 100).toPrecision(3))} %`;
}
