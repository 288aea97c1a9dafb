import { describe, expect, it } from 'vitest';
import { trueOhms } from '../../../core/rails/judge-ohms.ts';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import type { RailReading } from '../../../core/rails/rail-reading.ts';
import { reading, sampleBoard } from './sample-board.ts';

// Orders of magnitude and the rule for cores are common practice, no source.

const blank = {
  ...sampleBoard,
  rails: sampleBoard.rails.map((rail) => ({ ...rail, expectedOhms: null, expectedDiodeV: null })),
};
const judge = (text: string, more: Partial<RailReading> = {}, board = sampleBoard) =>
  judgeReadings(board, [reading(text, more)])[0];

describe('judgeOhms against known-good', () => {
  it.each([
    ['MAIN 9.1kohm', 'as-known-good'],
    ['MAIN 3.9ohm', 'shorted'],
    ['MAIN 4kohm', 'low'],
    ['MAIN 40kohm', 'high'],
    ['MAIN OLohm', 'open'],
    ['CORE 0.47ohm', 'as-known-good'],
    ['CORE 0.05ohm', 'shorted'],
    ['CORE 0.25ohm', 'low'],
  ])('judges %s', (text, verdict) => {
    expect(judge(text)?.verdict).toBe(verdict);
  });

  it('names the known-good figures it went by', () => {
    const judged = judge('CORE 0.47ohm');
    expect(judged?.arithmetic.replaceAll('\u00a0', ' ')).toMatch(/known-good 0\.48 Ω .* of 5/);
    expect(judged?.source).toBe('5 known-good readings of this board model');
  });
});

describe('judgeOhms without known-good', () => {
  it('never judges a core, however few its ohms', () => {
    for (const ohms of [0.02, 0.3, 4, 60]) {
      expect(judge(`CORE ${ohms}ohm`, {}, blank)?.verdict).toBe('cannot-tell');
    }
  });

  it.each([
    ['MAIN 0.4ohm', 'shorted'],
    ['AON_3V3 1.1ohm', 'shorted'],
    ['AON_3V3 45ohm', 'as-known-good'],
    ['AON_3V3 5ohm', 'cannot-tell'],
    ['MEM 0.2ohm', 'shorted'],
    ['MEM 20ohm', 'as-known-good'],
    ['DC_IN 40ohm', 'low'],
    ['DC_IN 15kohm', 'as-known-good'],
  ])('judges %s by orders of magnitude only', (text, verdict) => {
    const judged = judge(text, {}, blank);
    expect(judged?.verdict).toBe(verdict);
    expect(judged?.source).toMatch(/no source/);
  });
});

describe('leads', () => {
  it('takes measured leads off: 2.2 ohm read with 0.2 ohm of leads is 2.0 (the 10 % error of a two-wire reading, seen second-hand)', () => {
    const { low, high } = trueOhms(
      reading('MAIN 2.2ohm', { wires: 2, leadOhm: 0.2, accuracy: { percent: 0, offset: 0 } }),
    );
    expect(low).toBeCloseTo(2, 12);
    expect(high).toBeCloseTo(2, 12);
    expect((2.2 - 2) / 2).toBeCloseTo(0.1, 12);
  });

  it('gives four wires as read, whatever the leads (98.2857 mohm at 1 A, handbook trace)', () => {
    const { low, high } = trueOhms(
      reading('MAIN 0.0982857ohm', { leadOhm: 0.7, accuracy: { percent: 0, offset: 0 } }),
    );
    expect([low, high]).toEqual([0.0982857, 0.0982857]);
  });

  it('allows 0.1 to 0.3 ohm for leads that nobody measured, and says so below 2 ohm', () => {
    const judged = judge('CORE 0.6ohm', { wires: 2 });
    // 0.3 to 0.5 ohm may be the core's known-good 0.48 or well below it.
    expect(judged?.verdict).toBe('cannot-tell');
    expect(judged?.reason).toMatch(/Two wires below 2 Ω/);
    expect(judge('CORE 0.6ohm')?.verdict).toBe('as-known-good');
  });

  it('does not fuss over leads at kilo-ohms', () => {
    expect(judge('MAIN 9.1kohm', { wires: 2 })?.reason).not.toMatch(/Two wires/);
  });

  it('judges nothing on a board that is fed', () => {
    expect(judge('MAIN 9ohm', { powered: true })).toMatchObject({ verdict: 'cannot-tell' });
    expect(judge('MAIN 9ohm', { powered: true })?.reason).toMatch(/discharge/);
  });
});

describe('judgeBetween', () => {
  it('finds a rail joined to its feed and warns of the first power', () => {
    const judged = judge('CORE-MAIN 0.05ohm');
    expect(judged?.verdict).toBe('shorted');
    expect(judged?.reason).toMatch(/Do not power it/);
  });

  it('finds two rails apart that read each other only by way of ground', () => {
    expect(judge('CORE-MAIN 9kohm')?.verdict).toBe('as-known-good');
    expect(judge('CORE-MAIN OLohm')?.verdict).toBe('as-known-good');
  });
});

describe('judgeDiode', () => {
  it('never judges a core by it: half an ohm shows 0.000 V', () => {
    expect(judge('CORE 0.000diode')?.verdict).toBe('cannot-tell');
    expect(judge('CORE 0.000diode', {}, blank)?.verdict).toBe('cannot-tell');
  });

  it.each([
    ['MAIN 0.47diode', 'as-known-good'],
    ['MAIN 0.0diode', 'shorted'],
    ['MAIN 0.3diode', 'low'],
    ['MAIN 0.62diode', 'high'],
    ['MAIN OLdiode', 'open'],
  ])('judges %s against known-good, a tenth of a volt worth a look', (text, verdict) => {
    expect(judge(text)?.verdict).toBe(verdict);
  });

  it('tells only zero and over range without known-good', () => {
    expect(judge('MAIN 0.0diode', {}, blank)?.verdict).toBe('shorted');
    expect(judge('MAIN 0.4diode', {}, blank)?.verdict).toBe('cannot-tell');
    expect(judge('MAIN OLdiode', {}, blank)?.verdict).toBe('open');
  });
});
