import { describe, expect, it } from 'vitest';
import { pitchOf } from '../../../core/attention/pitch.ts';

describe('the pitch that follows a reading', () => {
  it('rises with the reading by equal steps for equal ratios', () => {
    const step = (a: number, b: number) => pitchOf('ohms', b)! / pitchOf('ohms', a)!;
    expect(step(1, 2)).toBeCloseTo(step(100, 200), 9);
    expect(pitchOf('draw', 0.1)!).toBeGreaterThan(pitchOf('draw', 0.05)!);
  });

  it('keeps to four octaves from 110 Hz, whatever is read', () => {
    expect(pitchOf('ohms', 0)).toBeCloseTo(110, 9);
    expect(pitchOf('ohms', 1e9)).toBeCloseTo(1760, 9);
    expect(pitchOf('millivolts', -0.01)).toBeCloseTo(pitchOf('millivolts', 0.01)!, 9);
  });

  it('is silent without a reading', () => {
    expect(pitchOf('ohms', null)).toBeNull();
    expect(pitchOf('draw', Number.NaN)).toBeNull();
  });
});
