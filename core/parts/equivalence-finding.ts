import type { Finding, FindingOrigin } from '../finding/finding.ts';
import { EQUIVALENCE_SOURCE, type Equivalence } from './equivalence.ts';

/** An equivalence as a finding on the job; it speaks for no cause by itself. */
export function equivalenceFinding(
  designator: string,
  equivalence: Equivalence,
  from: readonly FindingOrigin[],
  at: number,
): Finding {
  const left =
    equivalence.notChecked.length === 0
      ? ''
      : ` Not checked: ${equivalence.notChecked.join(', ')}.`;
  return {
    key: `part:${designator}:${equivalence.verdict}`,
    room: 'parts',
    claim: `${designator}: ${equivalence.summary}${left}`,
    value: null,
    unit: '',
    uncertainty: null,
    source: EQUIVALENCE_SOURCE,
    likelihoods: {},
    from,
    at,
  };
}
