import type { Selectable } from 'kysely';
import { templateFor } from '../../core/checklist/template.ts';
import type { Template } from '../../core/checklist/template-step.ts';
import type { Db } from './ledger-context.ts';
import type { JobRow } from './tables.ts';
import { findVersion } from './template-store.ts';

/** The template that a job is walked with: the version it began with, or the built-in one. */
export async function templateOfJob(db: Db, job: Selectable<JobRow>): Promise<Template> {
  const kept = job.template_id === null ? undefined : await findVersion(db, job.template_id);
  return kept ?? templateFor(job.template);
}
