import { useCallback, useEffect, useState } from 'react';
import type { JobLine } from '../../core/job/job.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';

/** Binned jobs: their runs stay until the bin is emptied. */
export function Bin() {
  const { ask, say, openJob } = useActions();
  const [lines, setLines] = useState<readonly JobLine[] | null>(null);
  const read = useCallback(async () => {
    const found = await ask('listBin', {});
    if (found !== null) setLines(found);
  }, [ask]);
  useEffect(() => void read(), [read]);

  const restore = async (id: string): Promise<void> => {
    if ((await ask('restoreJob', { id })) !== null) openJob(id);
    await read();
  };
  const empty = async (): Promise<void> => {
    const count = await ask('emptyBin', {});
    if (count !== null) say(`${count} jobs deleted.`);
    await read();
  };
  return (
    <section className="bin" aria-label="Bin">
      <h1>Bin</h1>
      <p className="quiet">
        {lines?.length === 0
          ? 'The bin is empty.'
          : 'Jobs here can be taken back with everything on them, until the bin is emptied.'}
      </p>
      <ol>
        {lines?.map((line) => (
          <li key={line.id} className="bin-line">
            <span className="job-number">{line.number}</span>
            <span>{line.boardModel ?? 'Board unknown'}</span>
            <span className="quiet">{line.symptom}</span>
            <button type="button" className="plain" onClick={() => void restore(line.id)}>
              Take back
            </button>
          </li>
        ))}
      </ol>
      {lines !== null && lines.length > 0 && (
        <TwoPress
          words="Empty the bin"
          sure={`Press again: ${lines.length} jobs and their runs go for good`}
          onSure={() => void empty()}
        />
      )}
    </section>
  );
}
