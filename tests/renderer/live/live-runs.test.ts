import { describe, expect, it } from 'vitest';
import type { TraceColumns } from '../../../core/trace/sample.ts';
import { createLiveRuns } from '../../../renderer/live/live-runs.ts';

const columns = (fromTick: number, count: number, amps = 0.1): TraceColumns => ({
  ticks: Float64Array.from({ length: count }, (_, i) => fromTick + i * 500),
  volts: new Float64Array(count).fill(5),
  amps: new Float64Array(count).fill(amps),
  regulation: new Uint8Array(count),
});
const batch = (runId: string, fresh: boolean, fromTick: number, count: number) => ({
  sequence: 1,
  runId,
  fresh,
  ...columns(fromTick, count),
});
const nothing = () => Promise.resolve();

describe('live runs', () => {
  it('grow by batches', () => {
    const runs = createLiveRuns(nothing);
    runs.append(batch('a', true, 0, 10));
    runs.append(batch('a', false, 5000, 10));
    expect(runs.current()?.samples()).toBe(20);
    expect(runs.current()?.endTick()).toBe(9500);
  });

  it('start anew on a fresh batch', () => {
    const runs = createLiveRuns(nothing);
    runs.append(batch('a', true, 0, 10));
    runs.append(batch('a', true, 0, 4));
    expect(runs.current()?.samples()).toBe(4);
  });

  it('keep the run that has just ended beside the next', () => {
    const runs = createLiveRuns(nothing);
    runs.append(batch('a', true, 0, 10));
    runs.append(batch('b', true, 0, 3));
    expect(runs.current()?.runId).toBe('b');
    expect(runs.byId('a')?.samples()).toBe(10);
  });

  it('fetch the beginning of a run met in its middle, and lose nothing that comes meanwhile', async () => {
    let release = () => {};
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    const runs = createLiveRuns(async (runId, beforeTick, use) => {
      expect([runId, beforeTick]).toEqual(['a', 10_000]);
      await held;
      use(columns(0, 20));
    });
    runs.append(batch('a', false, 10_000, 5));
    runs.append(batch('a', false, 12_500, 5));
    expect(runs.current()?.samples()).toBe(0);
    release();
    await new Promise((resolve) => setTimeout(resolve));
    expect(runs.current()?.samples()).toBe(30);
    expect([...runs.current()!.all().ticks]).toEqual([
      ...columns(0, 20).ticks,
      ...columns(10_000, 10).ticks,
    ]);
  });
});
