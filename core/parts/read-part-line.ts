import { parsePart } from './parse-part.ts';
import { kindOfDesignator } from './part-spec.ts';

/** What one quick line says was done to one part. Texts as typed; '' = not said. */
export interface QuickPart {
  readonly action: 'lifted' | 'fitted';
  /** Designator in upper case, or the place in words. */
  readonly designator: string;
  readonly value: string;
  readonly rail: string;
  readonly stateFound: string;
  readonly from: string;
  /** Lifted to see how the board runs without it. */
  readonly isTest: boolean;
  /** The same part goes back where it was. */
  readonly isBack: boolean;
}

const LIFTED = new Set(['lifted', 'lift', 'off', 'out', 'removed', 'pulled', 'gone', 'desoldered']);
const FITTED = new Set(['fitted', 'fit', 'placed', 'replaced', 'new', 'soldered', 'in']);
const BACK = new Set(['back', 'refitted']);
const TEST = new Set(['test', 'testing', 'without', 'try']);
const FILLERS = new Set(['for', 'a', 'put', 'to', 'and', 'the', 'was', 'is', 'with', '-', ',']);
const FOUND = new Set([
  'shorted',
  'short',
  'cracked',
  'burnt',
  'burned',
  'bulging',
  'open',
  'leaky',
  'leaking',
  'hot',
  'corroded',
  'chipped',
  'loose',
  'missing',
  'swollen',
  'dead',
  'good',
  'sound',
]);
const DESIGNATOR = /^[a-z]{1,3}\d{1,5}[a-z]?$/i;

/**
 * Reads a line typed with one hand while the iron is hot: `C1207`, `C1207 lifted shorted`,
 * `C1207 C1208 off for a test`, `C1207 fitted 10u 25V X5R from donor shelf 3`, `L3 back`,
 * `lifted the cap beside L3`. One word that is a designator means lifted. Nothing is refused: what
 * is neither a value nor a known word is kept as the state found. Empty text gives no part.
 */
export function readPartLine(text: string): readonly QuickPart[] {
  const [, main = '', source = ''] =
    /^(.*?)(?:(?:^|\s)from\s+(.*))?$/isu.exec(text.trim().replace(/\s+/gu, ' ')) ?? [];
  const [, said = '', rail = '', more = ''] =
    /^(.*?)(?:(?:^|\s)(?:on|rail)\s+([\w.+/-]+)(.*))?$/isu.exec(main) ?? [];
  const words = `${said} ${more}`.split(/[\s;]+/u).filter((word) => word !== '' && word !== ',');
  const designators: string[] = [];
  const rest: string[] = [];
  const found: string[] = [];
  let action: QuickPart['action'] | null = null;
  let isTest = false;
  let isBack = false;
  let hasPlaceWord = false;
  for (const typed of words) {
    const word = typed.replace(/^[("']+|[,.)"']+$/gu, '');
    const key = word.toLowerCase();
    if (DESIGNATOR.test(word) && kindOfDesignator(word) !== null && rest.length === 0) {
      designators.push(word.toUpperCase());
    } else if (BACK.has(key)) {
      isBack = true;
      action ??= 'fitted';
    } else if (TEST.has(key)) {
      isTest = true;
      action ??= 'lifted';
    } else if (LIFTED.has(key)) action ??= 'lifted';
    else if (FITTED.has(key) && !(key === 'in' && designators.length === 0)) action ??= 'fitted';
    else if (FOUND.has(key)) found.push(key);
    else if (!(FILLERS.has(key) && designators.length > 0)) {
      rest.push(word);
      hasPlaceWord ||= designators.length === 0;
    }
  }
  if (designators.length === 0 || hasPlaceWord) {
    const place = [...designators, ...rest].join(' ');
    if (designators.length === 0) {
      if (place === '') return [];
      return [part(place, '', found)];
    }
  }
  const value = rest.join(' ');
  const kind = kindOfDesignator(designators[0]!);
  const isValue = value !== '' && parsePart(value, kind).faults.length === 0;
  return designators.map((designator) =>
    part(designator, isValue ? value : '', isValue ? found : [...found, ...rest]),
  );

  function part(designator: string, typedValue: string, state: readonly string[]): QuickPart {
    return {
      action: isBack ? 'fitted' : (action ?? 'lifted'),
      designator: designator.slice(0, 200),
      value: typedValue.slice(0, 200),
      rail: rail.slice(0, 200),
      stateFound: state.join(' ').slice(0, 200),
      from: source.trim().slice(0, 200),
      isTest: isTest && (action ?? 'lifted') === 'lifted' && !isBack,
      isBack,
    };
  }
}
