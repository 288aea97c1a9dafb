import type { BoardModel, Rail } from './board-model.ts';
import type { JudgedReading } from './rail-reading.ts';

/** Two rails that may be bridged, the lower one first. */
export interface BridgePair {
  readonly low: string;
  readonly high: string;
}

/** At most so many bridges are thought of beside those that were measured. */
const MOST_SUPPOSED = 6;
/** A rail that is too high lies at or below what it may be bridged to, a diode's drop included. */
const DROP_V = 0.8;

/**
 * Pairs of rails, beside a rail and its feed, that a bridge may join: those whose ohms between were
 * measured, and, for a rail that reads too high, the rails whose volts it may have got.
 */
export function bridgePairs(
  board: BoardModel,
  judged: readonly JudgedReading[],
): readonly BridgePair[] {
  const byName = new Map(board.rails.map((rail) => [rail.name, rail]));
  const found = new Map<string, BridgePair>();
  const add = (a: Rail, b: Rail) => {
    const [low, high] = Math.abs(a.nominalV) <= Math.abs(b.nominalV) ? [a, b] : [b, a];
    const isFed = low.fedBy.includes(high.name) || high.fedBy.includes(low.name);
    if (!isFed && low !== high) {
      found.set(`${low.name}:${high.name}`, { low: low.name, high: high.name });
    }
  };
  for (const { reading } of judged) {
    const [rail, other] = [byName.get(reading.rail), byName.get(reading.against ?? '')];
    if (rail !== undefined && other !== undefined) add(rail, other);
  }
  for (const { reading, verdict } of judged) {
    const rail = byName.get(reading.rail);
    const isHigh = verdict === 'high' && reading.quantity === 'volts' && reading.point === 'output';
    if (!isHigh || rail === undefined || reading.value === null) continue;
    const value = reading.value;
    const near = board.rails
      .filter(({ name, nominalV }) => {
        const above = (nominalV - value) * Math.sign(value);
        return name !== rail.name && above >= -0.05 * Math.abs(nominalV) && above <= DROP_V;
      })
      .sort((a, b) => Math.abs(a.nominalV - value) - Math.abs(b.nominalV - value));
    for (const other of near.slice(0, MOST_SUPPOSED)) add(rail, other);
  }
  return [...found.values()];
}
