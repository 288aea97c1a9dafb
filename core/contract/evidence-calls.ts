import { z } from 'zod';
import type { CaseDetails, JobEvidence } from '../cases/case-details.ts';
import type { Cause } from '../evidence/cause-table.ts';
import { answers } from './call.ts';
import { id, line, note } from './fields.ts';

/** What is told at the end of a job beside its plain outcome. */
export const caseDetails = z.object({
  /** Null = nobody knows. */
  causeKey: line.nullable(),
  part: line,
  rail: line,
  gaveAway: note,
  changed: z.boolean(),
  readingCameBack: z.boolean(),
  boardWoke: z.boolean(),
});

/** Calls about causes and evidence: answered by the ledger worker. */
export const evidenceCalls = {
  /** The starter causes with the shop's own and the shop's changes. */
  listCauses: answers<readonly Cause[]>()(z.object({})),
  /** Adds a cause, or changes the one with that key. */
  saveCause: answers<readonly Cause[]>()(
    z.object({
      key: line.nullable(),
      text: line.min(2, 'say what the cause is'),
      parent: line.nullable(),
      check: note,
      weight: z.number().finite().positive('type a number above 0').max(1000),
    }),
  ),
  /** Likely causes of a job from this ledger's proved outcomes and what the job has seen. */
  likelyCauses: answers<JobEvidence>()(z.object({ jobId: id })),
  /** Answers a question by looking; null takes the answer back. */
  answerQuestion: answers<null>()(
    z.object({ jobId: id, question: line.min(1), outcome: line.min(1).nullable() }),
  ),
  /** How a job ended in detail; null while it is open or was closed without. */
  readCaseDetails: answers<CaseDetails | null>()(z.object({ jobId: id })),
} as const;
