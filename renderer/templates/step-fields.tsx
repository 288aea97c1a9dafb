import { GATE_WORDS, GATES, type Gate } from '../../core/checklist/gate.ts';
import {
  NEEDS,
  PHASES,
  STEP_TIMES,
  type TemplateStep,
} from '../../core/checklist/template-step.ts';
import type { Quantity } from '../../core/job/job.ts';
import { Pick } from '../parts/pick.tsx';
import { NEED_WORDS, TIME_WORDS } from './step-words.ts';

const QUANTITIES: readonly Quantity[] = ['volts', 'ohms', 'diode', 'continuity', 'amps'];

interface Props {
  readonly step: TemplateStep;
  readonly onChange: (part: Partial<TemplateStep>) => void;
  readonly onPhase: (phase: TemplateStep['phase']) => void;
}

/** Everything about one step: its words, what settles it, what it holds back, its caution. */
export function StepFields({ step, onChange, onPhase }: Props) {
  return (
    <div className="step-fields">
      <label className="field step-wide">
        Step
        <input
          className="field-input"
          maxLength={72}
          value={step.title}
          onChange={(event) => onChange({ title: event.target.value })}
        />
      </label>
      <Pick label="Phase" value={step.phase} onPick={(to) => onPhase(to as TemplateStep['phase'])}>
        {PHASES.map((phase) => (
          <option key={phase}>{phase}</option>
        ))}
      </Pick>
      <Pick
        label="Asked"
        value={step.when}
        onPick={(to) => onChange({ when: to as TemplateStep['when'] })}
      >
        {STEP_TIMES.map((when) => (
          <option key={when} value={when}>
            {TIME_WORDS[when]}
          </option>
        ))}
      </Pick>
      <Pick
        label="Needs"
        value={step.needs}
        onPick={(to) => onChange({ needs: to as TemplateStep['needs'] })}
      >
        {NEEDS.map((needs) => (
          <option key={needs} value={needs}>
            {NEED_WORDS[needs]}
          </option>
        ))}
      </Pick>
      <Pick
        label="Holds back until settled"
        value={step.gate}
        onPick={(to) => onChange({ gate: to as Gate })}
      >
        {GATES.map((gate) => (
          <option key={gate} value={gate}>
            {GATE_WORDS[gate]}
          </option>
        ))}
      </Pick>
      {step.needs === 'reading' && (
        <>
          <Pick
            label="Reading of"
            value={step.quantity ?? 'volts'}
            onPick={(to) => onChange({ quantity: to as Quantity })}
          >
            {QUANTITIES.map((quantity) => (
              <option key={quantity}>{quantity}</option>
            ))}
          </Pick>
          <label className="field">
            {step.when === 'part-fitted' ? 'Where; empty = the points from before' : 'Where'}
            <input
              className="field-input"
              maxLength={80}
              value={step.place}
              onChange={(event) => onChange({ place: event.target.value })}
            />
          </label>
        </>
      )}
      <label className="field step-wide">
        Caution shown at this step; empty = none
        <textarea
          className="field-input"
          rows={3}
          maxLength={2000}
          value={step.caution ?? ''}
          onChange={(event) =>
            onChange({ caution: event.target.value === '' ? null : event.target.value })
          }
        />
      </label>
    </div>
  );
}
