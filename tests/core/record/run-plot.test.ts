import { describe, expect, it } from 'vitest';
import { drawRunPlot, type RunPlot, sharedTop } from '../../../core/record/run-plot.ts';
import { windowOfSamples } from '../../../core/trace/window-of-samples.ts';
import { columnsOf, type Level, runAfter, runBefore } from '../../support/record-job.ts';

const draw = (run = runAfter(), topA = 0) => {
  const { limitA, setV } = run.run;
  const plot = drawRunPlot({ window: run.window, report: run.report, limitA, setV, topA });
  if (plot === null) throw new Error('nothing was drawn');
  return plot;
};

const pointsOf = (path: string) =>
  [...path.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => ({
    x: Number(x),
    y: Number(y),
  }));

/** Amps that a height in the plot stands for, read off its own axis. */
function ampsAt(plot: RunPlot, y: number): number {
  const [low, ...others] = plot.ampsTicks;
  const high = others.at(-1)!;
  const share = (y - low!.at) / (high.at - low!.at);
  return Number(low!.text) + share * (Number(high.text) - Number(low!.text));
}

describe('drawRunPlot', () => {
  it('draws the curve where the axis says: its highest point is the peak of the run', () => {
    const run = runAfter();
    const plot = draw(run);
    const top = Math.min(...pointsOf(plot.amps).map((point) => point.y));
    expect(ampsAt(plot, top)).toBeCloseTo(run.report.peakA!, 2);
  });

  it('keeps every point inside the frame', () => {
    const plot = draw();
    for (const { x, y } of [...pointsOf(plot.amps), ...pointsOf(plot.volts)]) {
      expect(x).toBeGreaterThanOrEqual(plot.frame.left - 0.1);
      expect(x).toBeLessThanOrEqual(plot.frame.right + 0.1);
      expect(y).toBeGreaterThanOrEqual(plot.frame.top - 0.1);
      expect(y).toBeLessThanOrEqual(plot.frame.bottom + 0.1);
    }
  });

  it('draws a spike one sample wide in an eight-hour run', () => {
    const level: Level = { stage: 'running', forS: 600, amps: 0.3, volts: 5, reason: '' };
    const columns = columnsOf([level]);
    columns.amps[6000] = 1.7;
    columns.ticks.forEach((_, i) => {
      columns.ticks[i] = i * 24_000;
    });
    const window = windowOfSamples(columns, 0, 8 * 3600 * 10_000, 1200);
    const run = { ...runAfter(), window };
    const plot = draw(run);
    const top = Math.min(...pointsOf(plot.amps).map((point) => point.y));
    expect(ampsAt(plot, top)).toBeCloseTo(1.7, 2);
    expect(plot.timeTicks.at(-1)?.text).toMatch(/ h$/);
  });

  it('breaks the curve at a gap instead of drawing through it', () => {
    const columns = columnsOf([{ stage: 'running', forS: 20, amps: 0.3, volts: 5, reason: '' }]);
    for (let i = 200; i < columns.ticks.length; i += 1) columns.ticks[i]! += 60_000;
    const plot = draw({ ...runAfter(), window: windowOfSamples(columns, 0, 260_000, 1200) });
    expect(plot.amps.match(/M/g)).toHaveLength(2);
  });

  it('draws a run without a volts column', () => {
    const columns = columnsOf([{ stage: 'running', forS: 5, amps: 0.3, volts: 5, reason: '' }]);
    columns.volts.fill(Number.NaN);
    const plot = draw({ ...runAfter(), window: windowOfSamples(columns, 0, 50_000, 1200) });
    expect(plot).toMatchObject({ volts: '', voltsTicks: [] });
    expect(plot.amps).not.toBe('');
  });

  it('draws volts that were pulled down low in the frame, under the volts that were set', () => {
    const columns = columnsOf([{ stage: 'limited', forS: 5, amps: 1, volts: 0.15, reason: '' }]);
    const plot = draw({ ...runAfter(), window: windowOfSamples(columns, 0, 50_000, 1200) });
    expect(Number(plot.voltsTicks.at(-1)?.text)).toBeGreaterThanOrEqual(15);
    const height = plot.frame.bottom - Math.min(...pointsOf(plot.volts).map((point) => point.y));
    expect(height).toBeLessThan(0.05 * (plot.frame.bottom - plot.frame.top));
  });

  it('draws nothing when no current was read', () => {
    const columns = columnsOf([{ stage: 'running', forS: 5, amps: 0.3, volts: 5, reason: '' }]);
    columns.amps.fill(Number.NaN);
    const { report } = runAfter();
    const window = windowOfSamples(columns, 0, 50_000, 1200);
    expect(drawRunPlot({ window, report, limitA: null, setV: null, topA: 0 })).toBeNull();
  });

  it('shows a draw below zero without cutting it off', () => {
    const columns = columnsOf([{ stage: 'no-draw', forS: 5, amps: -0.004, volts: 5, reason: '' }]);
    const plot = draw({ ...runAfter(), window: windowOfSamples(columns, 0, 50_000, 1200) });
    for (const { y } of pointsOf(plot.amps)) expect(y).toBeLessThanOrEqual(plot.frame.bottom);
    expect(plot.ampsTicks[0]?.text).toMatch(/^\u2212/);
  });

  it('shows the limit only where it does not press the draw flat', () => {
    expect(draw(runAfter()).limit).not.toBeNull();
    expect(draw(runBefore()).limit).toBeNull();
  });

  it('gives two runs one axis when it is told a common top', () => {
    const top = 1.4;
    const [before, after] = [draw(runBefore(), top), draw(runAfter(), top)];
    expect(before?.ampsTicks).toEqual(after?.ampsTicks);
    expect(draw(runBefore()).ampsTicks).not.toEqual(before?.ampsTicks);
  });

  it('lays the strip under the curve on the same time axis, side by side', () => {
    const plot = draw();
    expect(plot.strip[0]?.left).toBe(plot.frame.left);
    expect(plot.strip.at(-1)?.right).toBe(plot.frame.right);
    plot.strip.slice(1).forEach((cell, i) => {
      expect(cell.left).toBe(plot.strip[i]?.right);
    });
  });
});

describe('sharedTop', () => {
  it('shares the highest draw between runs of one size, and nothing between unlike ones', () => {
    const before = runBefore().window;
    const after = runAfter().window;
    expect(sharedTop([before, before])).toBeCloseTo(0.267, 3);
    expect(sharedTop([before, after])).toBe(0);
    expect(sharedTop([])).toBe(0);
  });
});
