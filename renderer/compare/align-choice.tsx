import type { AlignBy } from '../../core/match/compare-runs.ts';
import type { Step } from '../../core/stages/stage.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { Pick } from '../parts/pick.tsx';

interface Props {
  readonly alignBy: AlignBy;
  /** Steps of the first run. */
  readonly steps: readonly Step[];
  readonly onAlign: (alignBy: AlignBy) => void;
}

/** The moment that the runs are laid over one another at. */
export function AlignChoice({ alignBy, steps, onAlign }: Props) {
  const value = alignBy.by === 'step' ? `step ${alignBy.step}` : alignBy.by;
  const pick = (picked: string): void => {
    if (picked === 'output-on' || picked === 'wake-request') onAlign({ by: picked });
    else onAlign({ by: 'step', step: Number(picked.slice(5)) });
  };
  const amps = (level: number) => formatQuantity(level, 'A', null, { digits: 2 });
  return (
    <Pick label="Meet at" value={value} onPick={pick}>
      <option value="output-on">output on</option>
      <option value="wake-request">wake request</option>
      {steps.slice(0, 12).map((step, i) => (
        <option key={step.atS} value={`step ${i}`}>
          step {i + 1}, {amps(step.fromA)} to {amps(step.toA)}
        </option>
      ))}
    </Pick>
  );
}
