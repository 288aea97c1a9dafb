import { describe, expect, it } from 'vitest';
import { createLowPass } from '../../../core/bench-model/low-pass.ts';

describe('createLowPass', () => {
  it('reaches 1 - 1/e of a step after its time constant, however it is cut', () => {
    for (const cuts of [1, 7, 1000]) {
      const reading = createLowPass(0.01);
      reading.follow(1, 1e-9);
      for (let i = 0; i < cuts; i += 1) reading.follow(1, 0.01 / cuts);
      expect(reading.value).toBeCloseTo(1 - Math.exp(-1), 6);
    }
  });

  it('lags a ramp by its time constant', () => {
    const reading = createLowPass(0.01);
    for (let i = 1; i <= 100; i += 1) reading.follow(i / 100, 0.01);
    expect(reading.value).toBeCloseTo(1 - 0.01, 6);
  });

  it('is at the value after a step far longer than its time constant', () => {
    const reading = createLowPass(0.01);
    reading.follow(3, 1e-6);
    reading.follow(3, 100);
    expect(reading.value).toBe(3);
    reading.restart(7);
    expect(reading.value).toBe(7);
  });
});
