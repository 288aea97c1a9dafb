import type { FaultPosterior, Hypothesis } from './fault-posterior.ts';
import { gainsBits } from './gains.ts';
import { OUTCOME_ODDS, VERDICTS } from './outcome-odds.ts';
import type { RailMeasurement } from './rail-measurement.ts';
import type { RailModel } from './rail-model.ts';

/** What the advice has to respect. */
export interface NextOptions {
  /** Keys of measurements that cannot be reached. */
  readonly cannotReach: ReadonlySet<string>;
  /** Whether the board is fed now: changing over costs effort. */
  readonly isPowered: boolean;
}

/** A measurement with what it is expected to tell for its effort. */
export interface ScoredMeasurement {
  readonly at: number;
  readonly measurement: RailMeasurement;
  readonly gainBits: number;
  readonly cost: number;
  /** What the advice is ordered by: bits for effort, over one step or two. */
  readonly score: number;
}

/** Effort beyond reaching the point: ohms want the board off and discharged, volts want it on. */
const CHANGE_OVER = 1;
/** Less than this is chance, not information. */
export const LEAST_GAIN_BITS = 0.01;
/** With no more explanations than this, two steps are looked ahead. */
const LOOK_AHEAD_BELOW = 64;
const LOOK_AHEAD_FIRST = 10;
const LOOK_AHEAD_SECOND = 40;
const LIVE = 0.002;

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
  const rows = hypotheses.map(({ conditions }) => conditions);
  const weights = hypotheses.map(({ probability }) => probability);
  const gains = gainsBits(rows, weights, measurements.length, open);
  const scored = open.flatMap((at) => {
    const measurement = measurements[at];
    const gainBits = gains[at] ?? 0;
    if (measurement === undefined || gainBits < LEAST_GAIN_BITS) return [];
    const cost = costOf(measurement, options);
    return [{ at, measurement, gainBits, cost, score: gainBits / cost }];
  });
  scored.sort((a, b) => b.score - a.score);
  const live = hypotheses.filter(({ probability }) => probability > LIVE);
  if (live.length > LOOK_AHEAD_BELOW || live.length < 3) return scored;
  const ahead = scored.slice(0, LOOK_AHEAD_FIRST).map((first) => {
    const then = secondStep(
      live,
      first.at,
      scored.slice(0, LOOK_AHEAD_SECOND),
      measurements.length,
    );
    return { ...first, score: (first.gainBits + then.gainBits) / (first.cost + then.cost) };
  });
  ahead.sort((a, b) => b.score - a.score);
  return [...ahead, ...scored.slice(LOOK_AHEAD_FIRST)];
}

/** What the best following measurement adds on average, and what it costs on average. */
function secondStep(
  live: readonly Hypothesis[],
  first: number,
  candidates: readonly ScoredMeasurement[],
  width: number,
): { gainBits: number; cost: number } {
  const rows = live.map(({ conditions }) => conditions);
  const columns = candidates.map(({ at }) => at).filter((at) => at !== first);
  const total = live.reduce((sum, { probability }) => sum + probability, 0);
  let gainBits = 0;
  let cost = 0;
  for (let verdict = 0; verdict < VERDICTS; verdict++) {
    const weights = live.map(
      ({ probability, conditions }) =>
        probability * (OUTCOME_ODDS[(conditions[first] ?? 0) * VERDICTS + verdict] ?? 0),
    );
    const chance = weights.reduce((sum, weight) => sum + weight, 0) / total;
    if (chance < 0.02) continue;
    const gains = gainsBits(rows, weights, width, columns);
    let best = { gain: 0, cost: 1 };
    for (const candidate of candidates) {
      const gain = gains[candidate.at] ?? 0;
      if (gain / candidate.cost > best.gain / best.cost) best = { gain, cost: candidate.cost };
    }
    if (best.gain < LEAST_GAIN_BITS) continue;
    gainBits += chance * best.gain;
    cost += chance * best.cost;
  }
  return { gainBits, cost };
}

function costOf({ what, effort }: RailMeasurement, { isPowered }: NextOptions): number {
  const wantsPower = what === 'volts' || what === 'input' || what === 'enable';
  return effort + (wantsPower === isPowered ? 0 : CHANGE_OVER);
}
