import type { Bridge } from '../../core/contract/contract.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';

/**
 * Samples asked of the ledger at once: 200 kB. They pass through main, whose loop also guards the
 * supply, and a piece must not hold it; here one is taken in well within a frame.
 */
const PIECE = 8192;

/**
 * Reads a kept run's samples with `fromTick <= tick < toTick` piece by piece, in order, and hands
 * each to `use` until `use` answers false. Answers false when the ledger refused or was stopped.
 */
export async function readSamples(
  bridge: Bridge,
  stretch: { readonly runId: string; readonly fromTick: number; readonly toTick: number },
  use: (piece: TraceColumns) => boolean,
): Promise<boolean> {
  const toTick = Math.ceil(stretch.toTick);
  let fromTick = Math.floor(stretch.fromTick);
  while (fromTick < toTick) {
    const answer = await bridge.readSamples({ id: stretch.runId, fromTick, toTick, limit: PIECE });
    if (!answer.ok) return false;
    const piece = answer.value;
    const count = piece.ticks.length;
    if (count === 0) return true;
    if (!use(piece)) return false;
    if (count < PIECE) return true;
    fromTick = Math.floor(piece.ticks[count - 1]!) + 1;
  }
  return true;
}
