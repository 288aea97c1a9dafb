import { describe, expect, it } from 'vitest';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { readRailVolts, voltsInName } from '../../../core/rails/read-rail-volts.ts';
import { troubleOf } from '../../support/trouble-of.ts';

describe('readRailVolts', () => {
  it.each([
    ['5', '5', ''],
    ['3V3', '3V3', ''],
    ['1.05 V ±5%', '1.05 V', '5%'],
    ['5.0V +/- 0.1 V', '5.0V', '0.1 V'],
    ['\u221215V', '\u221215V', ''],
  ])('takes "%s" apart', (text, nominal, tolerance) => {
    expect(readRailVolts(text)).toEqual({ nominal, tolerance, range: null });
  });

  it.each(['4.75 to 5.25', '4.75...5.25 V', '4.75\u20135.25V', '4,75-5,25'])(
    'takes "%s" for a range about its middle',
    (text) => {
      const [rail] = readRailTable(`IN\t12\nP5\t${text}\t\tIN`, 'b').board.rails.slice(1);
      expect(rail?.nominalV).toBeCloseTo(5, 12);
      expect(rail?.tolerance).toBeCloseTo(0.05, 12);
    },
  );

  it('refuses a range that goes down, and a tolerance that is there twice, at its row', () => {
    expect(troubleOf(() => readRailTable('IN\t5 to 4', 'b'))).toMatchObject({
      where: 'row 1, column volts',
    });
    expect(troubleOf(() => readRailTable('IN\t12 V ±5%\t3%', 'b'))).toMatchObject({
      where: 'row 1, column tolerance',
    });
  });
});

describe('voltsInName', () => {
  it.each([
    ['3V3_AON', 3.3],
    ['12V-ALW', 12],
    ['VDD_1V05', 1.05],
    ['N15V', -15],
    ['MAIN', null],
    ['5V_TO_3V3', null],
    ['REV2', null],
  ])('reads %s as %s', (name, volts) => {
    expect(voltsInName(name)).toBe(volts);
  });

  it('fills in volts that were left empty, and says so', () => {
    const { board, warnings } = readRailTable('IN,12\n3V3_AON,,,IN\n', 'b');
    expect(board.rails[1]?.nominalV).toBe(3.3);
    expect(warnings).toContainEqual({
      row: 2,
      text: 'Volts of 3V3_AON taken from its name: 3.3 V.',
    });
  });
});
