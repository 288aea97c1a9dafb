import type { Observation } from './observations.ts';
import { type FaultVariant, isStepUp, type RailModel } from './rail-model.ts';

/** A diode's drop at most. */
const DROP_V = 1;
/** How pointed it is that a step-up shows its feed less a diode (common practice, no source). */
const PASSES_FACTOR = 5;
const SHORT_FACTOR = 0.2;

/**
 * Natural log of how well a step-up that reads about its feed, a diode lower, fits: it does not
 * switch. A short behind it would hold it near nothing. 0 for other rails and readings.
 */
export function logPassedThrough(
  { board }: RailModel,
  { kind, rail, pulls }: FaultVariant,
  observations: readonly Observation[],
): number {
  if (kind !== 'source' && kind !== 'enable' && kind !== 'short') return 0;
  const own = board.rails[rail];
  if (own === undefined || !isStepUp(board, rail)) return 0;
  const read = (name: string) =>
    observations.findLast(
      ({ judged: { reading } }) =>
        reading.rail === name && reading.quantity === 'volts' && reading.point === 'output',
    )?.judged;
  const low = read(own.name);
  if (low === undefined || low.verdict !== 'low') return 0;
  const value = Math.abs(low.reading.value ?? 0);
  const passes = own.fedBy.some((name) => {
    const nominalV = board.rails.find((each) => each.name === name)?.nominalV ?? 0;
    const below = Math.abs(read(name)?.reading.value ?? nominalV) - value;
    return below >= 0 && below <= DROP_V;
  });
  if (!passes) return 0;
  if (kind === 'short') return Math.log(SHORT_FACTOR);
  return pulls ? Math.log(PASSES_FACTOR) : 0;
}
