import type { StageLevels } from '../../core/bands/stage-evidence.ts';
import { formatQuantity } from '../../core/units/format.ts';

/** Levels and noise of a stage's own readings. */
export function LevelFacts({ levels }: { levels: StageLevels }) {
  const amps = (value: number | null, digits = 3) => formatQuantity(value, 'A', null, { digits });
  return (
    <dl className="facts">
      <div>
        <dt>Level</dt>
        <dd>
          {amps(levels.meanA)}, {amps(levels.lowA)} to {amps(levels.highA)}
        </dd>
      </div>
      <div>
        <dt>Spread</dt>
        <dd>{amps(levels.spreadA, 2)} about the level</dd>
      </div>
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
