import { z } from 'zod';
import type { ChecklistItem, Job, JobLine, JobWhole, Part, Reading } from '../job/job.ts';
import { answers } from './call.ts';
import { caseDetails } from './evidence-calls.ts';
import { id, jobFields, line, note, outcomeFields, partFields, readingFields } from './fields.ts';

/** Calls about jobs: answered by the ledger worker. */
export const jobCalls = {
  /** Takes in a job; a serial number seen before links it as a comeback. */
  createJob: answers<Job>()(
    jobFields.extend({
      /** Whose it is; left out = a customer is made of the name, where one is given. */
      customerId: id.nullable().optional(),
      /** How to reach a customer that is made. */
      customerReach: line.optional(),
    }),
  ),
  changeJob: answers<Job>()(z.object({ id, fields: jobFields.partial() })),
  /** Lets a job wait for nothing in particular, or opens it again. */
  setJobState: answers<Job>()(z.object({ id, state: z.enum(['open', 'waiting']) })),
  /** Closes the job with its outcome; refused while a part is left off for a test. */
  closeJob: answers<Job>()(
    z.object({ id, outcome: outcomeFields, details: caseDetails.optional() }),
  ),
  /** Newest first; every word of `search` must occur somewhere in the job. */
  listJobs: answers<readonly JobLine[]>()(
    z.object({ search: line, limit: z.number().int().min(1).max(500) }),
  ),
  readJob: answers<JobWhole>()(z.object({ id })),
  /** Puts a job in the bin; its runs stay recoverable until the bin is emptied. */
  binJob: answers<null>()(z.object({ id })),
  restoreJob: answers<Job>()(z.object({ id })),
  listBin: answers<readonly JobLine[]>()(z.object({})),
  emptyBin: answers<number>()(z.object({})),
  doItem: answers<ChecklistItem>()(z.object({ jobId: id, itemId: id, note })),
  /** Skipping takes a reason. */
  skipItem: answers<ChecklistItem>()(
    z.object({ jobId: id, itemId: id, reason: note.min(3, 'say why in a few words') }),
  ),
  reopenItem: answers<ChecklistItem>()(z.object({ jobId: id, itemId: id })),
  /** Writes words beside a step and leaves it open. */
  noteItem: answers<ChecklistItem>()(z.object({ jobId: id, itemId: id, note })),
  addReading: answers<Reading>()(readingFields),
  /** Readings taken while no job was open. */
  looseReadings: answers<readonly Reading[]>()(z.object({})),
  giveReading: answers<Reading>()(
    z.object({ readingId: id, jobId: id.nullable(), itemId: id.nullable(), place: line }),
  ),
  /** Takes back a reading that was no reading; its step opens again when it was the only one. */
  forgetReading: answers<null>()(z.object({ readingId: id })),
  addPart: answers<Part>()(z.object({ jobId: id, part: partFields })),
  changePart: answers<Part>()(z.object({ id, part: partFields })),
  /** A line typed while the iron is hot, stored at once: `C1207 lifted`, `C1207 off for a test`. */
  quickPart: answers<readonly Part[]>()(
    z.object({ jobId: id, line: line.min(1, 'type what was lifted or fitted') }),
  ),
  /** The same part goes back where it was lifted; its points are asked again. */
  putPartBack: answers<Part>()(z.object({ id })),
  /** Takes back a line that was no part; refused with `bad-input` for one that came off a donor. */
  forgetPart: answers<null>()(z.object({ id })),
} as const;
