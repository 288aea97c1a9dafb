import { describe, expect, it } from 'vitest';
import { checklistPhases } from '../../../core/record/checklist-phases.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import { inventedWhole } from '../../support/record-job.ts';

const phases = checklistPhases(inventedWhole.items, shopClock(60));
const rows = phases.flatMap((phase) => phase.rows);

describe('checklistPhases', () => {
  it('keeps the order of the template, phase by phase', () => {
    expect(phases.map((phase) => phase.phase)).toEqual([
      'Before power',
      'First power',
      'Finding the short',
      'Proving',
    ]);
  });

  it('keeps the reason of a skipped step and the caution that was shown', () => {
    expect(rows.find((row) => row.state === 'skipped')?.reason).toBe('camera away for repair');
    expect(rows[0]?.caution).toMatch(/^Lithium cells: unplug/);
  });

  it('writes the readings of a step, and leaves an open step without a time', () => {
    expect(rows[2]?.readings).toEqual(['main rail: 1.31\u00a0Ω']);
    expect(rows.at(-1)).toMatchObject({ state: 'open', at: '' });
  });
});
