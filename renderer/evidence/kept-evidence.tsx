import { useEffect, useState } from 'react';
import type { KeptEvidence as Kept } from '../../core/cases/kept-evidence.ts';
import { formatPercent } from '../../core/units/format.ts';
import { dayWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';

const SHOWN = 5;

/** What a closed job's evidence said on the day it was closed. Later cases and versions do not change it. */
export function KeptEvidence({ jobId }: { readonly jobId: string }) {
  const { ask } = useActions();
  const [kept, setKept] = useState<Kept | null | 'unread'>('unread');
  useEffect(() => {
    void ask('readKeptEvidence', { jobId }).then(setKept);
  }, [jobId, ask]);
  return (
    <section className="likely-causes" aria-label="Causes as they were weighed">
      <h2>Causes as they were weighed</h2>
      {kept === 'unread' ? (
        <p className="quiet">Reading what was kept…</p>
      ) : kept === null ? (
        <p className="quiet">This job was closed before what it rested on was kept.</p>
      ) : (
        <KeptLines kept={kept} />
      )}
    </section>
  );
}

function KeptLines({ kept }: { readonly kept: Kept }) {
  const { counted, findings, causes } = kept;
  return (
    <>
      <p className="quiet">
        On {dayWords(kept.madeAt)}, when the job was closed, with {counted.proved} proved outcomes
        to go by ({counted.guessed} guessed, {counted.unsolved} never solved). Weighed by version{' '}
        {kept.evidenceVersion}; {kept.tableSource}.
      </p>
      <p>{kept.summary}</p>
      {findings.length > 0 && (
        <ul className="cause-findings">
          {findings.map((finding) => (
            <li key={`${finding.key}-${finding.at}`}>{finding.claim}</li>
          ))}
        </ul>
      )}
      <ol className="cause-lines">
        {causes.slice(0, SHOWN).map((cause) => (
          <li key={cause.key} className="cause-line">
            <strong>
              {cause.isBench && 'Bench: '}
              {cause.text}
            </strong>
            <span className="cause-share">
              {formatPercent(cause.probability)}{' '}
              <span className="quiet">
                ({formatPercent(cause.low)} to {formatPercent(cause.high)})
              </span>
            </span>
            {cause.like !== '' && <p className="quiet">{cause.like}</p>}
          </li>
        ))}
      </ol>
    </>
  );
}
