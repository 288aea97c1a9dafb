import type { Finding, FindingOrigin } from '../finding/finding.ts';
import type { Unit } from '../units/unit.ts';

export const PRACTICE = 'common practice, no source';

/** A finding that answers a question of the cause table; its likelihoods stand in the table. */
export function sightFinding(
  question: string,
  outcome: string,
  claim: string,
  o: {
    /** UTC ms. */
    readonly at: number;
    readonly from: readonly FindingOrigin[];
    readonly value?: number | null;
    readonly unit?: Unit;
    readonly uncertainty?: number | null;
    readonly room?: Finding['room'];
    readonly source?: string;
  },
): Finding {
  return {
    key: `${question}:${outcome}`,
    room: o.room ?? 'job',
    claim,
    value: o.value ?? null,
    unit: o.unit ?? '',
    uncertainty: o.uncertainty ?? null,
    source: o.source ?? PRACTICE,
    likelihoods: {},
    from: o.from,
    at: o.at,
  };
}
