import { describe, expect, it } from 'vitest';
import type { Mark, StageReport } from '../../../core/stages/stage.ts';
import { alignShift } from '../../../renderer/under/align.ts';

const report = (marks: readonly Mark[]) => ({ marks }) as unknown as StageReport;
const mark = (name: Mark['mark'], atS: number): Mark => ({ mark: name, atS, text: '' });

describe('laying an earlier run under', () => {
  it('meets at output on, marked or at the start', () => {
    const here = report([mark('output-on', 2)]);
    expect(alignShift(here, report([mark('output-on', 0.5)]), 'output-on')).toBe(15_000);
    expect(alignShift(here, report([]), 'output-on')).toBe(20_000);
    expect(alignShift(null, report([]), 'output-on')).toBe(0);
  });

  it('meets at the first wake request', () => {
    const here = report([mark('wake-request', 5), mark('wake-request', 9)]);
    expect(alignShift(here, report([mark('wake-request', 1)]), 'wake-request')).toBe(40_000);
  });

  it('does not pretend to meet where one run was never asked to wake', () => {
    expect(alignShift(report([mark('wake-request', 5)]), report([]), 'wake-request')).toBeNull();
  });
});
