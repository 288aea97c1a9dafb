import { describe, expect, it } from 'vitest';
import { readEia96 } from '../../../core/parts/eia-96.ts';
import { PREFERRED_SERIES } from '../../../core/parts/preferred-series.ts';

const ohms = (text: string) => {
  const read = readEia96(text);
  return read.ok ? read.ohms : null;
};

describe('readEia96 (EIA-96, seen second-hand)', () => {
  it.each([
    ['01A', 100],
    ['39D', 249_000],
    ['68X', 49.9],
    ['01C', 10_000],
    ['01Y', 1],
    ['12C', 13_000],
    ['66X', 47.5],
    ['30C', 20_000],
    ['96F', 97.6e6],
  ])('reads %s as %d ohm', (text, value) => {
    expect(ohms(text)).toBe(value);
  });

  it.each([
    ['12', 130],
    ['24', 174],
    ['48', 309],
    ['49', 316],
    ['96', 976],
  ])('has place %s at %d (one public table is off by one at 24 and 48)', (place, value) => {
    expect(ohms(`${place}A`)).toBe(value);
  });

  it.each([
    ['Z', 0.1],
    ['Y', 1],
    ['R', 1],
    ['X', 10],
    ['S', 10],
    ['A', 100],
    ['B', 1000],
    ['H', 1000],
    ['C', 1e4],
    ['D', 1e5],
    ['E', 1e6],
    ['F', 1e7],
  ])('takes letter %s', (letter, value) => {
    expect(ohms(`01${letter}`)).toBe(value);
  });

  it('has the 96 places of E96 in order (IEC 60063, seen second-hand)', () => {
    const places = PREFERRED_SERIES.E96.map((_, i) => String(i + 1).padStart(2, '0'));
    expect(places.map((place) => ohms(`${place}A`))).toEqual(PREFERRED_SERIES.E96);
  });

  it.each(['00A', '97A'])('refuses %s: there is no such place', (text) => {
    expect(readEia96(text)).toMatchObject({ ok: false, at: 0 });
  });

  it('points at the character that is wrong', () => {
    expect(readEia96('01G')).toMatchObject({ ok: false, at: 2 });
    expect(readEia96('0A1')).toMatchObject({ ok: false, at: 1 });
  });
});
