import { isClassNoWorse, readDielectric } from './dielectric.ts';
import {
  type DonorPart,
  EQUIVALENCE_SOURCE,
  type OriginalPart,
  type PartPlace,
  type RuleVerdict,
} from './equivalence.ts';
import type { PartSpec, Technology } from './part-spec.ts';
import { sameCase } from './rules-value.ts';

type Verdict = RuleVerdict['verdict'];
const rule =
  (id: RuleVerdict['rule'], needed = true, source = EQUIVALENCE_SOURCE) =>
  (verdict: Verdict, reason: string): RuleVerdict => ({
    rule: id,
    verdict,
    reason,
    needed,
    source,
  });

/** Other makes of capacitor that never stand in: their ESR is of another order. */
const NEVER_FOR: Partial<Record<Technology, readonly Technology[]>> = {
  ceramic: ['aluminium'],
  polymer: ['aluminium'],
  film: ['aluminium', 'tantalum', 'polymer'],
};

/** Same kind, and for capacitors the same make. */
export function judgeKind(original: OriginalPart, donor: DonorPart): RuleVerdict {
  const say = rule('kind');
  const wanted = original.spec;
  const got = donor.spec;
  if (wanted.kind === null || got.kind === null) {
    return say(
      'not-checked',
      `What the ${wanted.kind === null ? 'original' : 'donor part'} is was not said.`,
    );
  }
  if (wanted.kind !== got.kind) {
    return say('fail', `A ${got.kind} does not stand in for a ${wanted.kind}.`);
  }
  const variants = [wanted.variant ?? null, got.variant ?? null];
  const [own, offered] = variants;
  if (own !== offered) {
    if (own === null || offered === null) {
      const told = own ?? offered;
      return say('not-checked', `One of the two is ${told}; of the other that was not said.`);
    }
    return say('fail', `${offered} does not stand in for ${own}.`);
  }
  if (wanted.kind !== 'capacitor') {
    return say('pass', `Both are ${own === null ? `${wanted.kind}s` : `${own}, ${wanted.kind}s`}.`);
  }
  if (wanted.technology === null || got.technology === null) {
    return say('not-checked', 'Both are capacitors; how one of the two is made was not said.');
  }
  if (wanted.technology === got.technology) return say('pass', `Both are ${got.technology}.`);
  if (NEVER_FOR[wanted.technology]?.includes(got.technology)) {
    return say(
      'fail',
      `A ${got.technology} capacitor does not stand in for a ${wanted.technology} one.`,
    );
  }
  return say(
    'question',
    `A ${got.technology} capacitor in place of a ${wanted.technology} one: ESR, loss under bias and how it fails differ.`,
  );
}

/** Whether anybody knows what the donor part is. An unmarked ceramic tells nothing by itself. */
export function judgeIdentity(original: OriginalPart, donor: DonorPart): RuleVerdict {
  const say = rule('identity');
  const isCeramic =
    donor.spec.technology === 'ceramic' ||
    (donor.spec.technology === null && original.spec.technology === 'ceramic');
  if (donor.knownFrom === 'same-place')
    return say('pass', 'It comes from the same place on a board of the same model.');
  if (donor.knownFrom === 'label') return say('pass', 'It is new stock with its label.');
  if (donor.knownFrom === 'schematic')
    return say('pass', "Its place on the donor board's schematic says what it is.");
  if (donor.knownFrom === 'marking') return say('pass', 'Its marking says what it is.');
  if (donor.measured !== null && donor.spec.kind !== 'chip') {
    return say(
      'pass',
      isCeramic
        ? 'Unmarked, but its value was measured; rating and class cannot be measured.'
        : 'Its value was measured.',
    );
  }
  return say(
    'not-checked',
    isCeramic
      ? 'An unmarked ceramic: not proven until it is measured or known from the same place on the same board.'
      : 'Nothing shows what the donor part is.',
  );
}

/** Whether it goes onto the pads and under the lid. */
export function judgeCase(original: OriginalPart, donor: DonorPart, place: PartPlace): RuleVerdict {
  const say = rule('case', true, 'case tables, seen second-hand; fit: common practice');
  const a = original.spec;
  const b = donor.spec;
  if (place.roomMm !== null && donor.heightMm !== null && donor.heightMm > place.roomMm) {
    return say('fail', `It is ${donor.heightMm} mm high and there are ${place.roomMm} mm of room.`);
  }
  if (sameCase(a, b)) return say('pass', `Same case, ${caseOf(a)}.`);
  if (caseOf(a) === null || caseOf(b) === null) {
    return say(
      'not-checked',
      `The case of the ${caseOf(a) === null ? 'original' : 'donor part'} is not known.`,
    );
  }
  if (a.chipCase === null || b.chipCase === null) {
    return say('fail', `Case ${caseOf(b)} on pads for ${caseOf(a)}.`);
  }
  const isSmaller =
    b.chipCase.lengthMm <= a.chipCase.lengthMm && b.chipCase.widthMm <= a.chipCase.widthMm;
  const share = b.chipCase.lengthMm / a.chipCase.lengthMm;
  // One size down still reaches both pads; more leaves it hanging on one.
  if (isSmaller && share >= 0.6) {
    return say(
      'question',
      `Case ${caseOf(b)} on pads for ${caseOf(a)}: one size smaller can reach both pads; ratings shrink with it.`,
    );
  }
  return say('fail', `Case ${caseOf(b)} does not fit pads for ${caseOf(a)}.`);
}

