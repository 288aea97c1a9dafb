import { type FormEvent, useState } from 'react';
import type { Job } from '../../core/job/job.ts';
import { dayAfter } from '../../core/search/search-days.ts';
import { coveredBy, type JobTerms, type ShopSettings } from '../../core/shop/job-terms.ts';
import { STATE_WORDS, VERDICT_WORDS } from '../job-book/job-words.ts';
import { dayWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { FormKeys } from './form-keys.tsx';
import { LineField } from './line-field.tsx';
import { localDay } from './shop-words.ts';

interface Props {
  readonly job: Job;
  readonly terms: JobTerms;
  readonly shop: ShopSettings;
}

/** Until when the repair is answered for, and this serial number's other visits. */
export function JobWarranty({ job, terms, shop }: Props) {
  const { ask, openJob } = useActions();
  const [typed, setTyped] = useState<{ until: string; note: string } | null>(null);
  const today = localDay(Date.now());
  const covered = coveredBy(terms.visits, job.createdAt, localDay(job.createdAt));
  const begin = () =>
    setTyped({
      until:
        terms.warrantyUntil ?? (shop.warrantyDays > 0 ? dayAfter(today, shop.warrantyDays) : ''),
      note: terms.warrantyNote,
    });
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (typed === null) return;
    const until = typed.until === '' ? null : typed.until;
    const kept = await ask('setWarranty', { jobId: job.id, until, note: typed.note.trim() });
    if (kept !== null) setTyped(null);
  };
  return (
    <div className="shop-block">
      <div className="part-head">
        <h3>Warranty</h3>
        {typed === null && (
          <button type="button" className="plain" onClick={begin}>
            {terms.warrantyUntil === null ? 'Give warranty' : 'Change warranty'}
          </button>
        )}
      </div>
      {covered !== null && (
        <p>
          <strong>
            Came in within the warranty of{' '}
            <button type="button" className="in-text" onClick={() => openJob(covered.id)}>
              job {covered.number}
            </button>
            , which runs to {covered.warrantyUntil}.
          </strong>
        </p>
      )}
      {typed === null && (
        <p className={terms.warrantyUntil === null ? 'quiet' : undefined} data-ref="warranty">
          {terms.warrantyUntil === null
            ? 'None given.'
            : `Until ${terms.warrantyUntil}${terms.warrantyUntil < today ? ', over' : ''}.`}{' '}
          {terms.warrantyNote}
        </p>
      )}
      {typed !== null && (
        <form className="shop-form" onSubmit={(event) => void onSubmit(event)}>
          <label className="field">
            Last day
            <input
              type="date"
              className="field-input"
              value={typed.until}
              onChange={(event) => setTyped({ ...typed, until: event.target.value })}
            />
          </label>
          <LineField
            label="On what"
            value={typed.note}
            onChange={(text) => setTyped({ ...typed, note: text })}
          />
          <FormKeys does="Keep warranty" onLeave={() => setTyped(null)} />
        </form>
      )}
      {terms.visits.length > 0 && (
        <>
          <h3>This serial number was here {terms.visits.length === 1 ? 'once' : ''} besides</h3>
          <ol>
            {terms.visits.map((visit) => (
              <li key={visit.id} className="shop-line">
                <span>
                  <button type="button" className="in-text" onClick={() => openJob(visit.id)}>
                    Job {visit.number}
                  </button>
                  , taken in {dayWords(visit.createdAt)},{' '}
                  {visit.verdict === null
                    ? STATE_WORDS[visit.state].toLowerCase()
                    : VERDICT_WORDS[visit.verdict].toLowerCase()}
                  {visit.warrantyUntil !== null && `, warranty until ${visit.warrantyUntil}`}
                </span>
              </li>
            ))}
          </ol>
        </>
      )}
    </div>
  );
}
