import type { Part } from '../job/job.ts';
import type { Equivalence } from '../parts/equivalence.ts';
import { judgeEquivalence } from '../parts/judge-equivalence.ts';
import type { PartSpec } from '../parts/part-spec.ts';
import {
  NO_DETAILS,
  type PartDetails,
  type PartFacts,
  type PartPlaceState,
} from './donor-board.ts';

/** Details and reading of one part as the ledger keeps them. */
export interface KeptDetails {
  readonly details: PartDetails;
  readonly spec: PartSpec | null;
  /** As it was judged when it was fitted or last changed; null when it was not. */
  readonly equivalence: Equivalence | null;
  /** The lifted part that this fitted one is; null for any other. */
  readonly putBackOf: string | null;
}

type Kept = ReadonlyMap<string, KeptDetails>;

/** A job's parts with their details, their stored equivalence, and what became of lifted places. */
export function partFacts(parts: readonly Part[], kept: Kept): readonly PartFacts[] {
  return parts.map((part) => {
    const own = kept.get(part.id);
    return {
      partId: part.id,
      details: own?.details ?? NO_DETAILS,
      spec: own?.spec ?? null,
      // Parts from before verdicts were stored are judged as they are read.
      equivalence: own?.equivalence ?? judgeFitted(part, parts, kept),
      place: part.action === 'lifted' ? placeState(part, parts, kept) : null,
    };
  });
}

/**
 * Whether a fitted part is an equal of the newest part lifted from the same place before it. Null
 * when there was none, when one of them could not be read, or when it is the same part put back.
 */
export function judgeFitted(fitted: Part, parts: readonly Part[], kept: Kept): Equivalence | null {
  if (fitted.action !== 'fitted' || kept.get(fitted.id)?.putBackOf) return null;
  const lifted = parts.findLast(
    (part) => part.action === 'lifted' && isSame(part, fitted) && part.at <= fitted.at,
  );
  const original = lifted === undefined ? undefined : kept.get(lifted.id);
  const donor = kept.get(fitted.id);
  if (!original?.spec || !donor?.spec) return null;
  return judgeEquivalence(
    { spec: original.spec, biasCurve: null, pinout: null, pairedByFirmware: null },
    {
      spec: donor.spec,
      knownFrom: donor.details.knownFrom,
      measured: null,
      biasCurve: null,
      heightMm: null,
      pinout: null,
    },
    {
      railV: original.details.railV ?? donor.details.railV,
      role: original.details.role,
      critical: original.details.critical,
      roomMm: null,
    },
  );
}

/** What became of the place that a part was lifted from. */
export function placeState(lifted: Part, parts: readonly Part[], kept: Kept): PartPlaceState {
  const later = parts.filter((part) => isSame(part, lifted) && isAfter(part, lifted, parts));
  // What was fitted there and lifted again asks for itself.
  const next = later.find((part) => part.action === 'fitted');
  if (next !== undefined) {
    return kept.get(next.id)?.putBackOf === lifted.id ? 'put-back' : 'fitted';
  }
  switch (kept.get(lifted.id)?.details.leftOff) {
    case 'for-good':
      return 'stays-off';
    case 'put-back':
      return 'put-back';
    case 'for-a-test':
      return 'off-for-a-test';
    default:
      return 'undecided';
  }
}

/** A part that is off with no decision what becomes of it: a job cannot close on it. */
export interface UndecidedPart {
  readonly part: Part;
  readonly isTest: boolean;
}

/** Lifted parts with nothing fitted there since and no decision: a job cannot close on them. */
export function undecidedParts(parts: readonly Part[], kept: Kept): readonly UndecidedPart[] {
  return parts
    .filter((part) => part.action === 'lifted')
    .map((part) => ({ part, place: placeState(part, parts, kept) }))
    .filter(({ place }) => place === 'off-for-a-test' || place === 'undecided')
    .map(({ part, place }) => ({ part, isTest: place === 'off-for-a-test' }));
}

const isAfter = (a: Part, b: Part, parts: readonly Part[]): boolean =>
  a.at > b.at || (a.at === b.at && parts.indexOf(a) > parts.indexOf(b));

const isSame = (a: Part, b: Part): boolean =>
  a.designator.trim() !== '' &&
  a.designator.trim().toUpperCase() === b.designator.trim().toUpperCase();
