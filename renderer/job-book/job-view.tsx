import { useRef } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import type { WaitingFor } from '../../core/job/waiting-for.ts';
import { KeptEvidence } from '../evidence/kept-evidence.tsx';
import { LikelyCauses } from '../evidence/likely-causes.tsx';
import { dayWords } from '../parts/time-words.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { JobPictures } from '../pictures/job-pictures.tsx';
import { useOpenPlace } from '../search/use-open-place.ts';
import { JobCustomer } from '../shop/job-customer.tsx';
import { useTerms } from '../shop/use-terms.ts';
import { JobHunts } from '../shorts/job-hunts.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { ImportTrace } from '../trace-files/import-trace.tsx';
import { ExportRecord } from './export-record.tsx';
import { JobFacts } from './job-facts.tsx';
import { JobNotes } from './job-notes.tsx';
import { JobParts } from './job-parts.tsx';
import { JobReadings } from './job-readings.tsx';
import { JobRuns } from './job-runs.tsx';
import { stateWords } from './job-words.ts';
import { OutcomeForm } from './outcome-form.tsx';
import { PrintTag } from './print-tag.tsx';
import { useJobWhole } from './use-job-whole.ts';
import { WaitChoice } from './wait-choice.tsx';

/** One job's page: facts, runs, readings, parts, outcome. */
export function JobView({ jobId }: { jobId: string }) {
  const whole = useJobWhole(jobId);
  const known = useTerms(jobId);
  const page = useRef<HTMLElement | null>(null);
  useOpenPlace(page, whole !== null && known !== null);
  if (whole === null) return <p className="quiet">Reading the job…</p>;
  return (
    <article ref={page} className="job-view" aria-label={`Job ${whole.job.number}`}>
      <JobHead whole={whole} waitingFor={known?.terms.waitingFor ?? null} />
      <JobFacts job={whole.job} />
      <JobRuns runs={whole.runs} />
      <ImportTrace jobId={jobId} />
      <JobReadings readings={whole.readings} items={whole.items} />
      <JobNotes items={whole.items} />
      <JobHunts jobId={jobId} />
      {whole.job.state === 'closed' ? (
        <KeptEvidence jobId={jobId} />
      ) : (
        <LikelyCauses jobId={jobId} />
      )}
      <JobParts jobId={jobId} jobNumber={whole.job.number} parts={whole.parts} />
      <JobPictures whole={whole} />
      {known !== null && <JobCustomer job={whole.job} terms={known.terms} shop={known.shop} />}
      <OutcomeForm job={whole.job} />
    </article>
  );
}

function JobHead({ whole, waitingFor }: { whole: JobWhole; waitingFor: WaitingFor | null }) {
  const { job } = whole;
  const { ask, show, openJob } = useActions();
  const onBench = useDeskState((state) => state.bench?.jobId === job.id);
  const putOnBench = async (): Promise<void> => {
    if ((await ask('openJobOnBench', { jobId: job.id })) !== null) show('sheet');
  };
  const bin = async (): Promise<void> => {
    if ((await ask('binJob', { id: job.id })) !== null) openJob(null);
  };
  return (
    <header className="job-head">
      <h1>
        <span className="job-number">Job {job.number}</span> {job.boardModel ?? 'Board unknown'}
      </h1>
      <p className="quiet">
        {stateWords({ state: job.state, waitingFor })}, taken in {dayWords(job.createdAt)}
        {job.comebackOf !== null && (
          <>
            , comeback of{' '}
            <button
              type="button"
              className="in-text"
              onClick={() => job.comebackOf !== null && openJob(job.comebackOf.id)}
            >
              job {job.comebackOf.number}
            </button>
          </>
        )}
      </p>
      <div className="job-keys">
        {onBench ? (
          <button
            type="button"
            className="plain"
            onClick={() => void ask('openJobOnBench', { jobId: null })}
          >
            Take off the bench
          </button>
        ) : (
          <button type="button" className="plain strong" onClick={() => void putOnBench()}>
            Put on bench
          </button>
        )}
        {job.state !== 'closed' && <WaitChoice job={job} />}
        <PrintTag jobId={job.id} />
        <ExportRecord jobId={job.id} />
        <TwoPress words="Put in bin" sure="Press again to bin it" onSure={() => void bin()} />
      </div>
    </header>
  );
}
