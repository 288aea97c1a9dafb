import { describe, expect, it } from 'vitest';
import { createGrowingColumns } from '../../../renderer/live/growing-columns.ts';

const piece = (fromTick: number, count: number) => ({
  ticks: Float64Array.from({ length: count }, (_, i) => fromTick + i),
  volts: Float64Array.from({ length: count }, (_, i) => fromTick + i),
  amps: Float64Array.from({ length: count }, (_, i) => -(fromTick + i)),
  regulation: new Uint8Array(count).fill(1),
});

describe('columns that grow', () => {
  it('keep every value when they outgrow their room', () => {
    const columns = createGrowingColumns(4);
    columns.append(piece(0, 3));
    columns.append(piece(3, 40));
    const all = columns.between(0, 1e9);
    expect([...all.ticks]).toEqual(Array.from({ length: 43 }, (_, i) => i));
    expect(all.amps[42]).toBe(-42);
    expect(all.regulation[42]).toBe(1);
  });

  it('hand out a stretch with one neighbour on either side, so that its line reaches the edges', () => {
    const columns = createGrowingColumns();
    columns.append(piece(0, 100));
    expect([...columns.between(10, 13).ticks]).toEqual([9, 10, 11, 12, 13]);
  });
});
