import { STAGE_WORDS, type StageReport } from '../../core/stages/stage.ts';
import { formatPercent, formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';

/** The stages of a file as lines for a person at a terminal. */
export function stagesTable(report: StageReport): string {
  const { reach } = report;
  const share = reach.share === null ? '' : `, ${formatPercent(reach.share)} of the running level`;
  const lines = [
    `${report.samples} samples over ${formatDuration(report.durationS)}; reached ${STAGE_WORDS[reach.stage].toLowerCase()}, held ${amps(reach.heldA)}${share}`,
    `energy ${amount(report.energyWh, 'Wh')}, charge ${amount(report.chargeAh, 'Ah')}, peak ${amps(report.peakA)}`,
    '',
    row('from', 'to', 'mean', 'sure', 'stage', ''),
    ...report.stages.map((stage) =>
      row(
        seconds(stage.startS),
        seconds(stage.endS),
        amps(stage.meanA),
        formatPercent(stage.confidence),
        STAGE_WORDS[stage.stage],
        stage.reason,
      ),
    ),
  ];
  if (report.marks.length > 0) {
    lines.push(
      '',
      ...report.marks.map(({ mark, atS, text }) => `${seconds(atS)}  ${mark}: ${text}`),
    );
  }
  return `${lines.join('\n')}\n`;
}

function row(from: string, to: string, mean: string, sure: string, stage: string, reason: string) {
  const numbers = [from.padStart(10), to.padStart(10), mean.padStart(9), sure.padStart(6)];
  return `${numbers.join('  ')}  ${stage.padEnd(15)}${reason}`.trimEnd();
}

function seconds(value: number): string {
  return `${value.toFixed(2)} s`;
}

function amps(value: number | null): string {
  return amount(value, 'A');
}

function amount(value: number | null, unit: 'A' | 'Ah' | 'Wh'): string {
  return formatQuantity(value, unit, null, { digits: 3 });
}
