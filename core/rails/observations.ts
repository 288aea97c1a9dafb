import { DIODE_OUTCOME_ODDS, isMute, LOW_ODDS, OUTCOME_ODDS, VERDICTS } from './outcome-odds.ts';
import { measurementKeyOf } from './rail-measurement.ts';
import type { RailModel } from './rail-model.ts';
import { type JudgedReading, RAIL_VERDICTS } from './rail-reading.ts';

/** A reading as the tables know it. */
export interface Observation {
  readonly measurement: number;
  readonly verdict: number;
  readonly odds: Float64Array;
  readonly judged: JudgedReading;
}

/** The readings that say something about this model's tree in its state. */
export function observationsOf(
  model: RailModel,
  judged: readonly JudgedReading[],
): readonly Observation[] {
  return judged.flatMap((each) => {
    if (isMute(each.verdict)) return [];
    const { reading } = each;
    // Volts belong to the state they were taken in; ohms to any.
    const isElsewhen =
      reading.quantity === 'volts' &&
      (!reading.powered ||
        (reading.state !== null && model.state !== null && !isSame(reading.state, model.state)));
    const key = measurementKeyOf(reading);
    // Ohms between two rails are the same whichever is named first.
    const turned = reading.against === null ? key : `between:${reading.against}:${reading.rail}`;
    const measurement =
      key === null || isElsewhen
        ? undefined
        : (model.measurementAt.get(key) ?? model.measurementAt.get(turned ?? ''));
    if (measurement === undefined) return [];
    const verdict = RAIL_VERDICTS.indexOf(each.verdict);
    return [{ measurement, verdict, odds: oddsFor(each), judged: each }];
  });
}

/** Shares of what belongs there from which a low reading is low by a little, or at a part of it. */
const GRADE_FROM = {
  volts: { little: 0.85, part: 0.5 },
  ohms: { little: 0.5, part: 0.25 },
} as const;

/** How far it is off tells a rail that gives way from one that is held down. */
function oddsFor({ reading: { quantity }, verdict, share }: JudgedReading): Float64Array {
  if (quantity === 'diode') return DIODE_OUTCOME_ODDS;
  if (verdict !== 'low' || share === null) return OUTCOME_ODDS;
  const from = GRADE_FROM[quantity];
  return LOW_ODDS[share >= from.little ? 'little' : share >= from.part ? 'part' : 'much'];
}

const isSame = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();

/** Natural log of P(readings | conditions). */
export function logLikelihood(
  observations: readonly Observation[],
  conditions: Uint8Array,
): number {
  let log = 0;
  for (const { measurement, verdict, odds } of observations) {
    log += Math.log(oddsOf(odds, conditions[measurement] ?? 0, verdict));
  }
  return log;
}

export function oddsOf(odds: Float64Array, condition: number, verdict: number): number {
  // A verdict that a table leaves out is never impossible, only very unlikely.
  return Math.max(1e-4, odds[condition * VERDICTS + verdict] ?? 0);
}
