import type { TraceColumns, TraceWindow } from './sample.ts';
import { emptyWindow, windowColumns } from './window-columns.ts';

/** Shortest silence that is drawn as a gap, in ticks: a poll that hiccups is not one. */
const SHORTEST_GAP_TICKS = 2_000;
const GAP_IN_INTERVALS = 5;

/** The silence, in ticks, from which a curve is broken, for samples `usualTicks` apart. */
export function gapTicksFor(usualTicks: number): number {
  return Math.max(SHORTEST_GAP_TICKS, GAP_IN_INTERVALS * usualTicks);
}

/**
 * Reduces samples (ticks not decreasing) to at most `columns` entries over `[fromTick, toTick)`:
 * exact lowest, highest and mean of each column. A column with one sample carries that sample's
 * own tick, others their middle. Columns inside a gap get an entry with count 0; a stretch with
 * fewer samples than columns gives an entry a sample, so a zoomed-in curve stays joined up.
 */
export function windowOfSamples(
  samples: TraceColumns,
  fromTick: number,
  toTick: number,
  columns: number,
): TraceWindow {
  const { ticks, volts, amps } = samples;
  const from = lowerBound(ticks, fromTick);
  const to = lowerBound(ticks, toTick);
  if (!(toTick > fromTick) || from === to || columns < 1) return emptyWindow(fromTick, toTick, 0);
  const filling = windowColumns(fromTick, toTick, columns, gapTicksFor(usualInterval(ticks)));
  for (let i = from; i < to; i += 1) filling.addSample(ticks[i]!, volts[i]!, amps[i]!);
  return filling.finish();
}

/** Index of the first tick at or after `tick`. */
export function lowerBound(ticks: Float64Array, tick: number): number {
  let low = 0;
  let high = ticks.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (ticks[middle]! < tick) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Median interval of at most a few hundred neighbours spread over the stretch; 0 for one sample. */
function usualInterval(ticks: Float64Array): number {
  const last = ticks.length - 1;
  if (last < 1) return 0;
  const stride = Math.max(1, Math.floor(last / 255));
  const seen: number[] = [];
  for (let i = 1; i <= last; i += stride) seen.push(ticks[i]! - ticks[i - 1]!);
  seen.sort((a, b) => a - b);
  return seen[seen.length >>> 1]!;
}
