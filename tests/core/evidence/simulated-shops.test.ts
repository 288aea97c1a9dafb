import { describe, expect, it } from 'vitest';
import { brierScore, calibrationBins, calibrationGap } from '../../../core/evidence/calibration.ts';
import { predictShop, simulateShop } from '../../support/simulated-shop.ts';

describe('likelyCauses on simulated shops, later jobs predicted from earlier ones only', () => {
  const shops = Array.from({ length: 6 }, (_, i) => simulateShop(i + 1, 220));
  const all = shops.map((shop) => predictShop(shop, 20));
  const of = (kind: 'ours' | 'frequency' | 'commonest') => all.flatMap((each) => each[kind]);

  it('beats a frequency baseline and "most common cause" in every shop (Brier score)', () => {
    for (const { ours, frequency, commonest } of all) {
      expect(brierScore(ours)).toBeLessThan(brierScore(frequency) * 0.8);
      expect(brierScore(ours)).toBeLessThan(brierScore(commonest) * 0.6);
    }
  });

  it('means what it says: probabilities come true as often as they claim', () => {
    expect(calibrationGap(of('ours'))).toBeLessThan(0.03);
    for (const { meanP, cameTrue, count } of calibrationBins(of('ours'))) {
      if (count >= 60) expect(Math.abs(meanP - cameTrue)).toBeLessThan(0.12);
    }
  });

  it('learns: it predicts the second half of a shop better than the first', () => {
    const first = all.flatMap(({ ours }) => ours.slice(0, 60));
    const last = all.flatMap(({ ours }) => ours.slice(-60));
    expect(brierScore(last)).toBeLessThan(brierScore(first));
  });
});
