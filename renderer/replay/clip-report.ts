import type { StageReport } from '../../core/stages/stage.ts';

/** The part of a report that had happened at `atS`: stages begun, marks made. */
export function clipReport(report: StageReport, atS: number): StageReport {
  const begun = report.stages.filter((stage) => stage.startS <= atS);
  return {
    ...report,
    durationS: Math.min(report.durationS, atS),
    stages: begun.map((stage) =>
      stage.endS > atS ? { ...stage, endS: Math.max(stage.startS, atS), final: false } : stage,
    ),
    marks: report.marks.filter((mark) => mark.atS <= atS),
    steps: report.steps.filter((step) => step.atS <= atS),
  };
}
