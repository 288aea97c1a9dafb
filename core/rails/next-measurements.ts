import type { FaultPosterior, Hypothesis } from './fault-posterior.ts';
import { gainsBits } from './gains.ts';
import { OUTCOME_ODDS, VERDICTS } from './outcome-odds.ts';
import type { RailMeasurement } from './rail-measurement.ts';
import type { RailModel } from './rail-model.ts';

/** What the advice has to respect. */
export interface NextOptions {
  /** Keys of measurements that cannot be reached. */
  readonly cannotReach: ReadonlySet<string>;
  /** Whether the board is fed now: ohms want it off and discharged, volts want it on. */
  readonly isPowered: boolean;
  /** Effort of changing over between the two; 1 is as much as a point in plain reach. */
  readonly changeOverEffort: number;
}

export const USUAL_NEXT: NextOptions = {
  cannotReach: new Set(),
  isPowered: true,
  changeOverEffort: 0.5,
};

/** A measurement with what it is expected to tell for its effort. */
export interface ScoredMeasurement {
  readonly at: number;
  readonly measurement: RailMeasurement;
  readonly gainBits: number;
  readonly cost: number;
  /** Bits for effort. */
  readonly score: number;
}

/** From here on a join is likely enough that ohms come before power (common practice, no source). */
const RISKY = 0.2;
const RISK_EFFORT = 2;
/** Less than this is rounding, not information. */
const LEAST_GAIN_BITS = 0.001;
/** With no more explanations than this, two steps are looked ahead. */
const LOOK_AHEAD_BELOW = 64;
const LOOK_AHEAD_FIRST = 10;
const LOOK_AHEAD_SECOND = 40;
const LIVE = 0.002;
/** Later measurements tell this share of what the best one tells now, for their effort. */
const RATE_KEPT = 0.7;

/**
 * All measurements that still tell something, best first: expected information for effort, two steps
 * ahead where few enough explanations are left for that.
 */
export function scoreMeasurements(
  model: RailModel,
  posterior: FaultPosterior,
  options: NextOptions,
): readonly ScoredMeasurement[] {
  const { measurements } = model;
  const taken = new Set(posterior.observations.map(({ measurement }) => measurement));
  const open = measurements.flatMap(({ key }, at) =>
    taken.has(at) || options.cannotReach.has(key) ? [] : [at],
  );
  const { hypotheses } = posterior;
  const isRisky = isJoinLikely(model, posterior);
  const rows = hypotheses.map(({ conditions }) => conditions);
  const weights = hypotheses.map(({ probability }) => probability);
  const causes = hypotheses.map(({ cause }) => cause);
  const gains = gainsBits(rows, causes, weights, measurements.length, open, model.healthy);
  const scored = open.flatMap((at) => {
    const measurement = measurements[at];
    const gainBits = gains[at] ?? 0;
    if (measurement === undefined || gainBits < LEAST_GAIN_BITS) return [];
    const risk = isRisky && needsPower(measurement) ? RISK_EFFORT : 0;
    const cost = costOf(measurement, options) + risk;
    return [{ at, measurement, gainBits, cost, score: gainBits / cost }];
  });
  scored.sort((a, b) => b.score - a.score);
  const live = hypotheses.filter(({ probability }) => probability > LIVE);
  if (live.length > LOOK_AHEAD_BELOW || live.length < 3) return scored;
  const rate = RATE_KEPT * (scored[0]?.score ?? 0);
  const second = scored.slice(0, LOOK_AHEAD_SECOND);
  const ahead = scored.slice(0, LOOK_AHEAD_FIRST).map((first) => ({
    first,
    effort:
      first.cost - first.gainBits / rate + effortAfter(live, first.at, second, rate, model.healthy),
  }));
  ahead.sort((a, b) => a.effort - b.effort);
  return [...ahead.map(({ first }) => first), ...scored.slice(LOOK_AHEAD_FIRST)];
}

/**
 * What the best following measurement changes on average in the effort still to come, when
 * information goes on costing what it costs now: its own effort less what it saves. Never above 0:
 * it need not be taken.
 */
function effortAfter(
  live: readonly Hypothesis[],
  first: number,
  candidates: readonly ScoredMeasurement[],
  rate: number,
  healthy: Uint8Array,
): number {
  const rows = live.map(({ conditions }) => conditions);
  const causes = live.map(({ cause }) => cause);
  const columns = candidates.map(({ at }) => at).filter((at) => at !== first);
  const total = live.reduce((sum, { probability }) => sum + probability, 0);
  let effort = 0;
  for (let verdict = 0; verdict < VERDICTS; verdict++) {
    const weights = live.map(
      ({ probability, conditions }) =>
        probability * (OUTCOME_ODDS[(conditions[first] ?? 0) * VERDICTS + verdict] ?? 0),
    );
    const chance = weights.reduce((sum, weight) => sum + weight, 0) / total;
    if (chance < 0.02) continue;
    const gains = gainsBits(rows, causes, weights, healthy.length, columns, healthy);
    let best = 0;
    for (const { at, cost } of candidates) {
      best = Math.min(best, cost - (gains[at] ?? 0) / rate);
    }
    effort += chance * best;
  }
  return effort;
}

/** Whether a rail may well be joined to a higher one, so that power would destroy what it feeds. */
export function isJoinLikely(model: RailModel, { byFault }: FaultPosterior): boolean {
  const probability = model.faults.reduce(
    (sum, { kind }, fault) => sum + (kind === 'joined' ? (byFault[fault] ?? 0) : 0),
    0,
  );
  return probability > RISKY;
}

function needsPower({ what }: RailMeasurement): boolean {
  return what === 'volts' || what === 'input' || what === 'enable';
}

function costOf(measurement: RailMeasurement, options: NextOptions): number {
  const isAsItIs = needsPower(measurement) === options.isPowered;
  return measurement.effort + (isAsItIs ? 0 : options.changeOverEffort);
}
