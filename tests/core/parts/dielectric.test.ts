import { describe, expect, it } from 'vitest';
import {
  type Dielectric,
  isClassNoWorse,
  readDielectric,
  sayDielectric,
  wrongDielectricCharacter,
} from '../../../core/parts/dielectric.ts';

const read = (code: string): Dielectric => {
  const dielectric = readDielectric(code);
  if (dielectric === null) throw new TypeError(`${code} did not read`);
  return dielectric;
};

describe('readDielectric, class 2 (EIA-198, seen second-hand)', () => {
  it.each([
    ['X7R', -55, 125, -15, 15],
    ['X5R', -55, 85, -15, 15],
    ['Y5V', -30, 85, -82, 22],
    ['Z5U', 10, 85, -56, 22],
  ])('reads %s', (code, lowC, highC, changeLowPercent, changeHighPercent) => {
    expect(read(code)).toMatchObject({ lowC, highC, changeLowPercent, changeHighPercent });
  });

  it.each([
    ['X', -55],
    ['Y', -30],
    ['Z', 10],
  ])('takes first letter %s as %d °C', (letter, lowC) => {
    expect(read(`${letter}5R`)).toMatchObject({ lowC });
  });

  it.each([
    [2, 45],
    [4, 65],
    [5, 85],
    [6, 105],
    [7, 125],
    [8, 150],
  ])('takes digit %d as %d °C', (digit, highC) => {
    expect(read(`X${digit}R`)).toMatchObject({ highC });
  });

  it.each([
    ['A', -1, 1],
    ['B', -1.5, 1.5],
    ['C', -2.2, 2.2],
    ['D', -3.3, 3.3],
    ['E', -4.7, 4.7],
    ['F', -7.5, 7.5],
    ['P', -10, 10],
    ['R', -15, 15],
    ['S', -22, 22],
    ['T', -33, 22],
    ['U', -56, 22],
    ['V', -82, 22],
  ])('takes last letter %s as %d to %d per cent', (letter, low, high) => {
    expect(read(`X7${letter}`)).toMatchObject({ changeLowPercent: low, changeHighPercent: high });
  });
});

describe('readDielectric, class 1 (EIA-198, seen second-hand)', () => {
  it.each([
    ['C0G', 0, 30],
    ['NP0', 0, 30],
    ['U2J', -750, 120],
    ['P2G', -150, 30],
    ['S2H', -330, 60],
  ])('reads %s as %d ±%d ppm/K', (code, slopePpm, slopeTolerancePpm) => {
    expect(read(code)).toMatchObject({ class: 1, slopePpm, slopeTolerancePpm });
  });

  it.each([
    ['C', 0],
    ['B', -0.3],
    ['L', -0.8],
    ['A', -0.9],
    ['M', -1],
    ['P', -1.5],
    ['R', -2.2],
    ['S', -3.3],
    ['T', -4.7],
    ['V', -5.6],
    ['U', -7.5],
  ])('takes first letter %s', (letter, slopePpm) => {
    expect(read(`${letter}0G`)).toMatchObject({ slopePpm });
  });

  it.each([
    [0, -1],
    [1, -10],
    [2, -100],
    [3, -1000],
    [4, 1],
    [6, 10],
    [7, 100],
    [8, 1000],
  ])('takes digit %d as times %d', (digit, slopePpm) => {
    expect(read(`M${digit}G`)).toMatchObject({ slopePpm });
  });

  it.each([
    ['G', 30],
    ['H', 60],
    ['J', 120],
    ['K', 250],
    ['L', 500],
    ['M', 1000],
    ['N', 2500],
  ])('takes last letter %s as ±%d ppm/K', (letter, slopeTolerancePpm) => {
    expect(read(`C0${letter}`)).toMatchObject({ slopeTolerancePpm });
  });
});

describe('words and order of classes', () => {
  it('says what a class means', () => {
    expect(sayDielectric(read('X5R'))).toBe('−55 to 85 °C, ±15 %');
    expect(sayDielectric(read('Y5V'))).toBe('−30 to 85 °C, +22/−82 %');
    expect(sayDielectric(read('U2J'))).toBe('−750 ±120 ppm/K');
  });

  it('names the character of a class that does not exist', () => {
    expect(readDielectric('X9R')).toBeNull();
    expect(wrongDielectricCharacter('X9R')?.at).toBe(1);
    expect(wrongDielectricCharacter('X5G')?.at).toBe(2);
    expect(wrongDielectricCharacter('X5R')).toBeNull();
  });

  it.each([
    ['X7R', 'X5R', true],
    ['X5R', 'X7R', false],
    ['Y5V', 'X5R', false],
    ['X5R', 'Y5V', true],
    ['C0G', 'X7R', true],
    ['X7R', 'C0G', false],
    ['C0H', 'C0G', false],
    ['C0G', 'C0H', true],
  ])('%s in place of %s is no worse: %s', (donor, original, noWorse) => {
    expect(isClassNoWorse(read(donor), read(original))).toBe(noWorse);
  });
});
