import { type FormEvent, useState } from 'react';
import type { Job } from '../../core/job/job.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { useActions } from '../state/use-desk.ts';
import { JobForm } from './job-form.tsx';
import { fieldsOf, type JobText, textOf, wrongIn } from './job-text.ts';
import { LIQUID_WORDS, MATTERS_WORDS } from './job-words.ts';

/** What is known of the job, and the form that changes it. */
export function JobFacts({ job }: { job: Job }) {
  const [text, setText] = useState<JobText | null>(null);
  const [wrong, setWrong] = useState<string | null>(null);
  const { ask } = useActions();
  if (text === null) return <Facts job={job} onChange={() => setText(textOf(job))} />;
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const mistake = wrongIn(text);
    setWrong(mistake);
    if (mistake !== null) return;
    if ((await ask('changeJob', { id: job.id, fields: fieldsOf(text) })) !== null) setText(null);
  };
  return (
    <form className="job-facts" onSubmit={(event) => void onSubmit(event)} noValidate>
      <h2>Facts</h2>
      <JobForm text={text} onChange={setText} />
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Keep facts
        </button>
        <button type="button" className="plain" onClick={() => setText(null)}>
          Leave as they were
        </button>
      </div>
    </form>
  );
}

function Facts({ job, onChange }: { job: Job; onChange: () => void }) {
  const amount = (value: number | null, unit: 'V' | 'A') =>
    formatQuantity(value, unit, null, { prefix: 0 });
  const { board } = job;
  const facts: readonly (readonly [name: string, value: string, refId?: string])[] = [
    ['Serial number', job.serialNumber, 'serial'],
    ['Symptom', job.symptom, 'symptom'],
    ['Liquid', LIQUID_WORDS[job.liquid]],
    ['What matters', MATTERS_WORDS[job.matters]],
    ['Earlier repairs', job.earlierRepairs, 'earlier'],
    ['Accessories left', job.accessories, 'accessories'],
    ['Promised', job.promised, 'promised'],
    ['Stated input', amount(board.statedInputV, 'V')],
    ['First limit', amount(board.statedLimitA, 'A')],
    ['Running draw', amount(board.runningA, 'A')],
    ['Runs flat', board.runsFlat === null ? '' : board.runsFlat ? 'Yes' : 'No'],
  ];
  return (
    <section className="job-facts" aria-label="Facts" data-place="facts">
      <div className="part-head">
        <h2>Facts</h2>
        <button type="button" className="plain" onClick={onChange}>
          Change facts
        </button>
      </div>
      <dl className="facts">
        {facts.map(([name, value, refId]) => (
          <div key={name} data-ref={refId}>
            <dt>{name}</dt>
            <dd>{value === '' ? '–' : value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
