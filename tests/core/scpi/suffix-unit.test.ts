import { describe, expect, it } from 'vitest';
import { suffixUnit } from '../../../core/scpi/suffix-unit.ts';

// IEEE 488.2 table 7-2, as units.c of j123b567/scpi-parser at 886615902b27 cites it.
describe('suffixUnit', () => {
  it.each([
    ['EXV', 1e18],
    ['PEV', 1e15],
    ['TV', 1e12],
    ['GV', 1e9],
    ['MAV', 1e6],
    ['KV', 1e3],
    ['MV', 1e-3],
    ['UV', 1e-6],
    ['NV', 1e-9],
    ['PV', 1e-12],
    ['FV', 1e-15],
    ['AV', 1e-18],
    ['V', 1],
    ['mv', 1e-3],
  ])('%s multiplies by %d', (suffix, factor) => {
    expect(suffixUnit(suffix)).toEqual({ unit: 'V', factor });
  });

  it('reads M as mega before ohm and hertz, and MA as milliampere', () => {
    expect(suffixUnit('MOHM')).toEqual({ unit: 'OHM', factor: 1e6 });
    expect(suffixUnit('MHZ')).toEqual({ unit: 'HZ', factor: 1e6 });
    expect(suffixUnit('MA')).toEqual({ unit: 'A', factor: 1e-3 });
    expect(suffixUnit('MS')).toEqual({ unit: 'S', factor: 1e-3 });
  });

  it('knows nothing of others', () => {
    expect(suffixUnit('xyz')).toBeNull();
    expect(suffixUnit('QV')).toBeNull();
  });
});
