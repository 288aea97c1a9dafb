import { describe, expect, it } from 'vitest';
import { createSeededRandom } from '../../../core/bench-model/seeded-random.ts';

const draw = (seed: number, name: string, n: number) => {
  const random = createSeededRandom(seed, name);
  return Array.from({ length: n }, () => random.even());
};

describe('createSeededRandom', () => {
  it('gives the same stream for the same seed and name, and another for every other', () => {
    const first = draw(1, 'a', 20).join();
    expect(draw(1, 'a', 20).join()).toBe(first);
    const others = [draw(2, 'a', 20), draw(1, 'b', 20), draw(5, 'a', 20), draw(6, 'a', 20)];
    expect(new Set([first, ...others.map(String)]).size).toBe(5);
  });

  it('is even over 0 to 1', () => {
    const tenths = new Array<number>(10).fill(0);
    for (const value of draw(3, 'even', 10_000)) tenths[Math.floor(value * 10)]! += 1;
    // Chi-squared with 9 degrees of freedom: 27.9 is passed once in a thousand (NIST/SEMATECH
    // e-Handbook 1.3.6.7.4).
    const chi = tenths.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chi).toBeLessThan(27.9);
  });

  it('has normal numbers of mean 0 and standard deviation 1', () => {
    const random = createSeededRandom(4, 'normal');
    const values = Array.from({ length: 20_000 }, () => random.normal());
    const mean = values.reduce((a, b) => a + b, 0) / values.length;
    const variance = values.reduce((a, b) => a + (b - mean) ** 2, 0) / values.length;
    expect(mean).toBeCloseTo(0, 1);
    expect(variance).toBeCloseTo(1, 1);
    expect(values.filter((v) => Math.abs(v) > 1.96).length / values.length).toBeCloseTo(0.05, 2);
  });
});
