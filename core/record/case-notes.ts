import type { JobEvidence } from '../cases/case-details.ts';
import { type KeptEvidence, keptEvidence } from '../cases/kept-evidence.ts';
import type { PartFacts } from '../donors/donor-board.ts';
import type { Part } from '../job/job.ts';
import { RULE_WORDS } from '../parts/judge-equivalence.ts';
import { formatPercent } from '../units/format.ts';
import type { CauseRow } from './record-content.ts';

/** For each part: whether it is an equal, by which rules, what was not checked; what stays off. */
export function partNotes(parts: readonly Part[], facts: readonly PartFacts[]): readonly string[] {
  return parts.flatMap((part) => {
    const own = facts.find(({ partId }) => partId === part.id);
    if (own === undefined) return [];
    return [...placeNotes(part, own), ...equalNotes(part, own)];
  });
}

function placeNotes(part: Part, { place, details }: PartFacts): readonly string[] {
  const why = details.decision === '' ? '' : `: ${details.decision}`;
  switch (place) {
    case 'stays-off': {
      const agreed = details.agreedBy === '' ? '' : `, as agreed: ${details.agreedBy}`;
      return [`${part.designator} stays off${why}${agreed}.`];
    }
    case 'put-back':
      return [`${part.designator} was taken off for a test and the same part was put back${why}.`];
    case 'off-for-a-test':
      return [`${part.designator} is off for a test, not decided${why}.`];
    case 'undecided':
      return [`${part.designator} was lifted and nothing was fitted there, not decided${why}.`];
    default:
      return [];
  }
}

function equalNotes(part: Part, { equivalence }: PartFacts): readonly string[] {
  if (equivalence === null) return [];
  const { summary, rules, notChecked } = equivalence;
  const passed = rules
    .filter(({ verdict }) => verdict === 'pass')
    .map(({ rule }) => RULE_WORDS[rule]);
  const asked = rules.filter(({ verdict }) => verdict === 'question').map(({ reason }) => reason);
  return [
    [
      `${part.designator}: ${summary}`,
      passed.length === 0 ? '' : `Passed: ${passed.join(', ')}.`,
      asked.length === 0 ? '' : `Left to a person: ${asked.join(' ')}`,
      notChecked.length === 0 ? '' : `Not checked: ${notChecked.join(', ')}.`,
    ]
      .filter((words) => words !== '')
      .join(' '),
  ];
}

/** Evidence of an open job, or what was kept of it when the job was closed. */
export type RecordEvidence = JobEvidence | KeptEvidence;

const asKept = (evidence: RecordEvidence): KeptEvidence =>
  'likely' in evidence ? keptEvidence(evidence, '', 0) : evidence;

/** What earlier outcomes say of the job as it came in, with counts; empty when nothing was seen. */
export function evidenceNotes(evidence: RecordEvidence | null): readonly string[] {
  if (evidence === null || evidence.findings.length === 0) return [];
  const { summary, counted, findings } = asKept(evidence);
  return [
    summary,
    `Rests on: ${findings.map(({ claim }) => claim).join(' ')}`,
    `${counted.proved} proved outcomes in this ledger were counted; ${counted.guessed} guessed and ${counted.unsolved} never solved were not.`,
  ];
}

/** How many causes are printed: those below are further down than anybody acts on. */
const MOST_CAUSES = 4;
const LEAST_LIKELY = 0.03;

/** The likeliest causes with the interval and the counts that they rest on. */
export function causeRows(evidence: RecordEvidence | null): readonly CauseRow[] {
  if (evidence === null || evidence.findings.length === 0) return [];
  return asKept(evidence)
    .causes.filter(({ probability }) => probability >= LEAST_LIKELY)
    .slice(0, MOST_CAUSES)
    .map(({ text, probability, low, high, like }) => ({
      cause: text,
      likely: formatPercent(probability),
      between: `${formatPercent(low)} to ${formatPercent(high)}`,
      counted: like === '' ? 'none proved yet' : like,
    }));
}
