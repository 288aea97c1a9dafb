import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import {
  ANY_OTHER_CAUSE,
  checkFinding,
  type Finding,
  likelihoodUnder,
} from '../../../core/finding/finding.ts';

const sound: Finding = {
  key: 'rail:MAIN:low',
  room: 'rails',
  claim: 'MAIN reads 3.1 V where 8.6 V belongs',
  value: 3.1,
  unit: 'V',
  uncertainty: 0.02,
  source: 'nominal of the board model',
  likelihoods: { 'short:MAIN': 0.24, [ANY_OTHER_CAUSE]: 0.02 },
  from: [{ kind: 'reading', id: 'r1' }],
  at: 0,
};

describe('likelihoodUnder', () => {
  it('gives the figure of a listed cause, else the one for any other cause', () => {
    expect(likelihoodUnder(sound, 'short:MAIN')).toBe(0.24);
    expect(likelihoodUnder(sound, 'firmware')).toBe(0.02);
  });

  it('is 1 for every cause of a finding that lists none: silence moves nothing', () => {
    expect(likelihoodUnder({ ...sound, likelihoods: {} }, 'short:MAIN')).toBe(1);
  });
});

describe('checkFinding', () => {
  it('lets a sound finding through unchanged', () => {
    expect(checkFinding(sound)).toBe(sound);
  });

  it.each([
    ['an empty claim', { claim: ' ' }, /claim is empty.*rail:MAIN:low, claim/],
    ['a value that is not finite', { value: Number.NaN }, /NaN is not a number/],
    ['a negative uncertainty', { uncertainty: -1 }, /-1 makes no sense/],
    ['a likelihood of 0, which no later evidence could undo', { likelihoods: { a: 0 } }, /under a/],
    ['a likelihood above 1', { likelihoods: { a: 1.2 } }, /1.2 is not above 0/],
  ])('refuses %s and names the field', (_, change, message) => {
    const check = () => checkFinding({ ...sound, ...change });
    expect(check).toThrow(WakelineError);
    expect(check).toThrow(message);
  });
});
