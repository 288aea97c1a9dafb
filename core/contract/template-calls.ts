import { z } from 'zod';
import { stepShape } from '../checklist/template-schema.ts';
import type { Template } from '../checklist/template-step.ts';
import type { JobTemplate, TemplateVersion } from '../checklist/template-version.ts';
import { answers } from './call.ts';
import { id, line } from './fields.ts';

const key = z.string().min(1).max(60);

/** Calls about the shop's checklists and who walks them: answered by the ledger worker. */
export const templateCalls = {
  /** The newest version of every kind of job; put away ones too, so that they can come back. */
  listTemplates: answers<readonly TemplateVersion[]>()(z.object({})),
  /** Every version of a kind of job, newest first. */
  templateHistory: answers<readonly TemplateVersion[]>()(z.object({ key })),
  /**
   * Keeps a new version; `key` null = a new kind of job. Open jobs stay with theirs. Throws
   * `bad-input` naming the step that cannot be walked, `gate-closed` while it guards less than the
   * built-in one and the ids of what is lost (`gateLosses`) are not all in `understood`.
   */
  saveTemplate: answers<TemplateVersion>()(
    z.object({
      key: key.nullable(),
      title: line,
      steps: z.array(stepShape).max(300),
      understood: z.array(z.string().max(200)).max(600),
      isFromFile: z.boolean().default(false),
    }),
  ),
  /** Back to the built-in one, as a new version. Throws `bad-input` for a kind of the shop's own. */
  restoreTemplate: answers<TemplateVersion>()(z.object({ key })),
  /** No longer offered for new jobs, or offered again; only the shop's own kinds. */
  putTemplateAway: answers<TemplateVersion>()(z.object({ key, isAway: z.boolean() })),
  /** The version that a job is walked with. */
  readJobTemplate: answers<JobTemplate>()(z.object({ jobId: id })),
  readInitials: answers<string>()(z.object({})),
  /** Who works at this bench: written beside every step that is settled from now on. */
  sayInitials: answers<string>()(
    z.object({ initials: z.string().trim().max(8, 'initials are at most 8 letters') }),
  ),
} as const;

/** Calls about template files: answered by main, which owns the dialogs. */
export const templateFileCalls = {
  /** Writes a kind of job's newest version as JSON; null = the dialog was closed. */
  exportTemplate: answers<string | null>()(z.object({ key })),
  /** Reads a template file without keeping it; null = the dialog was closed. */
  openTemplateFile: answers<Template | null>()(z.object({})),
} as const;
