import { describe, expect, it } from 'vitest';
import { entropyBits, informationGainBits } from '../../../core/finding/information.ts';

const WEATHER = 'fourteen days of the decision-tree textbooks, seen second-hand';

describe(`entropyBits (${WEATHER})`, () => {
  it('gives 0.940 bits for 9 yes and 5 no', () => {
    expect(entropyBits([9, 5])).toBeCloseTo(0.9402859586706311, 12);
  });

  it.each([
    [3, 4, 0.985228136034],
    [6, 1, 0.591672778582],
    [2, 3, 0.970950594455],
    [6, 2, 0.811278124459],
  ])('gives the part entropies: %d and %d', (yes, no, bits) => {
    expect(entropyBits([yes, no])).toBeCloseTo(bits, 10);
  });

  it('gives 1.75 bits for 1/2, 1/4, 1/8, 1/8 (textbook code lengths)', () => {
    expect(entropyBits([1 / 2, 1 / 4, 1 / 8, 1 / 8])).toBe(1.75);
  });

  it('gives 0 for certainty and for nothing at all, never NaN', () => {
    expect(entropyBits([5, 0])).toBe(0);
    expect(entropyBits([])).toBe(0);
    expect(entropyBits([0, 0])).toBe(0);
  });
});

describe(`informationGainBits (${WEATHER})`, () => {
  const gains = {
    outlook: informationGainBits([
      [2, 3],
      [4, 0],
      [3, 2],
    ]),
    humidity: informationGainBits([
      [3, 4],
      [6, 1],
    ]),
    wind: informationGainBits([
      [6, 2],
      [3, 3],
    ]),
    temperature: informationGainBits([
      [2, 2],
      [4, 2],
      [3, 1],
    ]),
  };

  it.each([
    ['outlook', 0.246749819774],
    ['humidity', 0.151835501362],
    ['wind', 0.048127030408],
    ['temperature', 0.029222565659],
  ] as const)('gives the published gain of %s', (test, bits) => {
    expect(gains[test]).toBeCloseTo(bits, 10);
  });

  it('puts outlook first', () => {
    const [best] = Object.entries(gains).sort(([, a], [, b]) => b - a)[0] ?? [];
    expect(best).toBe('outlook');
  });

  it('chooses patrons over type in the restaurant example (lecture slide, seen second-hand)', () => {
    const patrons = informationGainBits([
      [0, 2],
      [4, 0],
      [2, 4],
    ]);
    const type = informationGainBits([
      [1, 1],
      [1, 1],
      [2, 2],
      [2, 2],
    ]);
    expect(patrons).toBeCloseTo(0.540852082973, 10);
    expect(type).toBeCloseTo(0, 12);
  });

  it.each([
    [1, 0.8167],
    [2, 1.2516],
    [3, 1.5],
    [4, 1.585],
    [5, 1.4834],
    [6, 1],
  ])('weighing %d of 12 balls against as many (MacKay, exercise 4.1)', (k, bits) => {
    // One of 12 balls is odd, heavy or light: 24 states; the pans tell left, right or level.
    const states = Array.from({ length: 24 }, (_, state) => state);
    const pan = (state: number) => {
      const ball = state >> 1;
      const side = ball < k ? 1 : ball < 2 * k ? -1 : 0;
      return side * (state % 2 === 0 ? 1 : -1);
    };
    const rows = [-1, 0, 1].map((tilt) => states.map((state) => (pan(state) === tilt ? 1 : 0)));
    expect(informationGainBits(rows)).toBeCloseTo(bits, 4);
  });

  it('needs three weighings for 24 states (same source)', () => {
    const bits = entropyBits(Array.from({ length: 24 }, () => 1));
    expect(bits).toBeCloseTo(4.584962500721, 12);
    expect(Math.ceil(bits / Math.log2(3))).toBe(3);
  });

  it.each([
    [3, 1.561278],
    [4, 1],
    [2, 1.5],
  ])('weighing %d sacks of 8 against as many (published puzzle, seen second-hand)', (k, bits) => {
    const rows = [
      Array.from({ length: 8 }, (_, sack) => (sack < k ? 1 : 0)),
      Array.from({ length: 8 }, (_, sack) => (sack >= k && sack < 2 * k ? 1 : 0)),
      Array.from({ length: 8 }, (_, sack) => (sack >= 2 * k ? 1 : 0)),
    ];
    expect(informationGainBits(rows)).toBeCloseTo(bits, 6);
  });

  it.each([
    [1, 0.33729],
    [2, 0.543564],
    [4, 0.811278],
    [8, 1],
  ])('splitting 16 equal faults into %d and the rest, best in halves (definition)', (k, bits) => {
    const left = Array.from({ length: 16 }, (_, fault) => (fault < k ? 1 : 0));
    expect(informationGainBits([left, left.map((each) => 1 - each)])).toBeCloseTo(bits, 6);
  });
});
