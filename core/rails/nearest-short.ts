import { trueOhms } from './judge-ohms.ts';
import type { Observation } from './observations.ts';
import type { FaultVariant, RailModel } from './rail-model.ts';

/** How much the lowest of several linked readings speaks for its own rail (common practice, no source). */
const NEARER_FACTOR = 3;

/**
 * Natural log of how well a short on a rail fits ohms read on several rails that links tie together:
 * the short is nearest to where the ohms are lowest, if the meter can tell them apart. 0 otherwise.
 */
export function logNearestShort(
  { board, graph }: RailModel,
  { kind, rail, sags }: FaultVariant,
  observations: readonly Observation[],
): number {
  if (kind !== 'short' || sags) return 0;
  const own = ohmsAt(observations, board.rails[rail]?.name);
  if (own === null) return 0;
  const isLinked = (other: number) =>
    (graph.isLink[rail] === true && graph.feeds[rail]?.includes(other) === true) ||
    (graph.isLink[other] === true && graph.children[rail]?.includes(other) === true);
  const near = [...(graph.feeds[rail] ?? []), ...(graph.children[rail] ?? [])].filter(isLinked);
  const others = near.flatMap((other) => ohmsAt(observations, board.rails[other]?.name) ?? []);
  if (others.length === 0) return 0;
  if (others.some(({ high }) => high < own.low)) return -Math.log(NEARER_FACTOR);
  return others.every(({ low }) => low > own.high) ? Math.log(NEARER_FACTOR) : 0;
}

function ohmsAt(observations: readonly Observation[], name: string | undefined) {
  const found = observations.findLast(
    ({ judged: { reading, verdict } }) =>
      reading.rail === name &&
      reading.quantity === 'ohms' &&
      reading.against === null &&
      verdict === 'shorted',
  );
  return found === undefined ? null : trueOhms(found.judged.reading);
}
