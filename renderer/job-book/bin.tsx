import { useCallback, useEffect, useState } from 'react';
import type { BinnedPicture } from '../../core/contract/picture-calls.ts';
import type { JobLine } from '../../core/job/job.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { BinnedPictures } from '../pictures/binned-pictures.tsx';
import { useActions } from '../state/use-desk.ts';

/** Binned jobs and pictures: their runs and files stay until the bin is emptied. */
export function Bin() {
  const { ask, say, openJob } = useActions();
  const [lines, setLines] = useState<readonly JobLine[] | null>(null);
  const [pictures, setPictures] = useState<readonly BinnedPicture[]>([]);
  const read = useCallback(async () => {
    const found = await ask('listBin', {});
    if (found !== null) setLines(found);
    setPictures((await ask('listBinnedPictures', {})) ?? []);
  }, [ask]);
  useEffect(() => void read(), [read]);

  const restore = async (id: string): Promise<void> => {
    if ((await ask('restoreJob', { id })) !== null) openJob(id);
    await read();
  };
  const restorePicture = async (id: string): Promise<void> => {
    await ask('restorePicture', { id });
    await read();
  };
  const held = (lines?.length ?? 0) + pictures.length;
  const empty = async (): Promise<void> => {
    const count = await ask('emptyBin', {});
    if (count !== null) say(`${count} deleted for good.`);
    await read();
  };
  return (
    <section className="bin" aria-label="Bin">
      <h1>Bin</h1>
      <p className="quiet">
        {lines !== null && held === 0
          ? 'The bin is empty.'
          : 'What is here can be taken back with everything on it, until the bin is emptied.'}
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
      <BinnedPictures lines={pictures} onRestore={(id) => void restorePicture(id)} />
      {held > 0 && (
        <TwoPress
          words="Empty the bin"
          sure={`Press again: ${sayHeld(lines?.length ?? 0, pictures.length)} for good`}
          onSure={() => void empty()}
        />
      )}
    </section>
  );
}

function sayHeld(jobs: number, pictures: number): string {
  const many = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;
  const parts = [
    ...(jobs === 0
      ? []
      : [`${many(jobs, 'job')} with everything on ${jobs === 1 ? 'it' : 'them'}`]),
    ...(pictures === 0 ? [] : [many(pictures, 'picture')]),
  ];
  return `${parts.join(' and ')} ${jobs + pictures === 1 ? 'goes' : 'go'}`;
}
