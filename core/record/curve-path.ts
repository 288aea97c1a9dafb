import { TICKS_PER_SECOND } from '../trace/sample.ts';

/**
 * SVG path data of a curve over screen columns: each column's lowest and highest reading, so
 * that a spike one sample wide is drawn. Breaks where `count` is 0 (a gap) or nothing was told.
 * `x` takes seconds, `y` the quantity.
 */
export function curvePath(
  tick: Float64Array,
  count: Float64Array,
  low: Float64Array,
  high: Float64Array,
  x: (seconds: number) => number,
  y: (value: number) => number,
): string {
  const pieces: string[] = [];
  let open = false;
  let lastY = 0;
  for (let i = 0; i < tick.length; i += 1) {
    if (count[i] === 0 || Number.isNaN(low[i]!) || Number.isNaN(high[i]!)) {
      open = false;
      continue;
    }
    const at = x(tick[i]! / TICKS_PER_SECOND).toFixed(1);
    const lowY = y(low[i]!);
    const highY = y(high[i]!);
    // The nearer end first, so that a wide column does not cross itself.
    const ends = Math.abs(lowY - lastY) <= Math.abs(highY - lastY) ? [lowY, highY] : [highY, lowY];
    const first = (ends[0] ?? lowY).toFixed(1);
    const second = (ends[1] ?? highY).toFixed(1);
    // A lone sample between two gaps is a dot of round caps, not nothing.
    pieces.push(open ? `L${at} ${first}` : `M${at} ${first}L${at} ${first}`);
    if (second !== first) pieces.push(`L${at} ${second}`);
    lastY = ends[1] ?? highY;
    open = true;
  }
  return pieces.join('');
}
