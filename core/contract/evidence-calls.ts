import { z } from 'zod';
import type { CaseDetails, JobEvidence } from '../cases/case-details.ts';
import type { ShopOdds } from '../cases/cause-tree.ts';
import type { KeptEvidence } from '../cases/kept-evidence.ts';
import type { Cause, CauseTable } from '../evidence/cause-table.ts';
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

/** The table that causes are weighed by, and which of its rows the shop put there. */
export interface ShopCauseTable extends CauseTable {
  readonly ownRows: readonly Pick<ShopOdds, 'question' | 'cause'>[];
  /** How many closed jobs ended with a cause, by its key. */
  readonly outcomes: Readonly<Record<string, number>>;
}

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
  /** Takes a cause out of use, or back into it. Outcomes with it stay and still count. */
  retireCause: answers<readonly Cause[]>()(z.object({ key: line.min(1), isRetired: z.boolean() })),
  /** The causes with every question's odds, as this shop has them. */
  readCauseTable: answers<ShopCauseTable>()(z.object({})),
  /** Puts the shop's odds of a question's outcomes under a cause; null = back to the starter table's. */
  saveOdds: answers<ShopCauseTable>()(
    z.object({
      question: line.min(1),
      cause: line.min(1),
      odds: z.record(line, z.number().min(0).max(1)).nullable(),
    }),
  ),
  /** What a closed job's evidence said when it was closed; null = it was not kept then. */
  readKeptEvidence: answers<KeptEvidence | null>()(z.object({ jobId: id })),
  /** Likely causes of a job from this ledger's proved outcomes and what the job has seen. */
  likelyCauses: answers<JobEvidence>()(z.object({ jobId: id })),
  /** Answers a question by looking; null takes the answer back. */
  answerQuestion: answers<null>()(
    z.object({ jobId: id, question: line.min(1), outcome: line.min(1).nullable() }),
  ),
  /** How a job ended in detail; null while it is open or was closed without. */
  readCaseDetails: answers<CaseDetails | null>()(z.object({ jobId: id })),
} as const;
