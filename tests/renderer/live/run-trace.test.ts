import { describe, expect, it } from 'vitest';
import { createRunTrace } from '../../../renderer/live/run-trace.ts';

const samples = {
  ticks: Float64Array.from([0, 500, 1000, 90_000]),
  volts: Float64Array.from([5, Number.NaN, 5.1, 5]),
  amps: Float64Array.from([0.1, 0.2, 0.3, 0.4]),
  regulation: Uint8Array.from([1, 1, 2, 1]),
};

describe('a run in the window', () => {
  it('tells the reading of a moment', () => {
    const run = createRunTrace('a');
    run.append(samples);
    expect(run.at(1200)).toEqual({ tick: 1000, volts: 5.1, amps: 0.3, regulation: 2 });
    expect(run.at(600)).toMatchObject({ volts: null, amps: 0.2 });
  });

  it('tells none before the first and inside a gap', () => {
    const run = createRunTrace('a');
    expect(run.at(0)).toBeNull();
    run.append(samples);
    expect(run.at(50_000)).toBeNull();
    expect(run.at(90_001)?.amps).toBe(0.4);
  });

  it('tells its listeners of every batch', () => {
    const run = createRunTrace('a');
    let told = 0;
    const stop = run.subscribe(() => {
      told += 1;
    });
    run.append(samples);
    stop();
    run.append({ ...samples, ticks: samples.ticks.map((tick) => tick + 100_000) });
    expect(told).toBe(1);
    expect(run.version()).toBe(2);
  });
});
