import { describe, expect, it } from 'vitest';
import { decimalsOf } from '../../../renderer/replay/decimals-of.ts';

describe('digits of a kept run', () => {
  it('are those of its finest value', () => {
    expect(decimalsOf(Float64Array.from([19, 18.9, 18.94]))).toBe(2);
    expect(decimalsOf(Float64Array.from([0.1, 0.2, 0.3, 0.231]))).toBe(3);
  });

  it('are none for whole numbers and nothing at all', () => {
    expect(decimalsOf(Float64Array.from([5, 12]))).toBe(0);
    expect(decimalsOf(Float64Array.from([Number.NaN]))).toBe(0);
  });

  it('stop at six for values that no instrument rounded', () => {
    expect(decimalsOf(Float64Array.from([Math.PI]))).toBe(6);
  });
});
