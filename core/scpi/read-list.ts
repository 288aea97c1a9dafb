import type { ParameterToken } from './program-unit.ts';
import { type ScpiFault, scpiFault } from './scpi-fault.ts';

/** An entry of a list: one place or a range, each with as many dimensions as were sent. */
export interface ListEntry {
  readonly from: readonly number[];
  readonly to: readonly number[];
}

const PLACE = String.raw`\d+(?:!\d+)*`;
const NUMBER = String.raw`[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;

/** Reads `(@1,2:3)` or `(@2!5:3!6)` (SCPI-1999 vol. 1, 8.3.2). No blanks inside. Faults: -104, -170. */
export function readChannelList(token: ParameterToken): ListEntry[] | ScpiFault {
  if (token.kind !== 'expression') return scpiFault(-104);
  if (!token.text.startsWith('@')) return scpiFault(-170, token.text);
  return readEntries(token.text.slice(1), PLACE);
}

/** Reads `(12,5:6)` (SCPI-1999 vol. 1, 8.3.3). Faults: -104, -170. */
export function readNumericList(token: ParameterToken): ListEntry[] | ScpiFault {
  return token.kind === 'expression' ? readEntries(token.text, NUMBER) : scpiFault(-104);
}

function readEntries(text: string, one: string): ListEntry[] | ScpiFault {
  const pattern = new RegExp(`^(${one})(?::(${one}))?$`);
  const entries: ListEntry[] = [];
  for (const part of text.split(',')) {
    const found = pattern.exec(part);
    if (!found) return scpiFault(-170, text);
    const from = (found[1] ?? '').split('!').map(Number);
    const to = found[2] === undefined ? from : found[2].split('!').map(Number);
    if (to.length !== from.length) return scpiFault(-170, text);
    entries.push({ from, to });
  }
  return entries;
}
