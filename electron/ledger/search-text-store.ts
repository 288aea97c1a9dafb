import type { JobWhole } from '../../core/job/job.ts';
import { searchTextOf } from '../../core/job/search-text.ts';
import type { Db } from './ledger-context.ts';
import { readWhole } from './whole-job.ts';

/** Writes anew what searches find a job by; call it in the transaction that changed the job. */
export async function refreshSearchText(db: Db, jobId: string): Promise<void> {
  const whole: JobWhole | null = await readWhole(db, jobId);
  if (whole === null) return;
  const runIds = whole.runs.map((run) => run.id);
  const notes =
    runIds.length === 0
      ? []
      : await db.selectFrom('run_notes').select('text').where('run_id', 'in', runIds).execute();
  const marks =
    runIds.length === 0
      ? []
      : await db
          .selectFrom('marks')
          .innerJoin('classifications as c', 'c.id', 'marks.classification_id')
          .select('marks.text')
          .distinct()
          .where('c.run_id', 'in', runIds)
          .where('marks.mark', '=', 'note')
          .execute();
  const search_text = searchTextOf(
    whole,
    [...notes, ...marks].map((row) => row.text),
  );
  await db.updateTable('jobs').set({ search_text }).where('id', '=', jobId).execute();
}
