import { describe, expect, it } from 'vitest';
import type { Rail } from '../../../core/rails/board-model.ts';
import { judgeReadings } from '../../../core/rails/judge-readings.ts';
import { judgeEnable, judgeVolts } from '../../../core/rails/judge-volts.ts';
import { reading, sampleBoard } from './sample-board.ts';

const EXACT = { percent: 0, offset: 0 };
const rail = (nominalV: number, tolerance: number, more: Partial<Rail> = {}): Rail => ({
  name: 'R',
  nominalV,
  tolerance,
  points: [],
  fedBy: [],
  through: 'converter',
  enabledBy: [],
  states: [],
  expectedOhms: null,
  expectedDiodeV: null,
  isCore: false,
  ...more,
});
const verdictOf = (
  nominalV: number,
  tolerance: number,
  volts: number,
  accuracy: { percent: number; offset: number } | null = EXACT,
) =>
  judgeVolts(reading(`R ${volts}V`, { accuracy }), rail(nominalV, tolerance), {
    nominalV: [nominalV],
    tolerance,
    source: 'test',
  });

describe('judgeVolts', () => {
  it.each([
    [5, 5.25, 'present'],
    [5, 5.2501, 'high'],
    [5, 4.75, 'present'],
    [3.3, 3.14, 'present'],
    [3.3, 3.1349, 'low'],
  ])('judges %d V ± 5 %% at %d V with limits included: %s (rule)', (nominal, volts, verdict) => {
    expect(verdictOf(nominal, 0.05, volts).verdict).toBe(verdict);
  });

  // ATX12V Power Supply Design Guide 2.0, section 3.2.1, table 2 (3.3 V as printed is rounded).
  it.each([
    [12, 0.05, 11.4, 12.6],
    [5, 0.05, 4.75, 5.25],
    [3.3, 0.05, 3.135, 3.465],
    [-12, 0.1, -10.8, -13.2],
    [5, 0.05, 4.75, 5.25],
  ])(
    'takes the edges of the ATX table on %d V and nothing beyond them',
    (nominal, tol, near, far) => {
      expect(verdictOf(nominal, tol, near).verdict).toBe('present');
      expect(verdictOf(nominal, tol, far).verdict).toBe('present');
      expect(verdictOf(nominal, tol, near * 0.999).verdict).toBe('low');
      expect(verdictOf(nominal, tol, far * 1.001).verdict).toBe('high');
    },
  );

  it.each([
    ['low-power hub port, 4.45 V', 4.45, 'low'],
    ['supply side, 4.75 V', 4.75, 'present'],
  ])(
    'judges USB volts by the limits it is given: %s (USB 2.0 and 3.0, seen second-hand)',
    (_, volts, verdict) => {
      expect(verdictOf(5, 0.05, volts).verdict).toBe(verdict);
    },
  );

  it("says that it cannot be told when the meter's accuracy spans a limit", () => {
    const coarse = { percent: 0.5, offset: 0.01 };
    expect(verdictOf(3.3, 0.05, 3.15, coarse).verdict).toBe('cannot-tell');
    expect(verdictOf(3.3, 0.05, 3.17, coarse).verdict).toBe('present');
    expect(verdictOf(3.3, 0.05, 3.1, coarse).verdict).toBe('low');
  });

  it('assumes an accuracy and says so when nobody told the meter', () => {
    const judged = verdictOf(5, 0.05, 5, null);
    expect(judged.verdict).toBe('present');
    expect(judged.reason).toMatch(/accuracy is not known; 0\.5 % was taken/);
  });

  it('shows its arithmetic', () => {
    const { arithmetic } = verdictOf(3.3, 0.05, 3.1, { percent: 1, offset: 0.002 });
    expect(arithmetic.replaceAll('\u00a0', ' ')).toBe(
      '3.1 V ± 0.033 V against 3.3 V ± 5 % (3.135 V to 3.465 V)',
    );
  });

  it('calls a rail below a tenth of nominal missing, and one of the wrong sign too', () => {
    expect(verdictOf(12.6, 0.05, 1.2).verdict).toBe('missing');
    expect(verdictOf(12.6, 0.05, 3.1).verdict).toBe('low');
    expect(verdictOf(-12, 0.05, 5).verdict).toBe('missing');
  });

  it('finds volts on a rail that belongs off in this state, or with the board not fed, back-fed', () => {
    const [asleep] = judgeReadings(sampleBoard, [reading('CORE 0.85V', { state: 'sleep' })]);
    expect(asleep?.verdict).toBe('back-fed');
    const [unfed] = judgeReadings(sampleBoard, [
      reading('AON_5V 2.1V', { powered: false, state: null }),
    ]);
    expect(unfed?.verdict).toBe('back-fed');
    expect(unfed?.reason).toMatch(/still charged/);
  });

  it('finds nothing odd in a rail that is off where it belongs off', () => {
    const [judged] = judgeReadings(sampleBoard, [reading('CORE 0.002V', { state: 'sleep' })]);
    expect(judged).toMatchObject({ verdict: 'missing', isOdd: false });
  });

  it('judges an input by the volts of what feeds it', () => {
    const [good, bad] = judgeReadings(sampleBoard, [
      reading('CORE.in 12.6V'),
      reading('CORE.in 0.85V'),
    ]);
    expect(good?.verdict).toBe('present');
    expect(bad?.verdict).toBe('missing');
  });
});

describe('judgeEnable', () => {
  it('goes by the stated volts, else by logic levels with a gap that tells nothing', () => {
    const r = rail(1.2, 0.05);
    expect(judgeEnable(reading('R.en 3.3V'), r, 3.3).verdict).toBe('present');
    expect(judgeEnable(reading('R.en 1.2V'), r, 3.3).verdict).toBe('low');
    expect(judgeEnable(reading('R.en 1.8V'), r, null).verdict).toBe('present');
    expect(judgeEnable(reading('R.en 0.1V'), r, null).verdict).toBe('missing');
    expect(judgeEnable(reading('R.en 0.7V'), r, null).verdict).toBe('cannot-tell');
  });
});

describe('judgeReadings', () => {
  it('finds volts on a rail none of whose feeds has any back-fed', () => {
    const judged = judgeReadings(sampleBoard, [reading('MAIN 0V'), reading('AON_3V3 3.3V')]);
    expect(judged.map(({ verdict }) => verdict)).toEqual(['missing', 'back-fed']);
    expect(judged[1]?.reason).toMatch(/MAIN/);
  });

  it('leaves it alone while a second feed may carry it', () => {
    const two = {
      ...sampleBoard,
      rails: sampleBoard.rails.map((each) =>
        each.name === 'AON_3V3' ? { ...each, fedBy: ['MAIN', 'DC_IN'] } : each,
      ),
    };
    const judged = judgeReadings(two, [reading('MAIN 0V'), reading('AON_3V3 3.3V')]);
    expect(judged[1]?.verdict).toBe('present');
  });

  it('refuses a rail that the board does not have, and passes over a reading without value', () => {
    expect(() => judgeReadings(sampleBoard, [reading('NOWHERE 5V')])).toThrow(/no rail NOWHERE/);
    const [empty] = judgeReadings(sampleBoard, [reading('MAIN 0V', { value: null })]);
    expect(empty?.verdict).toBe('not-measured');
  });
});
