import type { ChecklistItem } from '../../core/job/job.ts';

/** What was written beside the steps of the checklist. */
export function JobNotes({ items }: { items: readonly ChecklistItem[] }) {
  const noted = items.filter(({ reason }) => reason.trim() !== '');
  if (noted.length === 0) return null;
  return (
    <section className="job-notes" aria-label="Notes at the steps" data-place="notes">
      <h2>Notes at the steps</h2>
      <dl className="facts">
        {noted.map((item) => (
          <div key={item.id} data-ref={item.id}>
            <dt>
              {item.title}
              {item.state === 'skipped' && ', skipped'}
            </dt>
            <dd>{item.reason}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
