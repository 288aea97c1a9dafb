import { describe, expect, it } from 'vitest';
import type { Gradient, RankedPoint } from '../../../core/shorts/gradient.ts';
import type { HuntPoint } from '../../../core/shorts/hunt.ts';
import { drawGradient } from '../../../renderer/shorts/draw-gradient.ts';

const point = (name: string, alongMm: number | null): HuntPoint => ({
  ...{ id: name, name, alongMm, onPicture: null },
  readings: [],
});
const ranked = (name: string, netV: number): RankedPoint => ({
  ...{ name, netV, sigmaV: 1e-4, ohm: netV, isTied: false, isLinear: null, arithmetic: '' },
});
const gradient: Gradient = {
  ...{ verdict: 'nearest', nearest: ['C'], kneeMm: 50, neededA: null, text: '', notes: [] },
  ranked: [ranked('C', 0.05), ranked('B', 0.06), ranked('A', 0.07)],
};
const ROOM = { width: 400, height: 200 };

describe('drawGradient', () => {
  it('lays points along the track where their places are known, lowest volts at the bottom', () => {
    const points = [point('C', 60), point('A', 0), point('B', 30)];
    const drawn = drawGradient({ points }, gradient, ROOM);
    expect(drawn.points.map(({ name }) => name)).toEqual(['A', 'B', 'C']);
    const [a, b, c] = drawn.points;
    expect(b!.x - a!.x).toBeCloseTo(c!.x - b!.x, 9);
    expect(a!.y).toBeLessThan(c!.y);
    expect(c?.isNearest).toBe(true);
    expect(drawn.kneeX).toBeGreaterThan(b!.x);
    expect(drawn.line).toMatch(/^M.*L.*L/);
  });

  it('keeps the order of the list, without a line, where a place is not known', () => {
    const drawn = drawGradient({ points: [point('C', null), point('A', 0)] }, gradient, ROOM);
    expect(drawn.points.map(({ name }) => name)).toEqual(['C', 'A']);
    expect(drawn).toMatchObject({ line: '', kneeX: null });
  });

  it('draws one point, and points all alike, without running out of the sheet', () => {
    const level = {
      ...gradient,
      ranked: [ranked('A', 0.05)].map((one) => ({ ...one, sigmaV: 0 })),
    };
    const drawn = drawGradient({ points: [point('A', 0)] }, level, ROOM);
    expect(drawn.points.every(({ x, y }) => x > 0 && x < 400 && y > 0 && y < 200)).toBe(true);
  });
});
