import { describe, expect, it } from 'vitest';
import { wattsDecimals, wattsOf } from '../../../renderer/sheet/watts.ts';

// Propagation of resolution through a product: NIST TN 1297 A.3 (first-order law), from memory.
describe('power', () => {
  it('is unknown when either reading is', () => {
    expect(wattsOf(19, null)).toBeNull();
    expect(wattsOf(null, 0.2)).toBeNull();
    expect(wattsOf(19, 0.2)).toBeCloseTo(3.8);
  });

  it('shows no digit that volts and amps do not carry', () => {
    // 19.00 V and 1.000 A: 19 x 0.001 + 1 x 0.01 = 0.029 W, so tenths.
    expect(wattsDecimals(19, 1, 2, 3)).toBe(1);
    // 4.0000 V and 1.00000 A: 4e-5 + 1e-4 = 1.4e-4 W, so thousandths and a bit.
    expect(wattsDecimals(4, 1, 4, 5)).toBeGreaterThanOrEqual(3);
    expect(wattsDecimals(4, 1, 4, 5)).toBeLessThanOrEqual(4);
  });

  it('never asks for fewer than whole watts', () => {
    expect(wattsDecimals(60, 20, 0, 0)).toBe(0);
  });
});
