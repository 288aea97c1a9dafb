import { describe, expect, it } from 'vitest';
import { placesFor } from '../../../core/probing/place-names.ts';

const KNOWN = ['Main rail', '+3V3', 'MAIN 5V', 'Core', 'C12', ' Core ', ''];

describe('naming a reading by first letters', () => {
  it('finds the names that begin so, whatever the case and the signs', () => {
    expect(placesFor('mai', KNOWN)).toEqual(['Main rail', 'MAIN 5V']);
    expect(placesFor('3v', KNOWN)).toEqual(['+3V3']);
    expect(placesFor('c', KNOWN)).toEqual(['Core', 'C12']);
  });

  it('puts names with such a word inside after them', () => {
    expect(placesFor('5', KNOWN)).toEqual(['MAIN 5V']);
    expect(placesFor('r', KNOWN)).toEqual(['Main rail']);
  });

  it('offers every name once while nothing was typed, and none that does not fit', () => {
    expect(placesFor(' ', KNOWN)).toEqual(['Main rail', '+3V3', 'MAIN 5V', 'Core', 'C12']);
    expect(placesFor('xyz', KNOWN)).toEqual([]);
  });
});
