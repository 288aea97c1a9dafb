import { type FormEvent, useState } from 'react';
import { CAUTIONS } from '../../core/checklist/cautions.ts';
import type { Part, PartFields } from '../../core/job/job.ts';
import { Caution } from '../parts/caution.tsx';
import { Choice } from './job-form.tsx';
import { PartFigures } from './part-figures.tsx';
import { PartReading } from './part-reading.tsx';

interface Props {
  readonly part: Part | null;
  readonly onKeep: (part: PartFields) => void;
  readonly onCancel: () => void;
}

const EMPTY: PartFields = {
  action: 'lifted',
  designator: '',
  kind: '',
  value: '',
  rail: '',
  stateFound: '',
  from: '',
};

const LINES = [
  ['designator', 'Designator'],
  ['kind', 'Kind'],
  ['value', 'Value'],
  ['rail', 'Rail'],
  ['stateFound', 'State found'],
  ['from', 'Where the fitted part came from'],
] as const;

/** A part: a designator is enough while the iron is hot. */
export function PartForm({ part, onKeep, onCancel }: Props) {
  const [fields, setFields] = useState<PartFields>(part === null ? EMPTY : pick(part));
  const [isMissing, setMissing] = useState(false);
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    setMissing(fields.designator.trim() === '');
    if (fields.designator.trim() !== '') onKeep(fields);
  };
  return (
    <form className="part-form" onSubmit={onSubmit} aria-label="Part">
      <Caution>{CAUTIONS.iron}</Caution>
      <Choice
        legend="What was done"
        name="part-action"
        value={fields.action}
        options={[
          ['lifted', 'Lifted'],
          ['fitted', 'Fitted'],
        ]}
        onChange={(event) =>
          setFields({ ...fields, action: event.target.value === 'fitted' ? 'fitted' : 'lifted' })
        }
      />
      {LINES.map(([name, words]) => (
        <label key={name} className="field">
          {words}
          <input
            className="field-input"
            // biome-ignore lint/a11y/noAutofocus: opened by a press, the next thing is to type
            autoFocus={name === 'designator'}
            maxLength={200}
            value={fields[name]}
            aria-invalid={name === 'designator' && isMissing}
            onChange={(event) => setFields({ ...fields, [name]: event.target.value })}
          />
        </label>
      ))}
      <PartReading part={fields} onRetype={(value) => setFields({ ...fields, value })} />
      <PartFigures part={fields} onRetype={(value) => setFields({ ...fields, value })} />
      {isMissing && (
        <p role="alert" className="form-wrong">
          Which part? Write its designator, or where it sat.
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Keep part
        </button>
        <button type="button" className="plain" onClick={onCancel}>
          Back
        </button>
      </div>
    </form>
  );
}

function pick(part: Part): PartFields {
  const { action, designator, kind, value, rail, stateFound, from } = part;
  return { action, designator, kind, value, rail, stateFound, from };
}
