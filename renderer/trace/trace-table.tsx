import { MARK_WORDS, STAGE_WORDS, type StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { BandTable } from '../bands/band-table.tsx';
import { HeadedTable } from '../parts/headed-table.tsx';
import { reasonWords } from '../strip/reason-words.ts';
import { clockWords } from './time-ticks.ts';
import type { TraceDrawing } from './trace-drawing.ts';

interface Props {
  readonly report: StageReport | null;
  readonly drawing: TraceDrawing;
  readonly facts: { readonly voltsDecimals: number; readonly ampsDecimals: number };
}

/** Readings shown of the stretch on screen. */
const MOST_READINGS = 40;
const seconds = (atS: number) => clockWords(atS * TICKS_PER_SECOND, 1);

/** The trace as numbers: stages, marks, and readings of the stretch on screen. */
export function TraceTable({ report, drawing, facts }: Props) {
  const { window } = drawing;
  const step = Math.max(1, Math.ceil(window.tick.length / MOST_READINGS));
  const at = Array.from(window.tick.keys()).filter((i) => i % step === 0 && window.count[i]! > 0);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolled region is reached by key
    <section className="trace-table" aria-label="The trace as tables" tabIndex={0}>
      <HeadedTable caption="Stages" heads={['Stage', 'From', 'To', 'Mean draw', 'Why']}>
        {report?.stages.map((stage) => (
          <tr key={`${stage.stage}${stage.startS}`}>
            <td>{STAGE_WORDS[stage.stage]}</td>
            <td>{seconds(stage.startS)}</td>
            <td>{seconds(stage.endS)}</td>
            <td>{formatQuantity(stage.meanA, 'A', facts.ampsDecimals, { prefix: 0 })}</td>
            <td>{reasonWords(stage.reason)}</td>
          </tr>
        ))}
      </HeadedTable>
      <HeadedTable caption="Marks" heads={['Mark', 'At', 'What']}>
        {report?.marks.map((mark) => (
          <tr key={`${mark.mark}${mark.atS}${mark.text}`}>
            <td>{MARK_WORDS[mark.mark]}</td>
            <td>{seconds(mark.atS)}</td>
            <td>{mark.text}</td>
          </tr>
        ))}
      </HeadedTable>
      {report !== null && report.steps.length > 0 && (
        <HeadedTable caption="Steps" heads={['At', 'From', 'To']}>
          {report.steps.map((step) => (
            <tr key={step.atS}>
              <td>{seconds(step.atS)}</td>
              <td>{formatQuantity(step.fromA, 'A', facts.ampsDecimals, { prefix: 0 })}</td>
              <td>{formatQuantity(step.toA, 'A', facts.ampsDecimals, { prefix: 0 })}</td>
            </tr>
          ))}
        </HeadedTable>
      )}
      <BandTable />
      <HeadedTable caption="Readings on screen" heads={['At', 'Draw', 'Volts']}>
        {at.map((i) => (
          <tr key={window.tick[i]}>
            <td>{clockWords(window.tick[i]!, 1)}</td>
            <td>{formatQuantity(window.ampsMean[i]!, 'A', facts.ampsDecimals, { prefix: 0 })}</td>
            <td>{formatQuantity(window.voltsMean[i]!, 'V', facts.voltsDecimals, { prefix: 0 })}</td>
          </tr>
        ))}
      </HeadedTable>
    </section>
  );
}
