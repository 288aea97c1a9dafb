import { formatQuantity } from '../units/format.ts';
import type { Rail } from './board-model.ts';
import { halfWidthOf, type JudgedReading, type RailReading } from './rail-reading.ts';

/** A difference from known-good that is worth a look (common practice, no source). */
const WORTH_A_LOOK_V = 0.1;
/** Below this a diode reading is zero. */
const ZERO_V = 0.005;

/**
 * Judges a diode reading, red lead on ground. A core shows 0.000 at a meter's milliamp when it is
 * healthy, so a core is never judged by it, with or without known-good.
 */
export function judgeDiode(reading: RailReading, rail: Rail): Omit<JudgedReading, 'reading'> {
  const known = rail.expectedDiodeV;
  const source =
    known === null
      ? 'common practice, no source'
      : `${known.count} known-good ${known.count === 1 ? 'reading' : 'readings'} of this board model`;
  const value = reading.value ?? Number.NaN;
  const arithmetic =
    reading.overload || reading.value === null
      ? 'over range'
      : `${say(value)} ± ${say(halfWidthOf(value, reading.accuracy))}${known === null ? '' : `; known-good ${say(known.median)} of ${known.count}`}`;
  const judge = (verdict: JudgedReading['verdict'], reason: string) => ({
    verdict,
    isOdd: verdict !== 'as-known-good' && verdict !== 'cannot-tell',
    arithmetic,
    reason,
    source,
    share: null,
  });
  if (reading.powered)
    return judge('cannot-tell', 'A diode reading means nothing while the board is fed.');
  if (rail.isCore) {
    return judge(
      'cannot-tell',
      `${rail.name} is a core: half an ohm shows 0.000 V at a meter's milliamp. Judge it by four-wire ohms against known-good.`,
    );
  }
  if (reading.overload || reading.value === null) {
    return known !== null && known.median > 2
      ? judge('as-known-good', 'Over range, as on known-good boards.')
      : judge('open', 'Over range: the line goes nowhere.');
  }
  if (known !== null && known.median < ZERO_V) {
    return judge('cannot-tell', 'Known-good boards read nothing here either.');
  }
  if (value < ZERO_V) return judge('shorted', 'Zero on a rail that is no core.');
  if (known === null)
    return judge(
      'cannot-tell',
      'No known-good board to compare with; only zero and over range tell by themselves.',
    );
  const off = value - known.median;
  const limit = Math.max(WORTH_A_LOOK_V, 3 * known.spread) + halfWidthOf(value, reading.accuracy);
  if (Math.abs(off) < limit) return judge('as-known-good', `${say(Math.abs(off))} off known-good.`);
  return judge(
    off < 0 ? 'low' : 'high',
    `${say(Math.abs(off))} ${off < 0 ? 'below' : 'above'} known-good: worth a look.`,
  );
}

function say(volts: number): string {
  return formatQuantity(Number(volts.toPrecision(4)), 'V', null, { prefix: 0 });
}
