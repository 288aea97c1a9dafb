import { WakelineError } from '../errors.ts';
import type { Unit } from '../units/unit.ts';

/** The rooms that conclude things. */
export type FindingRoom =
  | 'bench'
  | 'stages'
  | 'match'
  | 'rails'
  | 'shorts'
  | 'parts'
  | 'evidence'
  | 'job';

/** What a finding rests on, by its id in the ledger. */
export interface FindingOrigin {
  readonly kind: 'reading' | 'run' | 'part' | 'photo' | 'job' | 'item';
  readonly id: string;
}

/** How likely the finding is under one cause, for causes that it does not name: see `likelihoodUnder`. */
export const ANY_OTHER_CAUSE = '*';

/**
 * One thing that a room concludes, in the shape that every other room understands.
 * A finding says what was seen and how likely that is under each cause; it never says which
 * cause it is.
 */
export interface Finding {
  /** Stable name of what was looked at and how it came out: `rail:MAIN:low`. Same sight, same key. */
  readonly key: string;
  readonly room: FindingRoom;
  /** A sentence that a technician would sign. */
  readonly claim: string;
  /** In base units; null when the finding is not a number. */
  readonly value: number | null;
  readonly unit: Unit;
  /** One standard uncertainty in the same unit; null when nobody knows. */
  readonly uncertainty: number | null;
  /** Where the rule or figure comes from: a standard, this board's known-good, common practice. */
  readonly source: string;
  /**
   * P(this finding | cause), each above 0 and up to 1, by cause key; `ANY_OTHER_CAUSE` is the
   * figure for causes not listed. Empty when the finding speaks for no cause.
   */
  readonly likelihoods: Readonly<Record<string, number>>;
  readonly from: readonly FindingOrigin[];
  /** UTC milliseconds. */
  readonly at: number;
}

/**
 * P(finding | cause). A cause that the finding does not list gets its `ANY_OTHER_CAUSE` figure,
 * and 1 when there is none: silence moves nothing.
 */
export function likelihoodUnder(finding: Finding, cause: string): number {
  return finding.likelihoods[cause] ?? finding.likelihoods[ANY_OTHER_CAUSE] ?? 1;
}

/**
 * Returns the finding when it is sound.
 * @throws WakelineError `bad-input` naming the field: an empty claim, key or source, a number that
 * is not finite, a negative uncertainty, a likelihood that is not above 0 and up to 1.
 */
export function checkFinding(finding: Finding): Finding {
  const wrong = (field: string, what: string): never => {
    throw new WakelineError({
      code: 'bad-input',
      what,
      where: `finding ${finding.key === '' ? '(no key)' : finding.key}, ${field}`,
      todo: 'Nothing was stored. This is a mistake in the room that concluded it; report it.',
    });
  };
  for (const field of ['key', 'claim', 'source'] as const) {
    if (finding[field].trim() === '') wrong(field, `The ${field} is empty`);
  }
  if (finding.value !== null && !Number.isFinite(finding.value)) {
    wrong('value', `${finding.value} is not a number to conclude from`);
  }
  if (finding.uncertainty !== null && !(finding.uncertainty >= 0)) {
    wrong('uncertainty', `An uncertainty of ${finding.uncertainty} makes no sense`);
  }
  for (const [cause, p] of Object.entries(finding.likelihoods)) {
    if (!(p > 0 && p <= 1)) {
      wrong(`likelihood under ${cause}`, `${p} is not above 0 and up to 1`);
    }
  }
  return finding;
}
