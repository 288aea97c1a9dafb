import { useEffect, useState } from 'react';
import type { PartFacts } from '../../core/donors/donor-board.ts';
import type { Part, PartFields } from '../../core/job/job.ts';
import { QuickPart } from '../checklist/quick-part.tsx';
import { useActions } from '../state/use-desk.ts';
import { PartForm } from './part-form.tsx';
import { PartLine } from './part-line.tsx';
import '../donors/donors.css';

interface Props {
  readonly jobId: string;
  readonly jobNumber: number;
  readonly parts: readonly Part[];
}

/** What was lifted and what was fitted. */
export function JobParts({ jobId, jobNumber, parts }: Props) {
  const { ask } = useActions();
  const [facts, setFacts] = useState<readonly PartFacts[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: read again whenever the parts are
  useEffect(() => {
    void ask('readPartFacts', { jobId }).then((found) => setFacts(found ?? []));
  }, [jobId, parts, ask]);
  const factsOf = (part: Part) => facts.find(({ partId }) => partId === part.id);
  const [editing, setEditing] = useState<Part | 'new' | null>(null);
  const keep = async (part: PartFields): Promise<void> => {
    const kept =
      editing === 'new' || editing === null
        ? await ask('addPart', { jobId, part })
        : await ask('changePart', { id: editing.id, part });
    if (kept !== null) setEditing(null);
  };
  return (
    <section className="job-parts" aria-label="Parts" data-place="parts">
      <div className="part-head">
        <h2>Parts</h2>
        {editing === null && (
          <button type="button" className="plain" onClick={() => setEditing('new')}>
            Add a part
          </button>
        )}
      </div>
      <QuickPart jobId={jobId} />
      {parts.length === 0 && editing === null && <p className="quiet">No part lifted or fitted.</p>}
      <ol>
        {parts.map((part) => (
          <PartLine
            key={part.id}
            part={part}
            facts={factsOf(part) ?? null}
            jobNumber={jobNumber}
            onChange={() => setEditing(part)}
          />
        ))}
      </ol>
      {editing !== null && (
        <PartForm
          key={editing === 'new' ? 'new' : editing.id}
          part={editing === 'new' ? null : editing}
          onKeep={(part) => void keep(part)}
          onCancel={() => setEditing(null)}
        />
      )}
    </section>
  );
}
