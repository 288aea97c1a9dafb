import { useEffect, useState } from 'react';
import { type JobTemplate, ORIGIN_WORDS } from '../../core/checklist/template-version.ts';
import type { Job } from '../../core/job/job.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Which version of which checklist the job is walked with, and what that one guards no longer. */
export function JobTemplateLine({ job }: { job: Job }) {
  const { ask, show } = useActions();
  const jobsVersion = useDeskState((state) => state.jobsVersion);
  const [walked, setWalked] = useState<JobTemplate | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again when the job's changed
  useEffect(() => {
    void ask('readJobTemplate', { jobId: job.id }).then(setWalked);
  }, [job.id, job.template, jobsVersion, ask]);
  const version = walked?.version ?? null;
  const isOlder = version !== null && walked !== null && walked.newest > version.version;
  return (
    <>
      <p className="quiet job-template">
        {version === null
          ? 'The built-in checklist'
          : `${version.title}, version ${version.version}, ${ORIGIN_WORDS[version.origin]}`}
        {isOlder && ` (the shop is at version ${walked.newest}; this job keeps its own)`}{' '}
        <button type="button" className="in-text" onClick={() => show('checklists')}>
          Change checklists
        </button>
      </p>
      {version !== null && version.lost.length > 0 && (
        <p className="job-template-lost">
          <strong>It guards less than the built-in one:</strong> {version.lost.join('. ')}.
        </p>
      )}
    </>
  );
}
