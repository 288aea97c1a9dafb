import type { Part } from '../job/job.ts';
import type { Equivalence } from '../parts/equivalence.ts';
import { judgeEquivalence } from '../parts/judge-equivalence.ts';
import type { PartSpec } from '../parts/part-spec.ts';
import { NO_DETAILS, type PartDetails, type PartFacts } from './donor-board.ts';

/** Details and reading of one part as the ledger keeps them. */
export interface KeptDetails {
  readonly details: PartDetails;
  readonly spec: PartSpec | null;
}

/**
 * A job's parts with their details; a fitted one is judged against the newest part lifted from the
 * same place before it, when both could be read.
 */
export function partFacts(
  parts: readonly Part[],
  kept: ReadonlyMap<string, KeptDetails>,
): readonly PartFacts[] {
  return parts.map((part) => {
    const own = kept.get(part.id);
    return {
      partId: part.id,
      details: own?.details ?? NO_DETAILS,
      spec: own?.spec ?? null,
      equivalence: part.action === 'fitted' ? judgeFitted(part, parts, kept) : null,
    };
  });
}

function judgeFitted(
  fitted: Part,
  parts: readonly Part[],
  kept: ReadonlyMap<string, KeptDetails>,
): Equivalence | null {
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

/** Parts left off for a test with nothing fitted there since and no decision: a job cannot close on them. */
export function undecidedParts(
  parts: readonly Part[],
  kept: ReadonlyMap<string, KeptDetails>,
): readonly Part[] {
  return parts.filter(
    (part) =>
      part.action === 'lifted' &&
      kept.get(part.id)?.details.leftOff === 'for-a-test' &&
      !parts.some(
        (other) => other.action === 'fitted' && isSame(other, part) && other.at >= part.at,
      ),
  );
}

const isSame = (a: Part, b: Part): boolean =>
  a.designator.trim() !== '' &&
  a.designator.trim().toUpperCase() === b.designator.trim().toUpperCase();
