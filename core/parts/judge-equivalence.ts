import type {
  DonorPart,
  Equivalence,
  OriginalPart,
  PartPlace,
  RuleId,
  RuleVerdict,
} from './equivalence.ts';
import {
  judgeCase,
  judgeCritical,
  judgeIdentity,
  judgeKind,
  judgePairing,
  judgePinout,
} from './rules-fit.ts';
import { judgeClass, judgeEsr, judgeRating } from './rules-rating.ts';
import { judgeBias, judgeValue } from './rules-value.ts';

/** What a rule looks at, for the list of what was not checked. */
export const RULE_WORDS: Readonly<Record<RuleId, string>> = {
  kind: 'kind and make',
  identity: 'what the donor part is',
  value: 'value',
  bias: 'capacitance under DC bias',
  rating: 'rating',
  esr: 'ESR',
  class: 'ceramic class',
  case: 'case',
  pinout: 'pins',
  pairing: 'pairing by firmware',
  critical: 'whether it is critical',
};

/** What no rule here looks at, by kind (common practice, no source). */
const BEYOND: Partial<Record<NonNullable<OriginalPart['spec']['kind']>, readonly string[]>> = {
  capacitor: ['ripple current', 'life and ageing', 'leakage'],
  resistor: ['temperature coefficient', 'pulse load'],
  inductor: ['saturation current', 'DC resistance', 'shielding'],
  bead: ['impedance curve', 'DC resistance'],
  diode: ['reverse recovery', 'leakage'],
  transistor: ['gate threshold', 'on-resistance', 'switching charge'],
  fuse: ['speed', 'breaking capacity'],
  crystal: ['load capacitance', 'drive level'],
  thermistor: ['B value', 'dissipation'],
  varistor: ['surge energy', 'clamping volts'],
  chip: ['revision and firmware contents'],
};

/**
 * Judges whether a donor part is an equal, rule by rule. Any failed rule makes it not equal; it is
 * equal only when every rule that its kind and place need has passed; everything between is not
 * ruled out. The rules are this project's own decisions from common practice; class and tolerance
 * follow EIA-198 and IEC 60062 (both seen second-hand).
 */
export function judgeEquivalence(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): Equivalence {
  const kind = judgeKind(original, donor);
  const isOtherKind = kind.verdict === 'fail' && original.spec.kind !== donor.spec.kind;
  const rules: RuleVerdict[] = isOtherKind
    ? [kind]
    : [
        kind,
        judgeIdentity(original, donor),
        judgeValueOrType(original, donor, place),
        judgeBias(original, donor, place),
        judgeRating(original, donor, place),
        judgeEsr(original, donor, place),
        judgeClass(original, donor),
        judgeCase(original, donor, place),
        judgePinout(original, donor),
        judgePairing(original),
        judgeCritical(original, donor, place),
      ].filter((rule) => rule !== null);
  const failed = rules.filter(({ verdict }) => verdict === 'fail');
  const open = rules.filter(({ verdict, needed }) => needed && verdict !== 'pass');
  const notChecked = [
    ...rules.filter((r) => r.verdict === 'not-checked').map((r) => RULE_WORDS[r.rule]),
    ...(place.roomMm === null || donor.heightMm === null ? ['height'] : []),
    ...(BEYOND[original.spec.kind ?? 'connector'] ?? []),
  ];
  if (failed.length > 0) {
    const why = failed.map(({ reason }) => reason).join(' ');
    return { verdict: 'not-equal', summary: `Not equal. ${why}`, rules, notChecked };
  }
  if (open.length > 0) {
    const why = open.map(({ reason }) => reason).join(' ');
    return { verdict: 'not-ruled-out', summary: `Not ruled out. ${why}`, rules, notChecked };
  }
  return {
    verdict: 'equal',
    summary: `Equal by ${rules.filter(({ verdict }) => verdict === 'pass').length} rules.`,
    rules,
    notChecked,
  };
}

/** Chips, transistors and plain diodes have a type instead of a value. */
function judgeValueOrType(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict | null {
  const { kind, value } = original.spec;
  const isTyped =
    kind === 'chip' || kind === 'transistor' || kind === 'diode' || kind === 'connector';
  return isTyped && value === null ? null : judgeValue(original, donor, place);
}
