import { describe, expect, it } from 'vitest';
import { stageLevels, stageThresholds } from '../../../core/bands/stage-evidence.ts';
import { UNKNOWN_BOARD } from '../../../core/stages/stage.ts';
import { samples } from '../../support/ledger-samples.ts';

describe('stageLevels', () => {
  it('finds level, noise and resolution of a flat draw', () => {
    const flat = samples(1000, { amps: (i) => (i % 2 === 0 ? 0.23 : 0.232) });
    const levels = stageLevels(flat);
    expect(levels).toMatchObject({ samples: 1000, lowA: 0.23, highA: 0.232, meanV: 19 });
    expect(levels.meanA).toBeCloseTo(0.231, 9);
    expect(levels.countA).toBeCloseTo(0.002, 9);
    expect(levels.spreadA).toBeCloseTo(0.001, 5);
    expect(levels.noiseA).toBeCloseTo(0.002 / Math.SQRT2, 9);
  });

  it('does not take a slope for noise', () => {
    const slope = stageLevels(samples(1000, { amps: (i) => 0.1 + i * 0.001 }));
    expect(slope.spreadA).toBeGreaterThan(0.28);
    expect(slope.noiseA).toBeLessThan(0.001);
  });

  it('agrees with the worked statistics of NIST StRD data set NumAcc1', () => {
    // Mean 10000002, sample standard deviation 1 (NIST StRD univariate, NumAcc1).
    const three = samples(3, { amps: (i) => [10_000_001, 10_000_003, 10_000_002][i]! });
    expect(stageLevels(three).meanA).toBe(10_000_002);
    expect(stageLevels(three).spreadA).toBeCloseTo(1, 12);
  });

  it('has dashes, not zeros, for what too few readings cannot tell', () => {
    const none = samples(1, { amps: () => Number.NaN, volts: Number.NaN });
    expect(stageLevels(none)).toEqual({
      samples: 1,
      meanA: null,
      lowA: null,
      highA: null,
      spreadA: null,
      noiseA: null,
      countA: null,
      meanV: null,
    });
    expect(stageLevels(samples(1)).spreadA).toBeNull();
  });
});

describe('stageThresholds', () => {
  it('says what a stall was held against and where that comes from', () => {
    const known = { ...UNKNOWN_BOARD, runningA: 0.45, wakesWithinS: 6, limitA: 1 };
    const found = stageThresholds({ stage: 'stalled' }, known);
    expect(found.filter(({ decides }) => decides).map(({ name }) => name)).toEqual([
      'Running level',
      'Runs within',
    ]);
    expect(found.find(({ name }) => name === 'Running level')).toMatchObject({
      value: 0.45,
      from: 'good runs',
    });
    expect(found.find(({ name }) => name === 'Zero floor')).toMatchObject({
      value: null,
      from: 'not known',
    });
  });
});
