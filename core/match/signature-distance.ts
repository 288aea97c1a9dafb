import { type CurveSignature, SIGNATURE_POINTS } from './curve-signature.ts';
import { type Envelope, envelopeOf, warpingBound } from './warping-bound.ts';
import { warpingDistance } from './warping-distance.ts';

/** Points that a moment may be moved: two thirds as fast to one and a half times as fast. */
export const WARP_RADIUS = 5;
/** Differences of levels that are noise and spread between boards: a tenth of an octave. */
const TOLERANCE = 0.05;
/** Weight of unlike bases, which a load beside the board explains as well. */
const BASE_WEIGHT = 0.05;
/** Fewest points that are compared. */
const FEWEST_POINTS = 8;

/** A signature made ready to be compared with many. */
export interface Query {
  readonly signature: CurveSignature;
  readonly points: number;
  readonly shape: Float64Array;
  readonly envelope: Envelope;
}

/** Readies a signature; only as much of other runs is compared as this one has reached. */
export function readyQuery(signature: CurveSignature): Query {
  const points = Math.min(SIGNATURE_POINTS, Math.max(FEWEST_POINTS, signature.known));
  const shape = signature.shape.subarray(0, points);
  return { signature, points, shape, envelope: envelopeOf(shape, WARP_RADIUS) };
}

/**
 * How unlike another run is: the mean difference of levels in octaves after warping, plus a little
 * for unlike bases. 0 is the same curve; below about 0.3 a person calls them alike. Infinite beyond
 * `limit`, and between runs with and without volts: their levels cannot be compared.
 */
export function signatureDistance(
  query: Query,
  other: CurveSignature,
  limit = Number.POSITIVE_INFINITY,
): number {
  const { signature, points, shape, envelope } = query;
  if (signature.quantity !== other.quantity) return Number.POSITIVE_INFINITY;
  const bases = baseDistance(signature, other);
  const root = Math.sqrt(points);
  const left = (limit - bases) * root;
  if (!(left > 0)) return Number.POSITIVE_INFINITY;
  const theirs = other.shape.subarray(0, points);
  if (warpingBound(envelope, theirs, TOLERANCE, left) > left) return Number.POSITIVE_INFINITY;
  const options = { radius: WARP_RADIUS, tolerance: TOLERANCE, limit: left };
  return warpingDistance(shape, theirs, options) / root + bases;
}

function baseDistance(a: CurveSignature, b: CurveSignature): number {
  const small = a.quantity === 'watts' ? 0.05 : 0.01;
  const octaves = (base: number) => Math.log2(1 + Math.max(0, base) / small);
  return BASE_WEIGHT * Math.abs(octaves(a.base) - octaves(b.base));
}

/** A distance that no signature inside the box is nearer than. */
export function boxBound(
  { points, envelope }: Query,
  box: { readonly low: Float64Array; readonly high: Float64Array },
): number {
  const { low, high } = envelope;
  let sum = 0;
  for (let i = 0; i < points; i += 1) {
    const outside = Math.max(low[i]! - box.high[i]!, box.low[i]! - high[i]!) - TOLERANCE;
    if (outside > 0) sum += outside * outside;
  }
  return Math.sqrt(sum / points);
}
