import { readBlock } from './response-block.ts';

/** Bytes of a reply as text, one character a byte (instruments send ASCII; anything else stays visible). */
export function textOf(bytes: Uint8Array, start = 0, end = bytes.length): string {
  let text = '';
  for (let i = start; i < end; i += 1) text += String.fromCharCode(bytes[i]!);
  return text;
}

/** A program message as bytes. Characters above 255 do not exist in SCPI. */
export function messageBytes(message: string): Uint8Array {
  const bytes = new Uint8Array(message.length);
  for (let i = 0; i < message.length; i += 1) bytes[i] = message.charCodeAt(i) & 0xff;
  return bytes;
}

/** A reply as a person can read it in a message: control bytes written out, long ones cut. */
export function shownReply(text: string): string {
  const cut = text.length > 80 ? `${text.slice(0, 77)}...` : text;
  let shown = '';
  for (const character of cut) {
    const code = character.charCodeAt(0);
    const isPlain = code >= 32 && code < 127;
    shown += isPlain ? character : `\\x${code.toString(16).padStart(2, '0')}`;
  }
  return shown;
}

/**
 * Splits at `separator` outside quoted strings and channel lists: a comma inside
 * `"Undefined header; x,y"` is text.
 */
export function splitReply(text: string, separator: ';' | ','): string[] {
  if (!text.includes(separator)) return [text.trim()];
  const parts: string[] = [];
  let quote = '';
  let depth = 0;
  let from = 0;
  for (let i = 0; i < text.length; i += 1) {
    const character = text[i]!;
    if (quote !== '') {
      if (character === quote) quote = '';
    } else if (character === '"' || character === "'") quote = character;
    else if (character === '(') depth += 1;
    else if (character === ')') depth = Math.max(0, depth - 1);
    else if (character === separator && depth === 0) {
      parts.push(text.slice(from, i).trim());
      from = i + 1;
    }
  }
  parts.push(text.slice(from).trim());
  return parts;
}

/**
 * String response data (IEEE 488.2 8.7.8 as cited by the open-source parser's tests): quotes of
 * either kind, doubled inside. Undefined when the quotes do not close or text follows them.
 */
export function decodeQuoted(text: string): string | undefined {
  const trimmed = text.trim();
  const quote = trimmed[0];
  if (quote !== '"' && quote !== "'") return undefined;
  let inside = '';
  for (let i = 1; i < trimmed.length; i += 1) {
    if (trimmed[i] !== quote) inside += trimmed[i];
    else if (trimmed[i + 1] === quote) {
      inside += quote;
      i += 1;
    } else return i === trimmed.length - 1 ? inside : undefined;
  }
  return undefined;
}

/** Text sent as a block, `#12CV`; undefined when it is none or not whole. */
function decodeTextBlock(text: string): string | undefined {
  const state = text.startsWith('#') ? readBlock(messageBytes(text)) : null;
  return state?.kind === 'whole' && state.endsAt === text.length
    ? textOf(state.content)
    : undefined;
}

/** Character data, bare, in quotes or as a block: `CV`, `"CV"` and `#12CV` all give `CV`. */
export function decodeWord(text: string): string | undefined {
  const trimmed = text.trim();
  const word = decodeQuoted(trimmed) ?? decodeTextBlock(trimmed) ?? trimmed;
  return /^[A-Za-z][A-Za-z0-9_.\- ]*$/.test(word) ? word : undefined;
}

/** Boolean response data: `0`, `1`, `OFF`, `ON`, signed or quoted. `0.000` is a measurement, not a boolean. */
export function decodeBoolean(text: string): boolean | undefined {
  const told = (decodeQuoted(text) ?? text).trim().toUpperCase();
  // Some repeat the header: `:OUTP:STAT 1`.
  const word = told.replace(/^:?[A-Z][A-Z0-9]*(?::[A-Z0-9]+)*\s+(?=(?:[+]?[01]|ON|OFF)$)/, '');
  if (word === '1' || word === '+1' || word === 'ON') return true;
  if (word === '0' || word === '+0' || word === 'OFF') return false;
  return undefined;
}
