import type { JobEvidence } from '../cases/case-details.ts';
import type { PartFacts } from '../donors/donor-board.ts';
import type { Part } from '../job/job.ts';

const LEFT_OFF = {
  no: null,
  'for-a-test': 'left off for a test, not decided',
  'for-good': 'stays off',
} as const;

/** For each part: whether it is an equal and what was not checked, and why a part stays off. */
export function partNotes(parts: readonly Part[], facts: readonly PartFacts[]): readonly string[] {
  return parts.flatMap((part) => {
    const own = facts.find(({ partId }) => partId === part.id);
    if (own === undefined) return [];
    const off = LEFT_OFF[own.details.leftOff];
    const why = own.details.decision === '' ? '' : `: ${own.details.decision}`;
    const { equivalence } = own;
    return [
      ...(off === null || part.action === 'fitted' ? [] : [`${part.designator} ${off}${why}.`]),
      ...(equivalence === null
        ? []
        : [
            `${part.designator}: ${equivalence.summary}${
              equivalence.notChecked.length === 0
                ? ''
                : ` Not checked: ${equivalence.notChecked.join(', ')}.`
            }`,
          ]),
    ];
  });
}

/** What earlier outcomes say of the job as it came in, with counts; empty when nothing was seen. */
export function evidenceNotes(evidence: JobEvidence | null): readonly string[] {
  if (evidence === null || evidence.findings.length === 0) return [];
  const { likely, counted, findings } = evidence;
  return [
    likely.summary,
    `Rests on: ${findings.map(({ claim }) => claim).join(' ')}`,
    `${counted.proved} proved outcomes in this ledger were counted; ${counted.guessed} guessed and ${counted.unsolved} never solved were not.`,
  ];
}
