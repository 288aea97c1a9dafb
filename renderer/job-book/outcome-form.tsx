import { type FormEvent, useState } from 'react';
import type { Job, Outcome } from '../../core/job/job.ts';
import { CaseFields, NO_CASE } from '../evidence/case-fields.tsx';
import { ClosedCase } from '../evidence/closed-case.tsx';
import { dayWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { Choice } from './job-form.tsx';
import { VERDICT_WORDS } from './job-words.ts';

const LONG = [
  ['cause', 'Cause found'],
  ['provedBy', 'Proved by'],
  ['misledBy', 'What misled'],
] as const;

/** How the job ended, what was wrong, and what proved it: the next job of its kind reads this. */
export function OutcomeForm({ job }: { job: Job }) {
  const { ask } = useActions();
  const [verdict, setVerdict] = useState<Outcome['verdict'] | null>(null);
  const [text, setText] = useState({ cause: '', provedBy: '', misledBy: '' });
  const [details, setDetails] = useState(NO_CASE);
  const [isMissing, setMissing] = useState(false);
  if (job.outcome !== null) return <Closed jobId={job.id} outcome={job.outcome} />;
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    setMissing(verdict === null);
    if (verdict !== null)
      void ask('closeJob', { id: job.id, outcome: { verdict, ...text }, details });
  };
  return (
    <form className="outcome-form" onSubmit={onSubmit} aria-label="Outcome">
      <h2>Outcome</h2>
      <Choice
        legend="Verdict"
        name="verdict"
        value={verdict ?? ''}
        options={Object.entries(VERDICT_WORDS)}
        onChange={(event) => setVerdict(event.target.value as Outcome['verdict'])}
      />
      {LONG.map(([name, words]) => (
        <label key={name} className="field">
          {words}
          <textarea
            className="field-input"
            rows={2}
            maxLength={4000}
            value={text[name]}
            onChange={(event) => setText({ ...text, [name]: event.target.value })}
          />
        </label>
      ))}
      <CaseFields details={details} onChange={setDetails} />
      {isMissing && (
        <p role="alert" className="form-wrong">
          Choose a verdict first.
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong">
          Close the job
        </button>
      </div>
    </form>
  );
}

function Closed({ jobId, outcome }: { jobId: string; outcome: Outcome }) {
  return (
    <section className="outcome" aria-label="Outcome" data-place="outcome">
      <h2>
        Outcome: {VERDICT_WORDS[outcome.verdict]}, {dayWords(outcome.closedAt)}
      </h2>
      <ClosedCase jobId={jobId} />
      <dl className="facts">
        {LONG.map(([name, words]) => (
          <div key={name}>
            <dt>{words}</dt>
            <dd>{outcome[name] === '' ? '–' : outcome[name]}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
