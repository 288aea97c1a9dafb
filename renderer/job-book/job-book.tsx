import { useRef, useState } from 'react';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { Bin } from './bin.tsx';
import { JobLines } from './job-lines.tsx';
import { JobView } from './job-view.tsx';
import { LedgerWords } from './ledger-words.tsx';
import { LooseThings } from './loose-things.tsx';
import { Recovered } from './recovered.tsx';
import { TakeIn } from './take-in.tsx';
import { useJobLines } from './use-job-lines.ts';

type Pane = 'job' | 'loose' | 'bin';

/** The ledger as a book: lines on one side, the open page on the other. */
export function JobBook() {
  const openJobId = useDeskState((state) => state.openJobId);
  const { openJob, show } = useActions();
  const [search, setSearch] = useState('');
  const [pane, setPane] = useState<Pane>('job');
  const field = useRef<HTMLInputElement | null>(null);
  const lines = useJobLines(search, 200);
  const open = (jobId: string | null): void => {
    setPane('job');
    openJob(jobId);
  };
  useKey('search', () => field.current?.focus());
  useKey('newJob', () => open(null));

  return (
    <main className="job-book">
      <section className="book-lines" aria-label="Jobs">
        <div className="book-tools">
          <label className="field">
            <span>
              Search the job book <KeyCap>/</KeyCap>
            </span>
            <input
              ref={field}
              className="field-input"
              type="search"
              value={search}
              maxLength={200}
              onChange={(event) => setSearch(event.target.value)}
            />
          </label>
          <button type="button" className="plain strong" onClick={() => open(null)}>
            New job <KeyCap>J</KeyCap>
          </button>
        </div>
        <Recovered />
        {lines.length === 0 && (
          <p className="quiet book-none">
            {search === ''
              ? 'No job yet. Take in the first one on the right.'
              : `No job holds every word of “${search}”.`}
          </p>
        )}
        <JobLines lines={lines} onOpen={open} openId={pane === 'job' ? openJobId : null} />
        <div className="book-foot">
          <button
            type="button"
            className="plain"
            aria-pressed={pane === 'loose'}
            onClick={() => setPane(pane === 'loose' ? 'job' : 'loose')}
          >
            Loose runs and readings
          </button>
          <button
            type="button"
            className="plain"
            aria-pressed={pane === 'bin'}
            onClick={() => setPane(pane === 'bin' ? 'job' : 'bin')}
          >
            Bin
          </button>
          <button type="button" className="plain" onClick={() => show('checklists')}>
            Checklists <KeyCap>;</KeyCap>
          </button>
        </div>
        <LedgerWords />
      </section>
      <section className="book-page" aria-label="Open page">
        {pane === 'loose' && <LooseThings jobId={openJobId} lines={lines} />}
        {pane === 'bin' && <Bin />}
        {pane === 'job' &&
          (openJobId === null ? <TakeIn /> : <JobView key={openJobId} jobId={openJobId} />)}
      </section>
    </main>
  );
}
