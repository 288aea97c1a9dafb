import { expect, it } from 'vitest';
import { shopClock } from '../../../core/record/record-time.ts';
import { soakLines } from '../../../core/record/soak-lines.ts';
import { item } from '../../support/record-job.ts';

const lines = (fields: Parameters<typeof item>[0]) =>
  soakLines([item({ step: 'soaked', at: null, ...fields })], shopClock(0));

it('prints the verdict of a soak with its numbers, passed or failed', () => {
  const reason = 'Soak failed: the output went off; 4 min of 30 min; draw 1.08 A to 1.34 A.';
  expect(lines({ state: 'open', reason })).toEqual([reason]);
  expect(lines({ state: 'done', reason: 'Soak passed: 30 min of 30 min.' })).toEqual([
    'Soak passed: 30 min of 30 min.',
  ]);
});

it('says that it was left out, or that its numbers are missing, and nothing of one not begun', () => {
  expect(lines({ state: 'skipped', reason: 'no time' })).toEqual(['Left out: no time']);
  expect(lines({ state: 'done' })).toEqual(['Done; its numbers were not written down.']);
  expect(lines({ state: 'open' })).toEqual([]);
  expect(soakLines([item({ step: 'other', reason: 'x' })], shopClock(0))).toEqual([]);
});
