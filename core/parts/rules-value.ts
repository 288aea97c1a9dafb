import { readDielectric } from './dielectric.ts';
import {
  type BiasCurve,
  type DonorPart,
  EQUIVALENCE_SOURCE,
  type OriginalPart,
  type PartPlace,
  type RuleVerdict,
} from './equivalence.ts';
import type { PartSpec } from './part-spec.ts';
import { sayPartValue } from './say-part-value.ts';
import { sayTolerance, type Tolerance, toleranceBand } from './tolerance-letters.ts';

/** Kinds whose value must match: a fuse or a zener has no tolerance to hide in. */
const EXACT_KINDS = ['fuse', 'zener', 'suppressor', 'crystal', 'varistor'];
const EXACT_ROLES = ['feedback', 'timing', 'sensing'];

/** Value within the tighter of the two tolerances; a measured value counts above a written one. */
export function judgeValue(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict {
  const wanted = original.spec.value;
  const { kind } = original.spec;
  const rule = (verdict: RuleVerdict['verdict'], reason: string): RuleVerdict => ({
    rule: 'value',
    verdict,
    reason,
    needed: true,
    source: 'tolerances by IEC 60062, seen second-hand; the tighter one counts: common practice',
  });
  if (kind === null || wanted === null) {
    return rule('not-checked', 'The value of the original is not known.');
  }
  const say = (value: number) => sayPartValue(value, kind);
  const { measured } = donor;
  const nominal = donor.spec.value;
  if (nominal === null && measured === null) {
    return rule('not-checked', 'The value of the donor part is not known: measure it.');
  }
  if (EXACT_KINDS.includes(kind)) {
    if (nominal === null) return rule('not-checked', `Measuring does not tell a ${kind}'s value.`);
    return isSame(nominal, wanted)
      ? rule('pass', `Both are ${say(wanted)}.`)
      : rule('fail', `${say(nominal)} in place of ${say(wanted)}: a ${kind} has to match exactly.`);
  }
  const tighter = tighterOf(original.spec.tolerance, donor.spec.tolerance, wanted);
  if (tighter === null) return judgeWithoutTolerance(wanted, donor, place, say, rule);
  const [low, high] = toleranceBand(wanted, tighter);
  const band = `${say(low)} to ${say(high)} (${sayTolerance(tighter)}, the tighter of the two)`;
  if (measured !== null) {
    const { value, uncertainty } = measured;
    const sure = value - 2 * uncertainty >= low && value + 2 * uncertainty <= high;
    if (sure) return rule('pass', `Measured ${say(value)}, inside ${band}.`);
    const surelyOut = value + 2 * uncertainty < low || value - 2 * uncertainty > high;
    if (!surelyOut) {
      return rule(
        'question',
        `Measured ${say(value)}, within the meter's error of the edge of ${band}.`,
      );
    }
    const own = original.spec.tolerance;
    const wide = own === null ? null : toleranceBand(wanted, own);
    if (wide !== null && value >= wide[0] && value <= wide[1]) {
      return rule(
        'question',
        `Measured ${say(value)}: inside the original's own tolerance and outside ${band}. It may have aged.`,
      );
    }
    return rule('fail', `Measured ${say(value)}, outside ${band}.`);
  }
  if (nominal === null) return rule('not-checked', 'The donor part was not measured.');
  if (nominal < low * (1 - 1e-9) || nominal > high * (1 + 1e-9)) {
    return rule('fail', `${say(nominal)} is outside ${band}.`);
  }
  return judgeOwnBand(wanted, nominal, original.spec, donor.spec, place, say, rule);
}

type Rule = (verdict: RuleVerdict['verdict'], reason: string) => RuleVerdict;

/** A looser donor of the same nominal may lie anywhere in its own band. */
function judgeOwnBand(
  wanted: number,
  nominal: number,
  original: PartSpec,
  donor: PartSpec,
  place: PartPlace,
  say: (value: number) => string,
  rule: Rule,
): RuleVerdict {
  const needed = original.tolerance;
  if (donor.tolerance === null) {
    return EXACT_ROLES.includes(place.role)
      ? rule(
          'not-checked',
          `Both say ${say(wanted)}, but the donor's tolerance is not known and in ${place.role} it counts: measure it.`,
        )
      : rule('pass', `${say(nominal)} for ${say(wanted)}; the donor's tolerance is not known.`);
  }
  if (needed === null) return rule('pass', `${say(nominal)} for ${say(wanted)}.`);
  const [ownLow, ownHigh] = toleranceBand(nominal, donor.tolerance);
  const [low, high] = toleranceBand(wanted, needed);
  const fits = ownLow >= low * (1 - 1e-9) && ownHigh <= high * (1 + 1e-9);
  if (fits) {
    return rule(
      'pass',
      `${say(nominal)} ${sayTolerance(donor.tolerance)} stays inside ${say(wanted)} ${sayTolerance(needed)}.`,
    );
  }
  const reason = `${say(nominal)} ${sayTolerance(donor.tolerance)} may be anywhere from ${say(ownLow)} to ${say(ownHigh)}, and ${say(wanted)} ${sayTolerance(needed)} is wanted.`;
  return EXACT_ROLES.includes(place.role)
    ? rule('fail', `${reason} In ${place.role} that counts.`)
    : rule('question', `${reason} Measure it to know.`);
}

function judgeWithoutTolerance(
  wanted: number,
  donor: DonorPart,
  place: PartPlace,
  say: (value: number) => string,
  rule: Rule,
): RuleVerdict {
  const found = donor.measured?.value ?? donor.spec.value ?? Number.NaN;
  const off = Math.abs(found / wanted - 1);
  const how = donor.measured === null ? 'Marked' : 'Measured';
  if (off > 0.2) return rule('fail', `${how} ${say(found)} where ${say(wanted)} belongs.`);
  if (off > 0.01 || EXACT_ROLES.includes(place.role)) {
    return rule(
      'question',
      `${how} ${say(found)} for ${say(wanted)}, and neither tolerance is known.`,
    );
  }
  return rule('pass', `${how} ${say(found)} for ${say(wanted)}; neither tolerance is known.`);
}

/** Capacitance left under DC bias, where curves are given. Class 1 and other kinds have none to lose. */
export function judgeBias(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict | null {
  const dielectricOf = (spec: PartSpec) =>
    spec.dielectric === null ? null : readDielectric(spec.dielectric);
  if (original.spec.kind !== 'capacitor' || donor.spec.technology !== 'ceramic') return null;
  if (dielectricOf(donor.spec)?.class === 1) return null;
  const rule = (verdict: RuleVerdict['verdict'], reason: string, needed = false): RuleVerdict => ({
    rule: 'bias',
    verdict,
    reason,
    needed,
    source: EQUIVALENCE_SOURCE,
  });
  const { railV } = place;
  if (railV === null)
    return rule(
      'not-checked',
      'The volts across it are not known, so neither is what DC bias leaves of it.',
    );
  const wanted = original.spec.value;
  const nominal = donor.measured?.value ?? donor.spec.value;
  if (donor.biasCurve === null || wanted === null || nominal === null) {
    const isAlike =
      original.spec.technology === 'ceramic' &&
      sameCase(original.spec, donor.spec) &&
      donor.spec.dielectric !== null &&
      donor.spec.dielectric === original.spec.dielectric;
    return isAlike
      ? rule(
          'not-checked',
          `No curve under DC bias is given; class and case are the same, so at ${railV} V the two should lose alike.`,
        )
      : rule(
          'not-checked',
          `No curve under DC bias is given, and a class 2 ceramic of another class, case or make may lose more than half at ${railV} V.`,
          original.spec.technology !== 'ceramic' || donor.spec.dielectric === null,
        );
  }
  const left = nominal * shareAt(donor.biasCurve, railV);
  const tolerance = original.spec.tolerance ?? { low: -20, high: 20, in: 'percent' as const };
  const kept = original.biasCurve === null ? 1 : shareAt(original.biasCurve, railV);
  const floor = toleranceBand(wanted, tolerance)[0] * kept;
  const say = (value: number) => sayPartValue(value, 'capacitor');
  const against =
    original.biasCurve === null && original.spec.technology === 'ceramic'
      ? 'the original, whose own curve is not given'
      : 'the original there';
  const text = `At ${railV} V the donor keeps ${say(left)}, and at least ${say(floor)} is wanted of ${against}.`;
  if (left >= floor * (1 - 1e-9)) return rule('pass', text, true);
  return original.biasCurve === null && original.spec.technology === 'ceramic'
    ? rule('question', text, true)
    : rule('fail', text, true);
}

/** Share of nominal at `volts`, straight between the curve's points and level beyond its ends. */
export function shareAt(curve: BiasCurve, volts: number): number {
  const above = curve.findIndex((point) => point.volts >= volts);
  const right = curve[above];
  if (right === undefined) return curve.at(-1)?.share ?? 1;
  const left = curve[above - 1];
  if (left === undefined) return right.share;
  const part = (volts - left.volts) / (right.volts - left.volts);
  return left.share + part * (right.share - left.share);
}

export function sameCase(a: PartSpec, b: PartSpec): boolean {
  if (a.chipCase !== null && b.chipCase !== null) return a.chipCase.metric === b.chipCase.metric;
  return a.otherCase !== null && a.otherCase === b.otherCase;
}

function tighterOf(a: Tolerance | null, b: Tolerance | null, nominal: number): Tolerance | null {
  if (a === null || b === null) return a ?? b;
  const width = (tolerance: Tolerance) => {
    const [low, high] = toleranceBand(nominal, tolerance);
    return high - low;
  };
  return width(b) < width(a) ? b : a;
}

function isSame(a: number, b: number): boolean {
  return Math.abs(a / b - 1) < 1e-6;
}