/** Pin order for parts with more than two, polarity for those that have one. */
export function judgePinout(original: OriginalPart, donor: DonorPart): RuleVerdict | null {
  const { spec } = original;
  const isMany = ['chip', 'transistor', 'connector'].includes(spec.kind ?? '');
  const isDiode = ['diode', 'zener', 'suppressor'].includes(spec.kind ?? '');
  if (!isMany && !isDiode) return null;
  const say = rule('pinout');
  const sameType = spec.marking !== null && spec.marking === donor.spec.marking;
  if (sameType) return say('pass', `Same type, ${spec.marking}.`);
  if (original.pinout !== null && donor.pinout !== null) {
    return original.pinout === donor.pinout
      ? say(
          isMany ? 'question' : 'pass',
          `Same pins, ${donor.pinout}${isMany ? ', another type: compare the data sheets' : ''}.`,
        )
      : say('fail', `Pins ${donor.pinout} where ${original.pinout} belong.`);
  }
  if (isMany && spec.marking !== null && donor.spec.marking !== null) {
    return say(
      'question',
      `Type ${donor.spec.marking} for ${spec.marking}: compare the data sheets pin by pin.`,
    );
  }
  return say('not-checked', 'The pins of the two were not compared.');
}

/** Whether firmware ties the chip to its board. */
export function judgePairing(original: OriginalPart): RuleVerdict | null {
  if (original.spec.kind !== 'chip') return null;
  const say = rule('pairing');
  if (original.pairedByFirmware === true) {
    return say(
      'fail',
      'Firmware pairs this chip with its board: move its contents or its partner too.',
    );
  }
  return original.pairedByFirmware === false
    ? say('pass', 'Nothing pairs this chip with its board.')
    : say('not-checked', 'Whether firmware pairs this chip with its board is not known.');
}

/** Critical parts like for like: nominal, make, class, case the same and no rating changed downward. */
export function judgeCritical(
  original: OriginalPart,
  donor: DonorPart,
  place: PartPlace,
): RuleVerdict | null {
  if (place.critical === false) return null;
  if (place.critical === null) {
    return rule('critical', false)(
      'not-checked',
      'Without a schematic nobody knows whether it is critical.',
    );
  }
  const say = rule('critical');
  const a = original.spec;
  const b = donor.spec;
  const other = differences(a, b);
  if (other.length === 0) return say('pass', 'Critical, and like for like.');
  const known = other.filter(({ missing }) => !missing).map(({ word }) => word);
  if (known.length > 0)
    return say('fail', `Critical: like for like only, and ${known.join(', ')} differ.`);
  return say(
    'not-checked',
    `Critical: like for like only, and ${other.map(({ word }) => word).join(', ')} are not known of both.`,
  );
}

function differences(a: PartSpec, b: PartSpec): { word: string; missing: boolean }[] {
  const fields: readonly (readonly [word: string, of: (spec: PartSpec) => unknown])[] = [
    ['value', ({ value }) => value],
    ['make', ({ technology }) => technology],
    ['class', ({ dielectric }) => dielectric],
    ['type', ({ marking }) => marking],
    ['rating in volts', ({ ratedV }) => ratedV],
    ['case', caseOf],
  ];
  return fields.flatMap(([word, of]): { word: string; missing: boolean }[] => {
    const [wanted, got] = [of(a), of(b)];
    if (wanted === null || wanted === got) return [];
    if (got === null) return [{ word, missing: true }];
    const isHigher = word === 'rating in volts' && Number(got) > Number(wanted);
    if (isHigher || (word === 'class' && isBetter(String(got), String(wanted)))) return [];
    return [{ word, missing: false }];
  });
}

/** Like for like still lets a steadier class of the same kind through. */
function isBetter(got: string, wanted: string): boolean {
  const [a, b] = [readDielectric(got), readDielectric(wanted)];
  return a !== null && b !== null && a.class === b.class && isClassNoWorse(a, b);
}

export function caseOf(spec: PartSpec): string | null {
  return spec.chipCase?.inch ?? spec.otherCase;
}
