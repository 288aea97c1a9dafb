/** One prediction: probability by cause key, and the cause that it turned out to be. */
export interface Prediction {
  readonly probabilities: Readonly<Record<string, number>>;
  readonly truth: string;
}

/**
 * Mean Brier score over all causes, 0 (sure and right) to 2 (sure and wrong): the sum over causes of
 * the squared difference from 1 for the true one and 0 for the others. Brier 1950.
 */
export function brierScore(predictions: readonly Prediction[]): number {
  const scores = predictions.map(({ probabilities, truth }) => {
    const keys = new Set([...Object.keys(probabilities), truth]);
    let score = 0;
    for (const key of keys) score += ((probabilities[key] ?? 0) - (key === truth ? 1 : 0)) ** 2;
    return score;
  });
  return scores.reduce((sum, score) => sum + score, 0) / scores.length;
}

/** Predictions of like probability with how often they came true. */
export interface CalibrationBin {
  readonly fromP: number;
  readonly meanP: number;
  readonly cameTrue: number;
  readonly count: number;
}

/** Bins every probability of every prediction by tenths, empty bins left out. */
export function calibrationBins(predictions: readonly Prediction[]): readonly CalibrationBin[] {
  const bins = Array.from({ length: 10 }, () => ({ sum: 0, hits: 0, count: 0 }));
  for (const { probabilities, truth } of predictions) {
    for (const [key, p] of Object.entries(probabilities)) {
      const bin = bins[Math.min(9, Math.floor(p * 10))];
      if (bin === undefined) continue;
      bin.sum += p;
      bin.hits += key === truth ? 1 : 0;
      bin.count += 1;
    }
  }
  return bins.flatMap(({ sum, hits, count }, i) =>
    count === 0 ? [] : [{ fromP: i / 10, meanP: sum / count, cameTrue: hits / count, count }],
  );
}

/** Mean gap between what was said and what came true, weighted by how often it was said. */
export function calibrationGap(predictions: readonly Prediction[]): number {
  const bins = calibrationBins(predictions);
  const total = bins.reduce((sum, { count }) => sum + count, 0);
  return bins.reduce(
    (sum, { meanP, cameTrue, count }) => sum + (count / total) * Math.abs(meanP - cameTrue),
    0,
  );
}
