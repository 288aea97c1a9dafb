import type { StageLevels } from '../../core/bands/stage-evidence.ts';
import type { Stage, Step } from '../../core/stages/stage.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';

interface Props {
  readonly levels: StageLevels;
  readonly stage: Pick<Stage, 'plusMinusA' | 'rippleA'>;
  readonly steps: readonly Step[];
}

/** Steps that are written out: a loop makes hundreds. */
const MOST_STEPS = 8;

/** Levels, noise and steps of a stage's own readings. */
export function LevelFacts({ levels, stage, steps }: Props) {
  const amps = (value: number | null, digits = 3) => formatQuantity(value, 'A', null, { digits });
  return (
    <dl className="facts">
      <div>
        <dt>Level</dt>
        <dd>
          {amps(levels.meanA)}
          {stage.plusMinusA !== undefined && <> ± {amps(stage.plusMinusA, 1)}</>},{' '}
          {amps(levels.lowA)} to {amps(levels.highA)}
        </dd>
      </div>
      <div>
        <dt>Spread</dt>
        <dd>{amps(levels.spreadA, 2)} about the level</dd>
      </div>
      {stage.rippleA !== undefined && (
        <div>
          <dt>Ripple</dt>
          <dd>{amps(stage.rippleA, 2)} rms beside the level, beyond the ammeter's noise</dd>
        </div>
      )}
      {steps.slice(0, MOST_STEPS).map((step, i) => (
        <div key={step.atS}>
          <dt>Step {i + 1}</dt>
          <dd>
            {amps(step.fromA)} to {amps(step.toA)}
            {step.plusMinusA !== undefined && <> ± {amps(step.plusMinusA, 1)}</>}
            {step.riseS !== undefined && <> within {formatDuration(step.riseS)}</>}
          </dd>
        </div>
      ))}
      <div>
        <dt>Noise</dt>
        <dd>
          {amps(levels.noiseA, 2)} from reading to reading; smallest step {amps(levels.countA, 2)}
        </dd>
      </div>
      <div>
        <dt>Feed</dt>
        <dd>{formatQuantity(levels.meanV, 'V', null, { digits: 4 })}</dd>
      </div>
      <div>
        <dt>Readings</dt>
        <dd>{levels.samples.toLocaleString('en')}</dd>
      </div>
    </dl>
  );
}
