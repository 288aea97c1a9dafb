import { describe, expect, it } from 'vitest';
import { readCase, sayCase } from '../../../core/parts/case-code.ts';

describe('readCase (case-size tables, seen second-hand)', () => {
  it.each([
    ['01005', '0402'],
    ['0201', '0603'],
    ['0402', '1005'],
    ['0603', '1608'],
    ['0805', '2012'],
    ['1206', '3216'],
    ['1210', '3225'],
    ['1812', '4532'],
    ['2010', '5025'],
    ['2512', '6432'],
  ])('knows inch %s as metric %s', (inch, metric) => {
    expect(readCase(`${inch}in`).candidates).toMatchObject([{ inch, metric }]);
    expect(readCase(`${metric}M`).candidates).toMatchObject([{ inch, metric }]);
  });

  it.each([
    ['0201', 0.6, 0.3],
    ['0402', 1.0, 0.5],
    ['0603', 1.6, 0.8],
    ['0805', 2.0, 1.25],
    ['1206', 3.2, 1.6],
    ['1210', 3.2, 2.5],
    ['1812', 4.5, 3.2],
    ['2010', 5.0, 2.5],
    ['2512', 6.4, 3.2],
  ])('knows the body of inch %s as %d x %d mm', (inch, lengthMm, widthMm) => {
    expect(readCase(`${inch}in`).candidates).toMatchObject([{ lengthMm, widthMm }]);
  });

  it.each([
    ['0402', [1.0, 0.4]],
    ['0603', [1.6, 0.6]],
  ])('gives both bodies for %s alone: it must be asked', (code, lengths) => {
    const { candidates, said } = readCase(code);
    expect(candidates.map(({ lengthMm }) => lengthMm)).toEqual(lengths);
    expect(said).toBe(false);
  });

  it.each(['1206', '0805', '3216', '2512'])('takes %s alone, which only one system has', (code) => {
    expect(readCase(code).candidates).toHaveLength(1);
  });

  it('knows nothing of codes that no system has', () => {
    expect(readCase('9999').candidates).toEqual([]);
    expect(readCase('10u').candidates).toEqual([]);
  });

  it('says both codes and the body', () => {
    expect(readCase('0603in').candidates.map(sayCase)).toEqual([
      '0603 (1608 metric, 1.6 x 0.8 mm)',
    ]);
  });
});
