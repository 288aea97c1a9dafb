import { describe, expect, it } from 'vitest';
import { parsePart } from '../../../core/parts/parse-part.ts';
import { percentTolerance } from '../../../core/parts/tolerance-letters.ts';

const specOf = (text: string) => parsePart(text).spec;

describe('parsePart: what the trade types', () => {
  it('reads value, rating, tolerance, class and case', () => {
    const part = parsePart('10u 25V 20% X5R 1206');
    expect(part).toMatchObject({ faults: [], questions: [] });
    expect(part.spec).toMatchObject({
      kind: 'capacitor',
      value: 10e-6,
      ratedV: 25,
      tolerance: percentTolerance(20),
      technology: 'ceramic',
      dielectric: 'X5R',
      chipCase: { inch: '1206', metric: '3216' },
    });
  });

  it('reads a polymer with its ESR', () => {
    expect(parsePart('62u 23m ESR polymer')).toMatchObject({
      spec: { kind: 'capacitor', value: 62e-6, esrOhm: 0.023, technology: 'polymer' },
      faults: [],
      questions: [],
    });
  });

  it.each([
    ['EIA-96 01C', 10_000],
    ['01C', 10_000],
    ['EIA96 68X', 49.9],
  ])('reads %s as a 1 %% resistor of %d ohm (EIA-96, seen second-hand)', (text, value) => {
    const part = parsePart(text);
    expect(part.spec).toMatchObject({ kind: 'resistor', value, tolerance: percentTolerance(1) });
    expect(part.questions).toEqual([]);
  });

  it.each([
    ['R47', 0.47],
    ['4R7', 4.7],
    ['470R', 470],
    ['4K7', 4700],
    ['47K', 47_000],
    ['47K3', 47_300],
    ['470K', 470_000],
    ['4M7', 4.7e6],
    ['2491', 2490],
    ['12R0', 12],
  ])('reads %s as %d ohm without asking (IEC 60062, seen second-hand)', (text, value) => {
    expect(parsePart(text)).toMatchObject({
      spec: { kind: 'resistor', value },
      faults: [],
    });
    expect(parsePart(text).questions.filter(({ about }) => about !== 'combination')).toEqual([]);
  });

  it.each([
    ['104K', 100e-9, percentTolerance(10)],
    ['103J', 10e-9, percentTolerance(5)],
  ])(
    'reads %s as digits and a letter on a capacitor (EIA-198, seen second-hand)',
    (text, value, tolerance) => {
      const part = parsePart(text);
      expect(part.spec).toMatchObject({ kind: 'capacitor', value, tolerance });
      expect(part.questions).toEqual([]);
    },
  );

  it('reads 224 Z5U with its class (EIA-198, seen second-hand)', () => {
    expect(specOf('224 Z5U')).toMatchObject({
      kind: 'capacitor',
      value: 220e-9,
      dielectric: 'Z5U',
    });
  });

  it('takes the kind from a designator, and a value word beside it as the value', () => {
    expect(specOf('C5 104')).toMatchObject({ designator: 'C5', kind: 'capacitor', value: 100e-9 });
    expect(specOf('R47 4K7')).toMatchObject({ designator: 'R47', kind: 'resistor', value: 4700 });
    expect(specOf('L3 2R2')).toMatchObject({ kind: 'inductor', value: 2.2e-6 });
  });

  it('takes the kind from the form, so that nothing is asked', () => {
    expect(parsePart('226', 'capacitor')).toMatchObject({
      spec: { value: 22e-6 },
      questions: [],
    });
    expect(parsePart('226', 'resistor').spec.value).toBe(22e6);
  });

  it.each([
    ['10 uF 25 V', 10e-6, 25],
    ['10uF/25V', 10e-6, 25],
    ['10u,25V', 10e-6, 25],
    ['4,7u 16V', 4.7e-6, 16],
    ['100N 50V', 100e-9, 50],
    ['330u 6V3', 330e-6, 6.3],
    ['22MFD 16V', 22e-6, 16],
  ])('reads %s however it is spaced or spelled', (text, value, ratedV) => {
    expect(parsePart(text)).toMatchObject({
      spec: { kind: 'capacitor', value, ratedV },
      faults: [],
    });
  });

  it('reads fuses, zeners, beads, crystals and chips', () => {
    expect(specOf('3A fuse')).toMatchObject({ kind: 'fuse', value: 3, ratedA: null });
    expect(specOf('5V1 zener')).toMatchObject({ kind: 'zener', value: 5.1 });
    expect(specOf('FB2 600R @ 100MHz 0603in')).toMatchObject({ kind: 'bead', value: 600 });
    expect(specOf('Y1 32.768kHz 12p')).toMatchObject({ kind: 'crystal', value: 32_768 });
    expect(specOf('U7 ABC1234')).toMatchObject({ kind: 'chip', marking: 'ABC1234' });
  });
});

