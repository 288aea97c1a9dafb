import type { ParameterToken } from './program-unit.ts';
import { isFault, type ScpiFault, scpiFault } from './scpi-fault.ts';

/** A token and the place after it. */
export interface Lexed {
  readonly token: ParameterToken;
  readonly end: number;
}

const DECIMAL = /[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[\0-\t\v-\x20]*[eE][\0-\t\v-\x20]*([+-]?\d+))?/y;
const SUFFIX = /[\0-\t\v-\x20]*(\/?[A-Za-z]+(?:-?\d)?(?:[./][A-Za-z]+(?:-?\d)?)*)/y;
const WORD = /[A-Za-z][A-Za-z0-9_]*/y;
const RADIX = /#(?:[hH]([0-9a-fA-F]+)|[qQ]([0-7]+)|[bB]([01]+))/y;
const STRING = /"((?:[^"]|"")*)"|'((?:[^']|'')*)'/y;
const EXPRESSION = /\(([^()"';#]*)\)/y;

/**
 * Reads one parameter that starts at `at` (IEEE 488.2, 7.7: decimal with suffix, non-decimal,
 * character, string, block, expression). A fault when nothing there is a parameter.
 */
export function lexParameter(text: string, at: number): Lexed | ScpiFault {
  const first = text[at] ?? '';
  if (first === '"' || first === "'") return lexString(text, at);
  if (first === '#') return lexHash(text, at);
  if (first === '(') {
    const found = match(EXPRESSION, text, at);
    return found
      ? { token: { kind: 'expression', text: found[1] ?? '' }, end: at + found[0].length }
      : scpiFault(-170, text.slice(at));
  }
  const word = match(WORD, text, at);
  if (word) return { token: { kind: 'word', text: word[0] }, end: at + word[0].length };
  return lexDecimal(text, at);
}

function lexDecimal(text: string, at: number): Lexed | ScpiFault {
  const found = match(DECIMAL, text, at);
  if (!found) return scpiFault(/[+\-.]/.test(text[at] ?? '') ? -121 : -102, text.slice(at));
  // IEEE 488.2, 7.7.2.4.1: at most 255 digits, an exponent within 32,000.
  if (found[0].length > 255) return scpiFault(-124);
  if (found[1] && Math.abs(Number(found[1])) > 32_000) return scpiFault(-123, found[0]);
  const end = at + found[0].length;
  const suffix = match(SUFFIX, text, end);
  if (suffix && (suffix[1] ?? '').length > 12) return scpiFault(-134, suffix[1]);
  const value = Number(found[0].replace(/[\0-\x20]/g, ''));
  return {
    token: { kind: 'number', value, suffix: suffix?.[1] ?? '' },
    end: end + (suffix?.[0].length ?? 0),
  };
}

function lexString(text: string, at: number): Lexed | ScpiFault {
  const found = match(STRING, text, at);
  // Strings are 7-bit (IEEE 488.2, 7.7.5).
  if (!found || /[^\0-\x7f]/.test(found[0])) return scpiFault(-151, text.slice(at, at + 40));
  const inner =
    found[1] === undefined
      ? (found[2] ?? '').replaceAll("''", "'")
      : found[1].replaceAll('""', '"');
  return { token: { kind: 'string', text: inner }, end: at + found[0].length };
}

function lexHash(text: string, at: number): Lexed | ScpiFault {
  const radix = match(RADIX, text, at);
  if (radix) {
    const digits = radix[1] ?? radix[2] ?? radix[3] ?? '';
    const base = radix[1] !== undefined ? 16 : radix[2] !== undefined ? 8 : 2;
    const value = Number.parseInt(digits, base);
    return { token: { kind: 'radix', value }, end: at + radix[0].length };
  }
  const block = lexBlock(text, at);
  return isFault(block) ? block : { token: { kind: 'block', text: block.data }, end: block.end };
}

/**
 * Reads an arbitrary block at `at` (IEEE 488.2, 7.7.6): `#` digits-of-length length data, or
 * `#0` data up to the end of the message. Never hands out fewer bytes than were declared.
 */
export function lexBlock(text: string, at: number): { data: string; end: number } | ScpiFault {
  const lengthDigits = Number(text[at + 1] ?? Number.NaN);
  if (text[at] !== '#' || !Number.isInteger(lengthDigits)) return scpiFault(-161);
  if (lengthDigits === 0) return { data: text.slice(at + 2), end: text.length };
  const start = at + 2 + lengthDigits;
  const lengthText = text.slice(at + 2, start);
  if (lengthText.length < lengthDigits || !/^\d+$/.test(lengthText)) return scpiFault(-161);
  const end = start + Number(lengthText);
  return end > text.length ? scpiFault(-161) : { data: text.slice(start, end), end };
}

function match(pattern: RegExp, text: string, at: number): RegExpExecArray | null {
  pattern.lastIndex = at;
  return pattern.exec(text);
}
