import { useCallback, useEffect, useState } from 'react';
import type { JobLine, Reading, Run } from '../../core/job/job.ts';
import { formatReading } from '../../core/units/format-reading.ts';
import { Pick } from '../parts/pick.tsx';
import { timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { RunLine } from './run-line.tsx';

interface Props {
  readonly jobId: string | null;
  readonly lines: readonly JobLine[];
}

/** Runs and readings that belong to no job yet, and the job to give them to. */
export function LooseThings({ jobId, lines }: Props) {
  const { ask } = useActions();
  const open = lines.filter((line) => line.state !== 'closed');
  const [chosen, setChosen] = useState<string>(jobId ?? open[0]?.id ?? '');
  const [runs, setRuns] = useState<readonly Run[]>([]);
  const [readings, setReadings] = useState<readonly Reading[]>([]);
  const read = useCallback(async () => {
    const [foundRuns, foundReadings] = await Promise.all([
      ask('listRuns', { jobId: null }),
      ask('looseReadings', {}),
    ]);
    setRuns(foundRuns ?? []);
    setReadings(foundReadings ?? []);
  }, [ask]);
  useEffect(() => void read(), [read]);

  const giveRun = async (id: string): Promise<void> => {
    if ((await ask('giveRun', { id, jobId: chosen })) !== null) await read();
  };
  const giveReading = async (reading: Reading): Promise<void> => {
    const given = await ask('giveReading', {
      readingId: reading.id,
      jobId: chosen,
      itemId: null,
      place: reading.place,
    });
    if (given !== null) await read();
  };
  return (
    <section className="loose" aria-label="Loose runs and readings">
      <h1>Loose runs and readings</h1>
      <p className="quiet">
        Recorded while no job was on the bench; the oldest go after 30 minutes unless given away.
      </p>
      <Pick label="Give to" value={chosen} onPick={setChosen}>
        {open.length === 0 && <option value="">No open job</option>}
        {open.map((line) => (
          <option key={line.id} value={line.id}>
            Job {line.number}, {line.boardModel ?? 'board unknown'}
          </option>
        ))}
      </Pick>
      <h2>Runs</h2>
      {runs.length === 0 && <p className="quiet">No loose run.</p>}
      <ol>
        {runs.map((run) => (
          <RunLine key={run.id} run={run}>
            <button
              type="button"
              className="plain strong"
              disabled={chosen === ''}
              onClick={() => void giveRun(run.id)}
            >
              Give run to job
            </button>
          </RunLine>
        ))}
      </ol>
      <h2>Readings</h2>
      {readings.length === 0 && <p className="quiet">No loose reading.</p>}
      <ol>
        {readings.map((reading) => (
          <li key={reading.id} className="part-line">
            <strong>{formatReading(reading)}</strong>
            <span>{reading.place === '' ? 'no place written' : reading.place}</span>
            <span className="quiet">{timeWords(reading.takenAt)}</span>
            <button
              type="button"
              className="plain strong"
              disabled={chosen === ''}
              onClick={() => void giveReading(reading)}
            >
              Give reading to job
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}
