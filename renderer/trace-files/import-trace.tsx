import { useEffect, useState } from 'react';
import type { TraceProgress } from '../../core/contract/trace-file-calls.ts';
import type { Feed } from '../../core/job/job.ts';
import { FEED_POINTS } from '../parts/feed-words.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions, useDesk } from '../state/use-desk.ts';
import { bytesWords } from './bytes-words.ts';

/** A trace file becomes a run of this job; while it is read, how far it is. */
export function ImportTrace({ jobId }: { jobId: string }) {
  const { bridge } = useDesk();
  const { ask, replay } = useActions();
  const [point, setPoint] = useState<Feed['point']>('charger-input');
  const [isBusy, setBusy] = useState(false);
  const [progress, setProgress] = useState<TraceProgress | null>(null);
  const [read, setRead] = useState<{ runId: string; words: string } | null>(null);
  useEffect(() => bridge.on('traceProgress', setProgress), [bridge]);
  const choose = async (): Promise<void> => {
    setBusy(true);
    setProgress(null);
    setRead(null);
    const feed = { point, cells: false, screen: false, drive: false, note: '' };
    const answer = await ask('importTrace', { jobId, feed });
    setBusy(false);
    setProgress(null);
    if (answer === null) return;
    const { run, notes } = answer;
    const count = `${run.samples.toLocaleString('en')} readings.`;
    setRead({
      runId: run.id,
      words: ['Read:', count, ...notes.map((note) => `${note}.`)].join(' '),
    });
  };
  return (
    <section className="import-trace" aria-label="Read a trace file">
      <Pick
        label="Fed at"
        value={point}
        onPick={(picked) =>
          setPoint(FEED_POINTS.find((one) => one.point === picked)?.point ?? 'other')
        }
      >
        {FEED_POINTS.map((one) => (
          <option key={one.point} value={one.point}>
            {one.words}
          </option>
        ))}
      </Pick>
      <button
        type="button"
        className="plain"
        aria-disabled={isBusy}
        onClick={() => {
          if (!isBusy) void choose();
        }}
      >
        Read a trace file
      </button>
      {isBusy && progress !== null && progress.totalBytes > 0 && (
        <progress
          aria-label="Reading the trace file"
          max={progress.totalBytes}
          value={progress.readBytes}
        />
      )}
      <p role="status">
        {isBusy && progress === null && 'Choose a file with times, volts and amps.'}
        {isBusy &&
          progress !== null &&
          `${progress.samples.toLocaleString('en')} readings, ${bytesWords(progress.readBytes)} of ${bytesWords(progress.totalBytes)}`}
        {read?.words}
      </p>
      {read !== null && (
        <button type="button" className="plain" onClick={() => replay(read.runId)}>
          Replay it
        </button>
      )}
    </section>
  );
}
