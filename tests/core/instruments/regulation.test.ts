import { describe, expect, it } from 'vitest';
import {
  clearRegulation,
  inferRegulation,
  regulationOfRegister,
  regulationOfWord,
} from '../../../core/instruments/regulation.ts';

const facts = { setV: 12, limitA: 1.5, outputOn: true };

describe('regulation from readings', () => {
  it('is constant current where a real supply set to 1.5 A measured 1.463 A with volts down', () => {
    expect(inferRegulation({ ...facts, volts: 4.2, amps: 1.463 })).toBe('cc');
  });

  it('is not constant current at 95 % of the limit while volts are held', () => {
    expect(inferRegulation({ ...facts, volts: 12, amps: 1.463 })).toBeNull();
    expect(inferRegulation({ ...facts, volts: 12, amps: 1.4 })).toBe('cv');
  });

  it('is open where volts are down without current at the limit', () => {
    expect(inferRegulation({ ...facts, volts: 9, amps: 0.3 })).toBeNull();
  });

  it('is open without set-points or readings, and off when the output is', () => {
    expect(inferRegulation({ ...facts, setV: null, volts: 12, amps: 0.1 })).toBeNull();
    expect(inferRegulation({ ...facts, volts: null, amps: 0.1 })).toBeNull();
    expect(inferRegulation({ ...facts, outputOn: false, volts: 0, amps: 0 })).toBe('off');
  });

  it('teaches only where no doubt is left', () => {
    expect(clearRegulation({ ...facts, volts: 12.01, amps: 0.4 })).toBe('cv');
    expect(clearRegulation({ ...facts, volts: 4, amps: 1.46 })).toBe('cc');
    expect(clearRegulation({ ...facts, volts: 12, amps: 1.3 })).toBeNull();
    expect(clearRegulation({ ...facts, volts: 11.5, amps: 1.46 })).toBeNull();
    expect(clearRegulation({ ...facts, outputOn: null, volts: 12, amps: 0.4 })).toBeNull();
  });
});

describe('regulation from a register, in the four codings that supply manuals print', () => {
  const [a, b] = [
    { ccMask: 1, cvMask: 2 },
    { cvMask: 1, ccMask: 2 },
  ];
  const c = { cvMask: 256, ccMask: 1024 };

  it('reads the same number as opposites on two supplies', () => {
    expect(regulationOfRegister(1, a, true)).toBe('cc');
    expect(regulationOfRegister(1, b, true)).toBe('cv');
    expect(regulationOfRegister(2, a, true)).toBe('cv');
    expect(regulationOfRegister(2, b, true)).toBe('cc');
  });

  it('reads 3 as a fault, 0 as off or unregulated, and other bits as nothing', () => {
    expect(regulationOfRegister(3, a, true)).toBe('unregulated');
    expect(regulationOfRegister(0, a, true)).toBe('unregulated');
    expect(regulationOfRegister(0, a, null)).toBe('off');
    expect(regulationOfRegister(2 + 512 + 16, a, true)).toBe('cv');
    expect(regulationOfRegister(1024 + 32, c, true)).toBe('cc');
    expect(regulationOfRegister(256, c, true)).toBe('cv');
  });
});

describe('regulation in a word', () => {
  it('is taken in every spelling seen', () => {
    expect(['CV', 'CC', 'UR', 'OFF', 'UNREG', 'c.v.'].map(regulationOfWord)).toEqual([
      'cv',
      'cc',
      'unregulated',
      'off',
      'unregulated',
      'cv',
    ]);
    expect(regulationOfWord('READY')).toBeNull();
  });
});
