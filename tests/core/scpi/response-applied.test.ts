import { describe, expect, it } from 'vitest';
import { appliedReply } from '../../../core/scpi/response-applied.ts';

describe('set-points in one answer', () => {
  it('are read plain, quoted, with units and with the range of the channel before them', () => {
    const plain = { setV: 3.3, limitA: 0.1, maxV: null, maxA: null };
    for (const text of ['3.3000, 0.1000', '"3.300,0.100"', '3.3V,0.1A', '3.3,100mA']) {
      expect(appliedReply.decode(text), text).toEqual(plain);
    }
    expect(appliedReply.decode('CH1:40.00V/5.000A, 3.30, 0.1000')).toEqual({
      setV: 3.3,
      limitA: 0.1,
      maxV: 40,
      maxA: 5,
    });
  });

  it('are none with a number too few or too many, or in the wrong order', () => {
    for (const text of ['3.3', '1,2,3', '0.1A,3.3V', 'CC,1', 'CH1:40.00V/5.000A, 3.30', '']) {
      expect(appliedReply.decode(text), text).toBeUndefined();
    }
  });
});
