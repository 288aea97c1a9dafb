import { describe, expect, it } from 'vitest';
import { readRailTable } from '../../../core/rails/rail-table.ts';
import { tableDelimiter } from '../../../core/rails/table-delimiter.ts';
import { troubleOf } from '../../support/trouble-of.ts';

describe('tableDelimiter', () => {
  it.each([
    ['a tab, whatever else there is', 'IN\t19,5\t5 %;x', '\t'],
    ['a comma', 'IN,12,5%', ','],
    ['a semicolon beside decimal commas', 'IN;12,6;5%', ';'],
    ['a semicolon with as many decimal commas', 'IN;12,6;2,5%', ';'],
    ['a comma beside points in quotes', 'IN,12,5%,"C1; in F2; en U3"', ','],
    ['a comma for one cell', 'IN', ','],
    ['what the first row says, not the notes before it', '# a; b; c\nIN,12', ','],
  ])('takes %s', (_, text, delimiter) => {
    expect(tableDelimiter(text)).toBe(delimiter);
  });
});

describe('headings of spreadsheets', () => {
  it('passes over columns that no rail needs', () => {
    const { board } = readRailTable('No\tRail\tVoltage [V]\tFed by\tRemarks\n1\tIN\t12\t\tin', 'b');
    expect(board.rails[0]).toMatchObject({ name: 'IN', nominalV: 12 });
  });

  it('refuses a heading that gives its numbers another unit', () => {
    const trouble = troubleOf(() => readRailTable('rail,volts,ohms (kΩ)\nIN,12,8\n', 'b'));
    expect(trouble).toMatchObject({ where: 'row 1, the heading' });
    expect(trouble?.what).toContain('another unit');
  });
});
