/** A net reading along a track. */
export interface AlongPoint {
  readonly alongMm: number;
  readonly volts: number;
  readonly sigmaV: number;
}

/**
 * Where a falling line of readings meets its floor, mm: up to the short the drop is straight, beyond
 * it nothing flows and it is level. Takes the split of the points into a slope and a floor that fits
 * with the least squares; null with fewer than two points on the slope or none on the floor, or when
 * the slope does not fall.
 */
export function findKnee(points: readonly AlongPoint[]): number | null {
  const sorted = [...points].sort((a, b) => a.alongMm - b.alongMm);
  let best: { error: number; knee: number } | null = null;
  for (let split = 2; split < sorted.length; split++) {
    const slope = lineThrough(sorted.slice(0, split));
    const floor = sorted.slice(split);
    const level = floor.reduce((sum, { volts }) => sum + volts, 0) / floor.length;
    if (slope === null || slope.perMm >= 0) continue;
    const knee = (level - slope.atZero) / slope.perMm;
    const first = floor[0];
    const last = sorted[split - 1];
    if (first === undefined || last === undefined) continue;
    // The knee lies between the last point of the slope and the first of the floor.
    const slack = 1e-6 * (1 + Math.abs(knee));
    if (knee < last.alongMm - slack || knee > first.alongMm + slack) continue;
    const error = slope.error + floor.reduce((sum, { volts }) => sum + (volts - level) ** 2, 0);
    if (best === null || error < best.error) best = { error, knee };
  }
  return best?.knee ?? null;
}

function lineThrough(
  points: readonly AlongPoint[],
): { atZero: number; perMm: number; error: number } | null {
  const count = points.length;
  const meanX = points.reduce((sum, { alongMm }) => sum + alongMm, 0) / count;
  const meanY = points.reduce((sum, { volts }) => sum + volts, 0) / count;
  let across = 0;
  let square = 0;
  for (const { alongMm, volts } of points) {
    across += (alongMm - meanX) * (volts - meanY);
    square += (alongMm - meanX) ** 2;
  }
  if (square === 0) return null;
  const perMm = across / square;
  const atZero = meanY - perMm * meanX;
  const error = points.reduce(
    (sum, { alongMm, volts }) => sum + (volts - atZero - perMm * alongMm) ** 2,
    0,
  );
  return { atZero, perMm, error };
}
