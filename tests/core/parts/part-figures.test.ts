import { describe, expect, it } from 'vitest';
import { parsePart } from '../../../core/parts/parse-part.ts';
import { partFigures, withFigure } from '../../../core/parts/part-figures.ts';

const said = (line: string) =>
  partFigures(parsePart(line).spec).map(({ id, said: words }) => [
    id,
    words?.replaceAll('\u00a0', ' ') ?? null,
  ]);

describe('partFigures', () => {
  it('says each figure of a line, and leaves open what it does not tell', () => {
    expect(said('10u 25V X5R')).toEqual([
      ['value', '10 µF'],
      ['tolerance', null],
      ['rating', '25 V'],
      ['class', 'X5R'],
      ['esr', null],
      ['case', null],
    ]);
    expect(said('4k7 1% 1206')).toEqual([
      ['value', '4.7 kΩ'],
      ['tolerance', '±1 %'],
      ['rating', null],
      ['case', '1206 (3216 metric, 3.2 x 1.6 mm)'],
    ]);
  });
});

describe('withFigure', () => {
  it('puts a figure behind the line so that it reads back as that figure', () => {
    let line = '22u';
    line = withFigure(line, 'tolerance', '20');
    line = withFigure(line, 'rating', ' 6.3 ');
    line = withFigure(line, 'class', 'X5R');
    line = withFigure(line, 'esr', '3m');
    line = withFigure(line, 'case', '0805');
    expect(line).toBe('22u 20% 6.3V X5R ESR 3m 0805');
    expect(parsePart(line)).toMatchObject({
      faults: [],
      spec: { value: 22e-6, ratedV: 6.3, dielectric: 'X5R', esrOhm: 0.003 },
    });
    expect(withFigure(line, 'case', '  ')).toBe(line);
    expect(parsePart(withFigure('330u', 'esr', '0.009')).spec.esrOhm).toBe(0.009);
  });
});
