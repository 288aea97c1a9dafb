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
  beside: FaultVariant | null = null,
): number {
  if (kind !== 'joined') return 0;
  const through = logApartFromGround(model, rail, other, observations);
  // Beside a short on either, their ohms say nothing of the partner's.
  const isGrounded = beside?.kind === 'short' && [rail, other].includes(beside.rail);
  if (isGrounded) return through;
  const [a, b] = [model.board.rails[rail], model.board.rails[other]];
  const [ohmsA, ohmsB] = [a?.expectedOhms?.median, b?.expectedOhms?.median];
  if (ohmsA === undefined || ohmsB === undefined || ohmsA <= 0 || ohmsB <= 0) return through;
  const together = 1 / (1 / ohmsA + 1 / ohmsB);
  let log = through;
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

/** Two rails that are both near ground read between them the sum of their ways there, at least. */
const BELOW_SUM = 0.8;
const BRIDGED_FACTOR = 6;

/** Natural log of how much less the ohms between two rails are than by way of ground. */
function logApartFromGround(
  { board }: RailModel,
  rail: number,
  other: number,
  observations: readonly Observation[],
): number {
  const [a, b] = [board.rails[rail]?.name, board.rails[other]?.name];
  const netOf = (name: string | undefined, against: string | null | undefined) => {
    const value = observations.findLast(
      ({ judged: { reading } }) =>
        reading.quantity === 'ohms' && reading.rail === name && reading.against === against,
    )?.judged.reading;
    return value === undefined || value.value === null ? null : withoutLeads(value.value, value);
  };
  const between = netOf(a, b) ?? netOf(b, a);
  const [ownA, ownB] = [netOf(a, null), netOf(b, null)];
  if (between === null || ownA === null || ownB === null) return 0;
  return between < BELOW_SUM * (ownA + ownB) ? Math.log(BRIDGED_FACTOR) : 0;
}
