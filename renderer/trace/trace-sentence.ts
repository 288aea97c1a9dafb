import { STAGE_WORDS, type StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';

/** What the trace shows, in one or two sentences, for people who do not see it. */
export function traceSentence(report: StageReport | null, endTick: number): string {
  if (report === null || report.stages.length === 0) {
    return endTick === 0
      ? 'The trace is empty: nothing has been recorded yet.'
      : `The trace holds ${formatDuration(endTick / TICKS_PER_SECOND)} of readings and no stage yet.`;
  }
  const now = report.stages[report.stages.length - 1]!;
  const path = report.stages.map((stage) => STAGE_WORDS[stage.stage].toLowerCase()).join(', ');
  return [
    `${formatDuration(report.durationS)} of readings, ${report.stages.length} stages: ${path}.`,
    `Newest: ${STAGE_WORDS[now.stage]}, ${now.reason}.`,
    `Peak ${formatQuantity(report.peakA, 'A', null, { digits: 3 })}.`,
  ].join(' ');
}
