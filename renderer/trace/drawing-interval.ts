import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { TickRange } from './trace-view.ts';

/** Eyes need no more than 25 drawings a second, and want one at least every 0.4 s. */
const SHORTEST_MS = 40;
const LONGEST_MS = 400;

/** Milliseconds between two drawings: half the time in which the curve moves one column. */
export function drawingIntervalMs(range: TickRange, columns: number): number {
  const columnMs = ((range.toTick - range.fromTick) / columns / TICKS_PER_SECOND) * 1000;
  return Math.min(LONGEST_MS, Math.max(SHORTEST_MS, columnMs / 2));
}
