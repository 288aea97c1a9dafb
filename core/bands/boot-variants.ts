import { envelopeOf, warpingBound } from '../match/warping-bound.ts';
import { warpingDistance } from '../match/warping-distance.ts';
import { curveEnd } from './run-curve.ts';

/** Mean difference in octaves beyond which two good runs boot in different ways. */
const OTHER_WAY = 0.35;
/** Curves are compared at every so many steps: half a second. */
const EVERY = 3;
/** Points that a moment may be moved. */
const RADIUS = 12;
/** What small levels are told apart by: 50 mW, or 10 mA without volts. */
const SMALL = { watts: 0.05, amps: 0.01 } as const;

/**
 * Parts good runs by the way that they boot: a run joins the first way whose first run it is like
 * after warping in time (a board may train its memory for longer once, or start from standby).
 * Returns indexes into `curves`; the way with the most runs first.
 */
export function bootVariants(
  curves: readonly Float64Array[],
  quantity: 'amps' | 'watts',
): readonly (readonly number[])[] {
  const shapes = curves.map((curve) => shapeOf(curve, SMALL[quantity]));
  const ways: number[][] = [];
  shapes.forEach((shape, i) => {
    const way = ways.find(([first]) => isAlike(shapes[first!]!, shape));
    if (way === undefined) ways.push([i]);
    else way.push(i);
  });
  return ways.sort((a, b) => b.length - a.length);
}

function shapeOf(curve: Float64Array, small: number): Float64Array {
  const end = curveEnd(curve);
  const shape: number[] = [];
  let held = 0;
  for (let i = 0; i < end; i += 1) {
    if (!Number.isNaN(curve[i]!)) held = curve[i]!;
    if (i % EVERY === 0) shape.push(Math.log2(1 + Math.max(0, held) / small));
  }
  return Float64Array.from(shape);
}

/** Only as much of two runs as both have is compared. */
function isAlike(a: Float64Array, b: Float64Array): boolean {
  const points = Math.min(a.length, b.length);
  if (points === 0) return true;
  const [x, y] = [a.subarray(0, points), b.subarray(0, points)];
  const limit = OTHER_WAY * Math.sqrt(points);
  const tolerance = 0.1;
  if (warpingBound(envelopeOf(x, RADIUS), y, tolerance, limit) > limit) return false;
  return warpingDistance(x, y, { radius: RADIUS, tolerance, limit }) <= limit;
}
