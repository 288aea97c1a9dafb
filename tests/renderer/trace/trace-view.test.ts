import { describe, expect, it } from 'vitest';
import { FIRST_VIEW, pan, rangeOf, zoom } from '../../../renderer/trace/trace-view.ts';

const S = 10_000;

describe('the stretch on screen', () => {
  it('starts a young run at the left edge and then follows its end', () => {
    expect(rangeOf(FIRST_VIEW, 4 * S)).toEqual({ fromTick: 0, toTick: 30 * S });
    expect(rangeOf(FIRST_VIEW, 100 * S)).toEqual({ fromTick: 70 * S, toTick: 100 * S });
  });

  it('shows the whole run for all', () => {
    const { fromTick, toTick } = rangeOf({ follow: true, spanTicks: null }, 500 * S);
    expect(fromTick).toBe(0);
    expect(toTick).toBeGreaterThanOrEqual(500 * S);
    expect(toTick).toBeLessThan(510 * S);
  });

  it('holds still while the newest samples fill what was kept free for them', () => {
    const all = { follow: true, spanTicks: null } as const;
    for (const view of [FIRST_VIEW, all]) {
      const starts = new Set<number>();
      for (let end = 100 * S; end < 110 * S; end += 500) {
        const range = rangeOf(view, end);
        expect(range.toTick).toBeGreaterThanOrEqual(end);
        starts.add(range.toTick);
      }
      // Ten seconds of 20 samples each: 20 moves at most, not 200.
      expect(starts.size).toBeLessThanOrEqual(21);
    }
  });

  it('keeps the point under the pointer where it is while zooming', () => {
    const at = 40 * S;
    const before = { follow: false, fromTick: 20 * S, toTick: 60 * S } as const;
    const after = rangeOf(zoom(before, 0.5, at, 100 * S), 100 * S);
    expect(after.toTick - after.fromTick).toBeCloseTo(20 * S);
    expect((at - after.fromTick) / (after.toTick - after.fromTick)).toBeCloseTo(0.5);
  });

  it('goes on following when it is zoomed by key', () => {
    const view = zoom(FIRST_VIEW, 0.5, null, 100 * S);
    expect(view.follow).toBe(true);
    expect(rangeOf(view, 100 * S).toTick).toBeCloseTo(100 * S);
  });

  it('lets go of the end when it is moved, and stays inside the run', () => {
    const view = pan(FIRST_VIEW, -0.5, 100 * S);
    expect(rangeOf(view, 100 * S)).toEqual({ fromTick: 55 * S, toTick: 85 * S });
    expect(rangeOf(pan(FIRST_VIEW, -1e9, 100 * S), 100 * S).fromTick).toBe(0);
    expect(rangeOf(pan(view, 1e9, 100 * S), 100 * S).toTick).toBe(100 * S);
  });

  it('zooms neither below a fifth of a second nor beyond the run', () => {
    const near = rangeOf(zoom(FIRST_VIEW, 1e-9, 90 * S, 100 * S), 100 * S);
    expect(near.toTick - near.fromTick).toBeCloseTo(0.2 * S);
    const far = rangeOf(zoom(FIRST_VIEW, 1e9, 90 * S, 100 * S), 100 * S);
    expect(far).toEqual({ fromTick: 0, toTick: 100 * S });
  });
});
