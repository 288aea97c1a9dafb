import { describe, expect, it } from 'vitest';
import type { StageReport } from '../../../core/stages/stage.ts';
import { clipReport } from '../../../renderer/replay/clip-report.ts';

const report = {
  durationS: 20,
  stages: [
    { stage: 'flat-low', startS: 0, endS: 5, final: true },
    { stage: 'stepping', startS: 5, endS: 12, final: true },
    { stage: 'running', startS: 12, endS: 20, final: true },
  ],
  marks: [
    { mark: 'output-on', atS: 0, text: '' },
    { mark: 'wake-request', atS: 6, text: '' },
  ],
  steps: [{ atS: 7, fromA: 0.1, toA: 0.2 }],
} as unknown as StageReport;

describe('a report at a moment of a replay', () => {
  it('knows nothing of what comes later', () => {
    const clipped = clipReport(report, 5.5);
    expect(clipped.stages.map((stage) => stage.stage)).toEqual(['flat-low', 'stepping']);
    expect(clipped.marks).toHaveLength(1);
    expect(clipped.steps).toHaveLength(0);
    expect(clipped.durationS).toBe(5.5);
  });

  it('shows the stage at the head as not yet settled', () => {
    expect(clipReport(report, 5.5).stages[1]).toMatchObject({ endS: 5.5, final: false });
  });

  it('is the report itself at the end', () => {
    expect(clipReport(report, 20)).toEqual(report);
  });
});
