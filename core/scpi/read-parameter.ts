import { isForm } from './header-pattern.ts';
import type { ParameterToken } from './program-unit.ts';
import { type ScpiFault, scpiFault } from './scpi-fault.ts';
import { type SuffixUnit, suffixUnit } from './suffix-unit.ts';

/** What a number may look like: its unit, the words that stand for values, and its limits. */
export interface NumberRule {
  readonly unit?: SuffixUnit;
  /** Declared words and what they stand for, such as `{ MINimum: 0, MAXimum: 60 }`. */
  readonly words?: Readonly<Record<string, number>>;
  readonly min?: number;
  readonly max?: number;
}

/** Reads a number in SI units. Faults: -104, -131, -138, -222 out of `min..max`, -224 unknown word. */
export function readNumber(token: ParameterToken, rule: NumberRule = {}): number | ScpiFault {
  const value = plainNumber(token, rule);
  if (typeof value !== 'number') return value;
  const inRange =
    value >= (rule.min ?? Number.NEGATIVE_INFINITY) && value <= (rule.max ?? Infinity);
  return inRange ? value : scpiFault(-222);
}

function plainNumber(token: ParameterToken, rule: NumberRule): number | ScpiFault {
  if (token.kind === 'radix') return token.value;
  if (token.kind === 'word' && rule.words) {
    const found = Object.entries(rule.words).find(([declared]) => isForm(declared, token.text));
    return found ? found[1] : scpiFault(-224, token.text);
  }
  if (token.kind !== 'number') return scpiFault(-104);
  if (token.suffix === '') return token.value;
  if (rule.unit === undefined) return scpiFault(-138, token.suffix);
  const suffix = suffixUnit(token.suffix);
  if (suffix?.unit !== rule.unit) return scpiFault(-131, token.suffix);
  // 3300 mV must be 3.3 V and not 3.3000000000000003: divide by whole powers of ten.
  return suffix.factor < 1
    ? token.value / Math.round(1 / suffix.factor)
    : token.value * suffix.factor;
}

/** Reads a Boolean: ON, OFF, or a number that is false when it rounds to 0. Other words: -224. */
export function readBoolean(token: ParameterToken): boolean | ScpiFault {
  if (token.kind === 'radix') return token.value !== 0;
  if (token.kind === 'number') {
    return token.suffix === '' ? Math.round(token.value) !== 0 : scpiFault(-138, token.suffix);
  }
  if (token.kind !== 'word') return scpiFault(-104);
  if (isForm('ON', token.text)) return true;
  return isForm('OFF', token.text) ? false : scpiFault(-224, token.text);
}

/** Reads one of some declared words and gives it back as declared. Other words: -224. */
export function readChoice<T extends string>(
  token: ParameterToken,
  choices: readonly T[],
): T | ScpiFault {
  if (token.kind !== 'word') return scpiFault(-104);
  return choices.find((choice) => isForm(choice, token.text)) ?? scpiFault(-224, token.text);
}

/** Reads quoted text, doubled quotes undone. Anything else: -104. */
export function readText(token: ParameterToken): string | ScpiFault {
  return token.kind === 'string' ? token.text : scpiFault(-104);
}

/** Reads a block's bytes as Latin-1 text. Anything else: -104. */
export function readBlock(token: ParameterToken): string | ScpiFault {
  return token.kind === 'block' ? token.text : scpiFault(-104);
}
