import type { ReactNode } from 'react';
import type { JobText } from './job-text.ts';
import { LIQUID_WORDS, MATTERS_WORDS } from './job-words.ts';
import { TemplateChoice } from './template-choice.tsx';

interface Props {
  readonly text: JobText;
  readonly onChange: (text: JobText) => void;
  /** Whose it is, where that is asked. */
  readonly children?: ReactNode;
}

/** The fields of a job: what came in first, what is known of the board last. */
export function JobForm({ text, onChange, children }: Props) {
  const put = (field: keyof JobText) => (event: { target: { value: string } }) =>
    onChange({ ...text, [field]: event.target.value });
  const line = (field: keyof JobText, words: string, isFirst = false) => (
    <label className={`field field-${field}`}>
      {words}
      <input
        className="field-input"
        autoComplete="off"
        // biome-ignore lint/a11y/noAutofocus: the form was asked for to be typed in
        autoFocus={isFirst}
        maxLength={200}
        value={text[field]}
        onChange={put(field)}
      />
    </label>
  );
  const long = (field: keyof JobText, words: string) => (
    <label className={`field field-${field}`}>
      {words}
      <textarea
        className="field-input"
        rows={2}
        maxLength={4000}
        value={text[field]}
        onChange={put(field)}
      />
    </label>
  );
  return (
    <div className="job-form">
      {line('boardModel', 'Board model (empty: unknown)', true)}
      {line('serialNumber', 'Serial number')}
      {long('symptom', 'Symptom')}
      <Choice
        legend="Liquid"
        name="liquid"
        value={text.liquid}
        options={Object.entries(LIQUID_WORDS)}
        onChange={put('liquid')}
      />
      <Choice
        legend="What matters"
        name="matters"
        value={text.matters}
        options={Object.entries(MATTERS_WORDS)}
        onChange={put('matters')}
      />
      <TemplateChoice text={text} onChange={onChange} />
      {children}
      {long('earlierRepairs', 'Earlier repairs')}
      {line('accessories', 'Accessories left')}
      {line('promised', 'Promised')}
      <fieldset className="board-facts">
        <legend>What is known of the board</legend>
        {line('statedInputV', 'Stated input, V')}
        {line('statedLimitA', 'First limit, A')}
        {line('runningA', 'Running draw, A')}
        <Choice
          legend="Runs flat"
          name="runsFlat"
          value={text.runsFlat}
          options={[
            ['unknown', 'Not known'],
            ['yes', 'Yes'],
            ['no', 'No'],
          ]}
          onChange={put('runsFlat')}
        />
      </fieldset>
    </div>
  );
}

interface ChoiceProps {
  readonly legend: ReactNode;
  readonly name: string;
  readonly value: string;
  readonly options: readonly (readonly [string, string])[];
  readonly onChange: (event: { target: { value: string } }) => void;
}

/** One of a few, all in sight. */
export function Choice({ legend, name, value, options, onChange }: ChoiceProps) {
  return (
    <fieldset className="segments">
      <legend>{legend}</legend>
      {options.map(([key, words]) => (
        <label key={key} className="segment">
          <input type="radio" name={name} value={key} checked={value === key} onChange={onChange} />
          {words}
        </label>
      ))}
    </fieldset>
  );
}
