import { describe, expect, it } from 'vitest';
import { informationGainBits } from '../../../core/finding/information.ts';
import { gainsBits } from '../../../core/rails/gains.ts';
import { CONDITION, CONDITIONS, OUTCOME_ODDS, VERDICTS } from '../../../core/rails/outcome-odds.ts';
import { seeded } from './random-board.ts';

/** Joint weights of verdict and cause, row by row, for the plain definition. */
function jointOf(
  rows: readonly Uint8Array[],
  causes: readonly number[],
  weights: readonly number[],
  column: number,
): number[][] {
  const count = Math.max(...causes) + 1;
  const joint = Array.from({ length: VERDICTS }, () => new Array<number>(count).fill(0));
  for (const [index, row] of rows.entries()) {
    for (let verdict = 0; verdict < VERDICTS; verdict++) {
      const odds = OUTCOME_ODDS[(row[column] ?? 0) * VERDICTS + verdict] ?? 0;
      const cell = joint[verdict];
      const cause = causes[index] ?? 0;
      if (cell !== undefined) cell[cause] = (cell[cause] ?? 0) + (weights[index] ?? 0) * odds;
    }
  }
  return joint;
}

describe('gainsBits', () => {
  it('equals the plain definition of information gain on random explanations', () => {
    const random = seeded(3);
    for (let round = 0; round < 40; round++) {
      const causes = [0, 1, 1, 2, 3, 3, 4];
      const weights = causes.map(() => random());
      const rows = causes.map(() =>
        Uint8Array.from({ length: 5 }, () => Math.floor(random() * CONDITIONS.length)),
      );
      const gains = gainsBits(rows, causes, weights, 5, [0, 1, 2, 3, 4]);
      for (let column = 0; column < 5; column++) {
        const exact = informationGainBits(jointOf(rows, causes, weights, column));
        // Shares of a cause's variants are rounded to a 32nd.
        expect(Math.abs((gains[column] ?? 0) - exact)).toBeLessThan(0.02);
      }
    }
  });

  it('gives nothing for telling two ways of showing of one cause apart', () => {
    const rows = [Uint8Array.of(CONDITION.up), Uint8Array.of(CONDITION.down)];
    expect(gainsBits(rows, [0, 0], [1, 1], 1, [0])[0]).toBeCloseTo(0, 9);
    expect(gainsBits(rows, [0, 1], [1, 1], 1, [0])[0]).toBeGreaterThan(0.9);
  });
});

describe('OUTCOME_ODDS', () => {
  it('sums to 1 in every condition', () => {
    for (const [condition] of CONDITIONS.entries()) {
      let sum = 0;
      for (let verdict = 0; verdict < VERDICTS; verdict++) {
        sum += OUTCOME_ODDS[condition * VERDICTS + verdict] ?? 0;
      }
      expect(sum, CONDITIONS[condition]).toBeCloseTo(1, 9);
    }
  });
});
