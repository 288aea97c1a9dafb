import { describe, expect, it } from 'vitest';
import { createPyramid } from '../../../core/trace/pyramid.ts';
import { windowOfSamples } from '../../../core/trace/window-of-samples.ts';
import { tracePaths } from '../../../renderer/trace/trace-paths.ts';

const plane = { x: (tick: number) => tick / 100, y: (value: number) => 100 - value * 100 };

function columns(ticks: number[], amps: number[]) {
  return {
    ticks: Float64Array.from(ticks),
    amps: Float64Array.from(amps),
    volts: Float64Array.from(amps, () => 5),
    regulation: new Uint8Array(ticks.length),
  };
}
const ampsOf = (window: ReturnType<typeof windowOfSamples>) => ({
  min: window.ampsMin,
  max: window.ampsMax,
  mean: window.ampsMean,
});

describe('the curve of a window', () => {
  it('joins neighbouring samples with one line', () => {
    const window = windowOfSamples(columns([0, 500, 1000], [0, 0.5, 1]), 0, 2000, 100);
    expect(tracePaths(window, ampsOf(window), plane).line).toBe('M0 100L5 50L10 0');
  });

  it('draws a gap as a gap', () => {
    const ticks = [0, 500, 1000, 1500, 30_000, 30_500, 31_000];
    const window = windowOfSamples(
      columns(
        ticks,
        ticks.map(() => 0.2),
      ),
      0,
      32_000,
      64,
    );
    const { line } = tracePaths(window, ampsOf(window), plane);
    expect(line.split('M').length - 1).toBe(2);
  });

  it('breaks where the instrument told no value', () => {
    const window = windowOfSamples(
      columns([0, 500, 1000, 1500, 2000], [0.1, 0.1, Number.NaN, 0.1, 0.1]),
      0,
      2500,
      100,
    );
    expect(tracePaths(window, ampsOf(window), plane).line.split('M').length - 1).toBe(2);
  });

  it('shows a peak between columns as a band', () => {
    const ticks = Array.from({ length: 1000 }, (_, i) => i * 10);
    const window = windowOfSamples(
      columns(
        ticks,
        ticks.map((t) => (t === 5000 ? 0.9 : 0.1)),
      ),
      0,
      10_000,
      20,
    );
    const { band, line } = tracePaths(window, ampsOf(window), plane);
    expect(band).toContain(' 10');
    expect(line).not.toContain(' 10L');
  });

  it('gives no band to a curve that is one sample a column', () => {
    const window = windowOfSamples(columns([0, 500, 1000], [0, 0.5, 1]), 0, 2000, 100);
    expect(tracePaths(window, ampsOf(window), plane).band).toBe('');
  });

  it('keeps an eight-hour run within the columns asked for, its peak included', () => {
    const pyramid = createPyramid();
    const samples = 8 * 3600 * 20;
    const ticks = new Float64Array(samples);
    const amps = new Float64Array(samples).fill(0.5);
    for (let i = 0; i < samples; i += 1) ticks[i] = i * 500;
    amps[samples / 3] = 2;
    pyramid.append({ ticks, amps, volts: amps, regulation: new Uint8Array(samples) });
    const window = pyramid.window(0, samples * 500, 1000);
    expect(window.tick.length).toBeLessThanOrEqual(1000);
    expect(Math.max(...window.ampsMax)).toBe(2);
  });
});
