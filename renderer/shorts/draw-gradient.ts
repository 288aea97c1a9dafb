import type { Gradient, RankedPoint } from '../../core/shorts/gradient.ts';
import type { Hunt } from '../../core/shorts/hunt.ts';

/** A point of the drawing, in its own units. */
export interface DrawnPoint {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** Half the height of three sigma. */
  readonly reach: number;
  readonly isNearest: boolean;
}

export interface GradientDrawing {
  readonly width: number;
  readonly height: number;
  readonly points: readonly DrawnPoint[];
  /** The line along the points; empty where their order is not known. */
  readonly line: string;
  /** Where the slope meets the floor; null when it is not known. */
  readonly kneeX: number | null;
}

const SIGMAS = 3;
const ROOM = { left: 52, right: 52, top: 34, bottom: 34 };

/**
 * Lays a gradient out: along the track where every point says how far along it is, else in the order
 * of the list, evenly. Volts go up; the lowest lies at the bottom.
 */
export function drawGradient(
  hunt: Pick<Hunt, 'points'>,
  gradient: Gradient,
  { width, height }: { readonly width: number; readonly height: number },
): GradientDrawing {
  const ranked = new Map(gradient.ranked.map((one) => [one.name, one]));
  const read = hunt.points.flatMap((point) => {
    const rank = ranked.get(point.name);
    return rank === undefined ? [] : [{ point, rank }];
  });
  const isPlaced = read.length > 1 && read.every(({ point }) => point.alongMm !== null);
  const order = isPlaced
    ? read.toSorted((a, b) => (a.point.alongMm ?? 0) - (b.point.alongMm ?? 0))
    : read;
  const alongOf = (at: number) => (isPlaced ? (order[at]?.point.alongMm ?? 0) : at);
  const [from, to] = [alongOf(0), alongOf(order.length - 1)];
  const across = (along: number) =>
    ROOM.left + ((along - from) / (to - from || 1)) * (width - ROOM.left - ROOM.right);
  const lows = read.map(({ rank }) => rank.netV - SIGMAS * rank.sigmaV);
  const highs = read.map(({ rank }) => rank.netV + SIGMAS * rank.sigmaV);
  const [low, high] = [Math.min(...lows), Math.max(...highs)];
  const tall = height - ROOM.top - ROOM.bottom;
  const up = (volts: number) => ROOM.top + (1 - (volts - low) / (high - low || 1)) * tall;
  const nearest = new Set(gradient.nearest);
  const points = order.map(
    ({ point, rank }, at): DrawnPoint => ({
      name: point.name,
      x: across(alongOf(at)),
      y: up(rank.netV),
      reach: reachOf(rank, low, high) * tall,
      isNearest: nearest.has(point.name),
    }),
  );
  return {
    width,
    height,
    points,
    line: isPlaced
      ? points
          .map(({ x, y }, at) => `${at === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`)
          .join('')
      : '',
    kneeX: isPlaced && gradient.kneeMm !== null ? across(gradient.kneeMm) : null,
  };
}

const reachOf = ({ sigmaV }: RankedPoint, low: number, high: number) =>
  (SIGMAS * sigmaV) / (high - low || 1);
