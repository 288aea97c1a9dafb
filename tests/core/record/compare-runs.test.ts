import { describe, expect, it } from 'vitest';
import { compareRuns } from '../../../core/record/compare-runs.ts';
import { runAfter, runBefore } from '../../support/record-job.ts';

describe('compareRuns', () => {
  it('sets the first run before repair beside the last after it', () => {
    const runs = [runBefore(), runAfter(), runAfter({ end: 'guard' })];
    const comparison = compareRuns(runs);
    expect(comparison?.beforeTitle).toBe('Run 1 of 3, before repair');
    expect(comparison?.afterTitle).toBe('Run 3 of 3, after repair');
    expect(comparison?.rows.at(-1)).toEqual({
      label: 'Ended',
      before: 'output switched off',
      after: 'guard switched the output off',
    });
  });

  it('compares nothing when one of the two is missing', () => {
    expect(compareRuns([runBefore()])).toBeNull();
    expect(compareRuns([runAfter({ role: null })])).toBeNull();
    expect(compareRuns([])).toBeNull();
  });
});
