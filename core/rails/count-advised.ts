import { USUAL_NEXT } from './next-measurements.ts';
import { usualVerdict } from './outcome-odds.ts';
import { conditionsUnder } from './rail-effects.ts';
import type { RailMeasurement } from './rail-measurement.ts';
import type { RailModel } from './rail-model.ts';
import type { JudgedReading, RailReading } from './rail-reading.ts';
import { walkRails } from './walk-rails.ts';

/** How a walk by the advice alone would have gone. */
export interface AdvisedWalk {
  /** Measurements in order. */
  readonly keys: readonly string[];
  /** Whether the advice would have ended with every one of the faults in its first suspects. */
  readonly isFound: boolean;
}

const MOST = 40;
const NOTHING = {
  fault: -1,
  kind: 'source',
  rail: -1,
  other: -1,
  pulls: false,
  sags: false,
  share: 0,
} as const;

/**
 * How many measurements the advice would have taken for the faults that were proved in the end, each
 * measurement coming out as it most often does under them.
 * @param faultKeys keys of the proved faults; unknown keys are left out.
 */
export function countAdvised(model: RailModel, faultKeys: readonly string[]): AdvisedWalk {
  const truth = faultKeys.flatMap((key) => {
    const fault = model.faultAt.get(key);
    const shows = model.variants.filter((variant) => variant.fault === fault);
    const usual = shows.reduce((a, b) => (b.share > a.share ? b : a), shows[0] ?? NOTHING);
    return usual === NOTHING ? [] : [usual];
  });
  const row = new Uint8Array(model.measurements.length);
  conditionsUnder(model.graph, truth, model.healthy, row);
  const judged: JudgedReading[] = [];
  const keys: string[] = [];
  const isFound = () => {
    const { suspects } = walkRails(model, judged, USUAL_NEXT);
    const leading = suspects.slice(0, faultKeys.length).flatMap(({ faults }) => faults);
    return faultKeys.every((key) => leading.some((fault) => fault.key === key));
  };
  for (let step = 0; step < MOST; step++) {
    const walk = walkRails(model, judged, USUAL_NEXT);
    const first = walk.next[0];
    if (walk.isSettled || first === undefined) break;
    const { measurement } = first;
    keys.push(measurement.key);
    const condition = row[model.measurementAt.get(measurement.key) ?? 0] ?? 0;
    judged.push(supposedReading(model, measurement, usualVerdict(condition)));
  }
  return { keys, isFound: isFound() };
}

/** A reading with a verdict but without a value, for walks that are only thought through. */
export function supposedReading(
  model: RailModel,
  { what, rail, other, key }: RailMeasurement,
  verdict: JudgedReading['verdict'],
): JudgedReading {
  const isOhms = what === 'ohms' || what === 'between';
  const reading: RailReading = {
    id: key,
    rail,
    point: what === 'input' || what === 'enable' ? what : 'output',
    quantity: isOhms ? 'ohms' : 'volts',
    against: other,
    value: null,
    overload: false,
    state: model.state,
    powered: !isOhms,
    wires: 4,
    leadOhm: 0,
    accuracy: null,
    at: 0,
  };
  return {
    reading,
    verdict,
    isOdd: false,
    arithmetic: '',
    reason: '',
    source: 'supposed',
    share: null,
  };
}
