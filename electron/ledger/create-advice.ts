import { type AdvisedWalk, countAdvised } from '../../core/rails/count-advised.ts';
import type { RailModel } from '../../core/rails/rail-model.ts';

/** Boards and faults whose advised way is remembered. */
const MOST_KNOWN = 200;

/**
 * The advice's own way to a fault, thought through once for each board and fault. It takes a tenth of
 * a second at 200 rails, and this thread also writes the run down: while the board is powered only
 * what is known already is answered.
 */
export function createAdvice() {
  const known = new Map<string, AdvisedWalk>();
  return (isPowered: boolean) =>
    (model: RailModel, faultKeys: readonly string[]): AdvisedWalk | null => {
      const { board, state, prior } = model;
      const key = JSON.stringify([board, state, prior, faultKeys]);
      const before = known.get(key);
      if (before !== undefined || isPowered) return before ?? null;
      const way = countAdvised(model, faultKeys);
      if (known.size >= MOST_KNOWN) known.clear();
      known.set(key, way);
      return way;
    };
}
