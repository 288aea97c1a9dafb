import { isClassNoWorse, readDielectric, sayDielectric } from './dielectric.ts';
import {
  type DonorPart,
  EQUIVALENCE_SOURCE,
  type OriginalPart,
  type PartPlace,
  type RuleVerdict,
} from './equivalence.ts';
import type { PartSpec } from './part-spec.ts';
import { sayFigure } from './say-part-value.ts';

type Verdict = RuleVerdict['verdict'];

/** Volts, amps and watts at least the original's; under use where the original's are not known. */
export function judgeRating(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict | null {
  const checks = [
    atLeast('volts', 'V', original.spec.ratedV, donor.spec.ratedV, place.railV),
    atLeast('amps', 'A', original.spec.ratedA, donor.spec.ratedA, null),
    atLeast('watts', 'W', original.spec.ratedW, donor.spec.ratedW, null),
  ].filter((check) => check !== null);
  if (checks.length === 0) {
    if (
      !['capacitor', 'fuse', 'inductor', 'diode', 'transistor', 'bead'].includes(
        original.spec.kind ?? '',
      )
    )
      return null;
    return {
      rule: 'rating',
      verdict: 'not-checked',
      reason: 'No rating of the two is known.',
      needed: true,
      source: EQUIVALENCE_SOURCE,
    };
  }
  const order: readonly Verdict[] = ['fail', 'not-checked', 'question', 'pass'];
  const worst = order.find((verdict) => checks.some((check) => check.verdict === verdict));
  return {
    rule: 'rating',
    verdict: worst ?? 'not-checked',
    reason: checks.map(({ reason }) => reason).join(' '),
    needed: true,
    source: EQUIVALENCE_SOURCE,
  };
}

function atLeast(
  word: string,
  unit: 'V' | 'A' | 'W',
  wanted: number | null,
  got: number | null,
  inUse: number | null,
): { verdict: Verdict; reason: string } | null {
  if (wanted === null && inUse === null) return null;
  if (got === null) {
    const need =
      wanted === null ? `at least ${sayFigure(inUse ?? 0, unit)}` : sayFigure(wanted, unit);
    return {
      verdict: 'not-checked',
      reason: `The donor's rating in ${word} is not known; ${need} is needed.`,
    };
  }
  if (wanted === null) {
    const use = inUse ?? 0;
    return got >= use
      ? {
          verdict: 'question',
          reason: `Rated ${sayFigure(got, unit)} on ${sayFigure(use, unit)}; the original's rating is not known.`,
        }
      : {
          verdict: 'fail',
          reason: `Rated ${sayFigure(got, unit)} on a rail of ${sayFigure(use, unit)}.`,
        };
  }
  if (inUse !== null && got < inUse) {
    return {
      verdict: 'fail',
      reason: `Rated ${sayFigure(got, unit)} on a rail of ${sayFigure(inUse, unit)}.`,
    };
  }
  return got >= wanted * (1 - 1e-9)
    ? {
        verdict: 'pass',
        reason: `Rated ${sayFigure(got, unit)}, the original ${sayFigure(wanted, unit)}.`,
      }
    : {
        verdict: 'fail',
        reason: `Rated ${sayFigure(got, unit)}, less than the original's ${sayFigure(wanted, unit)}.`,
      };
}

/** A donor's ESR between these shares of the original's is near enough (common practice, no source). */
const ESR_NEAR = { low: 0.5, high: 1.5 } as const;
const ESR_ROLES = ['bulk', 'regulator-output'];

/** ESR near the original's: too high ripples, too low can upset a regulator. */
export function judgeEsr(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict | null {
  if (original.spec.kind !== 'capacitor') return null;
  const isSpecial = original.spec.technology !== null && original.spec.technology !== 'ceramic';
  const counts = ESR_ROLES.includes(place.role) || isSpecial || original.spec.esrOhm !== null;
  const rule = (verdict: Verdict, reason: string): RuleVerdict => ({
    rule: 'esr',
    verdict,
    reason,
    needed: counts,
    source: EQUIVALENCE_SOURCE,
  });
  const wanted = original.spec.esrOhm;
  const got = donor.spec.esrOhm;
  if (wanted !== null && got !== null && wanted > 0) {
    const share = got / wanted;
    const text = `ESR ${sayFigure(got, 'Ω')} for ${sayFigure(wanted, 'Ω')}`;
    if (share > ESR_NEAR.high) {
      return rule('fail', `${text}: ${share.toFixed(1)} times as much, so more ripple and heat.`);
    }
    if (share < ESR_NEAR.low) {
      return rule(
        'question',
        `${text}: ${share.toFixed(2)} of it. Too low can upset a regulator; ask its data sheet.`,
      );
    }
    return rule('pass', `${text}, near enough.`);
  }
  const isSameMake = original.spec.technology === 'ceramic' && donor.spec.technology === 'ceramic';
  if (isSameMake && wanted === null) {
    return rule('pass', 'Both are ceramics: ESR is a few milliohms in either.');
  }
  if (!counts) return null;
  return rule(
    'not-checked',
    wanted === null
      ? 'The ESR of the original is not known.'
      : `The donor's ESR is not known; the original has ${sayFigure(wanted, 'Ω')}.`,
  );
}

/** A ceramic's class no worse: temperature range covered, change no greater. */
export function judgeClass(original: OriginalPart, donor: DonorPart): RuleVerdict | null {
  const isCeramic = original.spec.technology === 'ceramic' || original.spec.dielectric !== null;
  if (original.spec.kind !== 'capacitor' || !isCeramic) return null;
  if (donor.spec.technology !== null && donor.spec.technology !== 'ceramic') return null;
  const rule = (verdict: Verdict, reason: string): RuleVerdict => ({
    rule: 'class',
    verdict,
    reason,
    needed: true,
    source: 'EIA-198, seen second-hand',
  });
  const wanted = dielectricOf(original.spec);
  const got = dielectricOf(donor.spec);
  if (got === null)
    return rule(
      'not-checked',
      `The donor's class is not known${wanted === null ? '' : `; ${wanted.code} is wanted`}.`,
    );
  if (wanted === null)
    return rule('not-checked', `The original's class is not known; the donor is ${got.code}.`);
  const text = `${got.code} (${sayDielectric(got)}) for ${wanted.code} (${sayDielectric(wanted)})`;
  return isClassNoWorse(got, wanted)
    ? rule('pass', `${text}: no worse.`)
    : rule('fail', `${text}: worse.`);
}

function dielectricOf(spec: PartSpec) {
  return spec.dielectric === null ? null : readDielectric(spec.dielectric);
}
