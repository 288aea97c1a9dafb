import type { RailWalkAnswer } from '../../core/contract/board-calls.ts';
import { FreeReading } from '../checklist/free-reading.tsx';
import { JobReadings } from '../job-book/job-readings.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions } from '../state/use-desk.ts';

/** A job whose board has no table: readings stand alone, and five rails are enough to begin. */
export function NoBoard({
  answer,
  jobId,
  onHunt,
}: {
  answer: RailWalkAnswer;
  jobId: string;
  onHunt: () => void;
}) {
  const { show, openJob } = useActions();
  const { boardName } = answer;
  return (
    <section className="no-board" aria-label="No rails known">
      <h1>
        {boardName === null
          ? "This job's board is unknown"
          : `Nobody has entered the rails of ${boardName} yet`}
      </h1>
      <p>
        {boardName === null
          ? 'Readings stand alone until it gets a name. Name the board on the job, or go on without.'
          : 'With five of them entered, readings get verdicts and the next best measurement is proposed. Until then they stand alone.'}
      </p>
      <div className="form-keys">
        {boardName === null ? (
          <button type="button" className="plain strong" onClick={() => openJob(jobId)}>
            Open the job
          </button>
        ) : (
          <button type="button" className="plain strong" onClick={() => show('boards')}>
            Enter its rails <KeyCap>F6</KeyCap>
          </button>
        )}
        <button type="button" className="plain" onClick={onHunt}>
          Hunt a short <KeyCap>Z</KeyCap>
        </button>
      </div>
      <FreeReading jobId={jobId} hasKey />
      <JobReadings readings={answer.alone} items={[]} />
    </section>
  );
}
