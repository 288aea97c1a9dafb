import { formatQuantity } from '../units/format.ts';
import type { BoardModel } from './board-model.ts';
import type { Contradiction } from './contradictions.ts';
import type { JudgedReading } from './rail-reading.ts';

/** A thousandth that comes out this near to what belongs there is most likely a prefix left out. */
const NEAR_SHARE = 0.3;
/** The diode range shows the same to within this. */
const DIODE_SHARE = 0.1;
/** A slip is only suspected where the two are far apart. */
const FAR_TIMES = 100;

/**
 * Readings that look like a slip of the hand: a prefix left out, the meter in another function.
 * They are said and still counted: only the technician knows.
 */
export function findSlips(
  board: BoardModel,
  judged: readonly JudgedReading[],
): readonly Contradiction[] {
  return judged.flatMap(({ reading, isOdd, verdict }) => {
    const rail = board.rails.find(({ name }) => name === reading.rail);
    const { value } = reading;
    const isLow = verdict === 'shorted' || verdict === 'low';
    if (rail === undefined || value === null || reading.against !== null) return [];
    const said = (text: string) => [{ text, readings: [reading.id] }];
    if (reading.quantity === 'volts') {
      const isMilli =
        reading.point === 'output' &&
        Math.abs(value / 1000 / rail.nominalV - 1) <= Math.max(2 * rail.tolerance, 0.1);
      if (!isMilli) return [];
      const shown = formatQuantity(value, 'V', null, { prefix: 0 });
      return said(`${rail.name} was kept as ${shown}: were these millivolts?`);
    }
    const known = rail.expectedOhms;
    if (reading.quantity !== 'ohms' || known === null || !isOdd || !isLow || value <= 0) return [];
    if (Math.abs((value * 1000) / known.median - 1) <= NEAR_SHARE) {
      return said(
        `${rail.name} was kept as ${formatQuantity(value, 'Ω')} where known-good boards read ${formatQuantity(known.median, 'Ω')}: were these kilo-ohms?`,
      );
    }
    const diode = rail.expectedDiodeV;
    const isDiode =
      diode !== null &&
      !rail.isCore &&
      known.median > FAR_TIMES * value &&
      Math.abs(value / diode.median - 1) <= DIODE_SHARE;
    if (!isDiode) return [];
    return said(
      `${rail.name} was kept as ${formatQuantity(value, 'Ω')}, and ${value} is what a diode reading shows there: was the meter in diode?`,
    );
  });
}
