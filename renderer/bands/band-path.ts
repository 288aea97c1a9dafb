import { BAND_STEP_S, type BandVariant } from '../../core/bands/known-good-band.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { Plane } from '../trace/trace-paths.ts';

/** SVG path data of a band: its area, and its two edges as lines. */
export interface BandPaths {
  readonly area: string;
  readonly edges: string;
}

/** Draws a band that begins at `startTick`; stretches without good runs are left open. */
export function bandPaths(
  { low, high }: BandVariant,
  startTick: number,
  toAmps: number,
  plane: Plane,
): BandPaths {
  let area = '';
  let edges = '';
  let from = 0;
  const tickAt = (i: number) => startTick + (i + 0.5) * BAND_STEP_S * TICKS_PER_SECOND;
  const line = (values: Float64Array, to: number) => {
    let path = '';
    for (let i = from; i < to; i += 1) {
      const y = plane.y(Math.max(0, values[i]! * toAmps));
      path += `${path === '' ? 'M' : 'L'}${round(plane.x(tickAt(i)))} ${round(y)}`;
    }
    return path;
  };
  const close = (to: number) => {
    if (to - from < 2) return;
    const upper = line(high, to);
    const lower = line(low, to);
    edges += upper + lower;
    area += `${upper}${backwards(lower)}Z`;
  };
  for (let i = 0; i < low.length; i += 1) {
    if (!Number.isNaN(low[i]!)) continue;
    close(i);
    from = i + 1;
  }
  close(low.length);
  return { area, edges };
}

/** The same points from the last to the first, as a line that goes on. */
function backwards(path: string): string {
  return path
    .slice(1)
    .split('L')
    .reverse()
    .map((point) => `L${point}`)
    .join('');
}

function round(pixels: number): number {
  return Math.round(pixels * 10) / 10;
}
