import type { Finding, FindingOrigin } from '../finding/finding.ts';
import type { Gradient } from './gradient.ts';

/** A gradient as a finding: which point is nearest, its ohms to the reference, one sigma. */
export function gradientFinding(
  rail: string,
  gradient: Gradient,
  firstA: number,
  from: readonly FindingOrigin[],
  at: number,
): Finding {
  const first = gradient.ranked[0];
  return {
    key: `gradient:${rail}:${gradient.verdict}`,
    room: 'shorts',
    claim: [gradient.text, ...gradient.notes].join(' '),
    value: gradient.verdict === 'cannot-tell' ? null : (first?.ohm ?? null),
    unit: 'Ω',
    uncertainty: first === undefined ? null : first.sigmaV / firstA,
    source: "Ohm's law; three sigma of the meter is this project's rule",
    likelihoods: {},
    from,
    at,
  };
}
