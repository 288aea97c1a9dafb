import { brierScore, calibrationGap } from '../../core/evidence/calibration.ts';
import { predictShop, simulateShop } from '../support/simulated-shop.ts';
import { type Measure, measure, median } from './measure.ts';

/** Shops other than those that the tests hold. */
const SEEDS = [101, 102, 103, 104, 105, 106, 107, 108];
const JOBS = 240;
/** Jobs that only teach. */
const FIRST = 20;

/** How well likely causes predict later jobs of shops whose truth is known, from earlier jobs only. */
export async function measureEvidence(): Promise<readonly Measure[]> {
  const times: number[] = [];
  const all = SEEDS.map((seed) => {
    const shop = simulateShop(seed, JOBS);
    const startMs = performance.now();
    const found = predictShop(shop, FIRST);
    times.push((performance.now() - startMs) / (JOBS - FIRST));
    return found;
  });
  const ours = all.flatMap((one) => one.ours);
  const frequency = all.flatMap((one) => one.frequency);
  const commonest = all.flatMap((one) => one.commonest);
  const early = all.flatMap((one) => one.ours.slice(0, 60));
  const late = all.flatMap((one) => one.ours.slice(-60));
  const right = (predictions: typeof ours) =>
    predictions.filter(({ probabilities, truth }) => {
      const [first] = Object.entries(probabilities).sort((a, b) => b[1] - a[1]);
      return first?.[0] === truth;
    }).length / predictions.length;
  return [
    measure('Brier score of likely causes', brierScore(ours), 'of 2', 'below the shares', {
      name: 'shares of earlier causes',
      value: brierScore(frequency),
    }),
    measure('Brier score against the commonest cause', brierScore(ours), 'of 2', 'far below', {
      name: 'most common cause',
      value: brierScore(commonest),
    }),
    measure('calibration gap', calibrationGap(ours), 'share', 'under 0.03', {
      name: 'most common cause',
      value: calibrationGap(commonest),
    }),
    measure('first guess is right', right(ours), 'share', 'above the commonest', {
      name: 'most common cause',
      value: right(commonest),
    }),
    measure('Brier score of the last 60 jobs', brierScore(late), 'of 2', 'below the first 60', {
      name: 'the first 60',
      value: brierScore(early),
    }),
    measure('weighing one job among some 240', median(times), 'ms', 'under 50'),
  ];
}
