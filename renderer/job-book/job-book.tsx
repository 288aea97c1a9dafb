import { useRef, useState } from 'react';
import { CausesPane } from '../causes/causes-pane.tsx';
import { CopiesPane } from '../copies/copies-pane.tsx';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { FoundJobs } from '../search/found-jobs.tsx';
import { SearchHelp } from '../search/search-help.tsx';
import { SearchRead } from '../search/search-read.tsx';
import { useSearch } from '../search/use-search.ts';
import { CustomersPage } from '../shop/customers-page.tsx';
import { FiguresPage } from '../shop/figures-page.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { Bin } from './bin.tsx';
import { JobLines } from './job-lines.tsx';
import { JobView } from './job-view.tsx';
import { LedgerWords } from './ledger-words.tsx';
import { LooseThings } from './loose-things.tsx';
import { Recovered } from './recovered.tsx';
import { TakeIn } from './take-in.tsx';
import { useJobLines } from './use-job-lines.ts';

const PANES = [
  ['customers', 'Customers'],
  ['figures', 'Figures'],
  ['causes', 'Causes'],
  ['copies', 'Backups and copies'],
  ['bin', 'Bin'],
] as const;

/** The ledger as a book: lines on one side, the open page on the other. */
export function JobBook() {
  const openJobId = useDeskState((state) => state.openJobId);
  const pane = useDeskState((state) => state.bookPane);
  const { openJob, show, showPane } = useActions();
  const [search, setSearch] = useState('');
  const field = useRef<HTMLInputElement | null>(null);
  const lines = useJobLines('', 200);
  const { parsed, answer } = useSearch(search);
  const isSearching = !parsed.ok || parsed.terms.length > 0;
  const openId = pane === 'job' ? openJobId : null;
  const open = (jobId: string | null): void => openJob(jobId);
  useKey('search', () => field.current?.focus());
  useKey('newJob', () => open(null));
  useKey('copies', () => showPane(pane === 'copies' ? 'job' : 'copies'));

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
        <SearchHelp
          onTry={(example) => {
            setSearch(example);
            field.current?.focus();
          }}
        />
        <SearchRead search={search} parsed={parsed} />
        {!isSearching && lines.length === 0 && (
          <p className="quiet book-none">No job yet. Take in the first one on the right.</p>
        )}
        {answer !== null && answer.found.length === 0 && (
          <p className="quiet book-none">
            No job shows all of that. Leave a word out, or widen a range.
          </p>
        )}
        {!isSearching && <JobLines lines={lines} onOpen={open} openId={openId} />}
        {isSearching && answer !== null && (
          <FoundJobs answer={answer} openId={openId} onOpen={openJob} />
        )}
        <div className="book-foot">
          <button
            type="button"
            className="plain"
            aria-pressed={pane === 'loose'}
            onClick={() => showPane(pane === 'loose' ? 'job' : 'loose')}
          >
            Loose runs and readings
          </button>
          {PANES.map(([name, words]) => (
            <button
              key={name}
              type="button"
              className="plain"
              aria-pressed={pane === name}
              onClick={() => showPane(pane === name ? 'job' : name)}
            >
              {words}
              {name === 'copies' && <KeyCap>0</KeyCap>}
            </button>
          ))}
          <button type="button" className="plain" onClick={() => show('checklists')}>
            Checklists <KeyCap>;</KeyCap>
          </button>
        </div>
        <LedgerWords />
      </section>
      <section className="book-page" aria-label="Open page">
        {pane === 'loose' && <LooseThings jobId={openJobId} lines={lines} />}
        {pane === 'bin' && <Bin />}
        {pane === 'customers' && <CustomersPage />}
        {pane === 'figures' && <FiguresPage />}
        {pane === 'causes' && <CausesPane />}
        {pane === 'copies' && <CopiesPane />}
        {pane === 'job' &&
          (openJobId === null ? <TakeIn /> : <JobView key={openJobId} jobId={openJobId} />)}
      </section>
    </main>
  );
}
