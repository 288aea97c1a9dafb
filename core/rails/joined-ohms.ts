import type { Observation } from './observations.ts';
import type { FaultVariant, RailModel } from './rail-model.ts';
import { withoutLeads } from './without-leads.ts';

/** Readings this near to what the partner would give speak for a join, those far from it against. */
const NEAR = 1.3;
const FAR = 2.5;
/**
 * A short may leave anything from milliohms to tens of ohms, a join leaves the partner's own ohms:
 * how much the second is more pointed than the first (common practice, no source).
 */
const NEAR_FACTOR = 8;
const FAR_FACTOR = 0.05;

/**
 * Natural log of how well the ohms that were read fit two joined rails: each should read about the
 * two in parallel, as known-good boards read them. 0 where no known-good says what that would be.
 */
export function logJoinedFit(
  model: RailModel,
  { kind, rail, other }: FaultVariant,
  observations: readonly Observation[],
): number {
  if (kind !== 'joined') return 0;
  const [a, b] = [model.board.rails[rail], model.board.rails[other]];
  const [ohmsA, ohmsB] = [a?.expectedOhms?.median, b?.expectedOhms?.median];
  if (ohmsA === undefined || ohmsB === undefined || ohmsA <= 0 || ohmsB <= 0) return 0;
  const together = 1 / (1 / ohmsA + 1 / ohmsB);
  let log = 0;
  for (const { judged } of observations) {
    const { reading } = judged;
    const isTheirs = reading.rail === a?.name || reading.rail === b?.name;
    const isOhms = reading.quantity === 'ohms' && reading.against === null;
    const wasLowered = judged.verdict === 'shorted' || judged.verdict === 'low';
    if (!isTheirs || !isOhms || !wasLowered || reading.value === null) continue;
    const net = Math.max(1e-3, withoutLeads(reading.value, reading));
    const ratio = Math.max(net / together, together / net);
    if (ratio < NEAR) log += Math.log(NEAR_FACTOR);
    if (ratio > FAR) log += Math.log(FAR_FACTOR);
  }
  return log;
}