describe('parsePart: what must be asked', () => {
  it.each(['0603', '0402'])('asks whether %s is inch or metric, and keeps no case', (code) => {
    const part = parsePart(`100n ${code}`);
    expect(part.spec.chipCase).toBeNull();
    expect(part.questions).toMatchObject([{ about: 'case', at: 5, end: 9 }]);
    const answers = part.questions[0]?.choices.map(({ retype }) => retype);
    expect(answers).toEqual([`${code}in`, `${code}M`]);
  });

  it('asks it of 0603 alone too', () => {
    expect(parsePart('0603').questions).toMatchObject([{ about: 'case', at: 0 }]);
  });

  it('asks whether 226 alone is a capacitor or a resistor, the usual one first', () => {
    const part = parsePart('226');
    expect(part.spec).toMatchObject({ kind: 'capacitor', value: 22e-6 });
    expect(part.questions[0]?.choices.map(({ retype }) => retype)).toEqual(['22uF', '22Mohm']);
  });

  it('asks whether 220 on a resistor is the mark or the value', () => {
    const part = parsePart('R12 220');
    expect(part.spec.value).toBe(22);
    expect(part.questions[0]?.choices.map(({ retype }) => retype)).toEqual(['22ohm', '220ohm']);
  });

  it('asks nothing more once an answer is typed in the place of what was asked', () => {
    for (const text of ['226', '0603', '47', '100', 'R12 220', '1210', '10A', '22MF']) {
      for (const { at, end, choices } of parsePart(text).questions) {
        for (const { retype } of choices) {
          const answered = parsePart(text.slice(0, at) + retype + text.slice(end));
          expect(answered.faults, retype).toEqual([]);
          expect(
            answered.questions.map(({ about }) => about),
            retype,
          ).not.toContain('kind');
          expect(
            answered.questions.map(({ about }) => about),
            retype,
          ).not.toContain('case');
        }
      }
    }
  });

  it.each([
    ['10u X5R 23m ESR', 8, /polymer's ESR/],
    ['62u polymer X5R', 12, /ceramic class and this is polymer/],
    ['10u C0G', 0, /hardly made above 1 µF/],
    ['4.8k 1%', 0, /no preferred series.*4\.75.*4\.87/],
    ['10u 16V X5R 0201in', 12, /hardly fits/],
    ['100n Y5V 5%', 9, /meaningless/],
  ])('questions %s, which hardly exists, at character %d', (text, at, ask) => {
    const found = parsePart(text).questions.filter(({ about }) => about === 'combination');
    expect(found).toHaveLength(1);
    expect(found[0]?.at).toBe(at);
    expect(found[0]?.ask).toMatch(ask);
  });

  it.each([
    '10u 25V 20% X5R 1206',
    '22u 6.3V X5R 0603in',
    '2491',
    '4k99 1%',
    'R005',
    '5p C0G',
    '150u 2V 9m ESR polymer',
    '100n X7R 50V 0402in',
  ])('has nothing to question about %s', (text) => {
    expect(parsePart(text).questions).toEqual([]);
  });
});

describe('parsePart: what cannot be taken', () => {
  it.each([
    ['', 0, /Nothing is typed/],
    ['10q', 2, /"q" after 10/],
    ['10u Hello', 4, /"Hello" is not understood/],
    ['1O4', 1, /letter O/],
    ['EIA-96 97A', 7, /no place 97/],
    ['EIA-96 01G', 9, /G is no EIA-96 multiplier/],
    ['EIA-96', 6, /mark is missing/],
    ['10u X9R', 5, /9 is no upper temperature/],
    ['10u X5G', 6, /G is no change/],
    ['10u 22u', 4, /second value/],
    ['10u 25V 16V', 8, /second voltage rating/],
    ['10xF', 2, /"x" before F/],
    ['R5 10uF', 3, /belongs to a capacitor, and this is a resistor/],
    ['polymer ESR', 8, /no ohms beside ESR/],
    ['5', 1, /has no unit/],
  ])('points into "%s" at character %d', (text, at, what) => {
    const { faults } = parsePart(text);
    expect(faults).toHaveLength(1);
    expect(faults[0]?.at).toBe(at);
    expect(faults[0]?.what).toMatch(what);
    expect(faults[0]?.todo).not.toBe('');
  });

  it('keeps what it did understand beside a fault', () => {
    expect(parsePart('10u 25V Hello').spec).toMatchObject({ value: 10e-6, ratedV: 25 });
  });
});
