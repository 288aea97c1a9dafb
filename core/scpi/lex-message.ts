import { isBlank, skipBlanks } from './blanks.ts';
import { lexBlock, lexParameter } from './lex-parameter.ts';
import type { ParameterToken, ProgramUnit } from './program-unit.ts';
import { isFault, type ScpiFault, scpiFault } from './scpi-fault.ts';

const HEADER = /(\*[A-Za-z]\w*|:?[A-Za-z]\w*(?::[A-Za-z]\w*)*)(\?)?/y;
/** IEEE 488.2, 7.6.1.4.1: a program mnemonic has at most 12 characters. */
const LONGEST_MNEMONIC = 12;

/**
 * Reads a program message (without its terminator) into units. Empty units are left out. A
 * unit that cannot be read keeps its text and its fault, and the next one is read as usual.
 */
export function lexMessage(text: string): ProgramUnit[] {
  const units: ProgramUnit[] = [];
  let at = 0;
  while (at < text.length) {
    at = skipBlanks(text, at);
    if (text[at] === ';') {
      at += 1;
    } else if (at < text.length) {
      const { unit, end } = lexUnit(text, at);
      units.push(unit);
      at = end + 1;
    }
  }
  return units;
}

function lexUnit(text: string, at: number): { unit: ProgramUnit; end: number } {
  const end = endOfUnit(text, at);
  const unitText = text.slice(at, end).trimEnd();
  HEADER.lastIndex = 0;
  const found = HEADER.exec(unitText);
  const header = found?.[1] ?? '';
  const bad = (fault: ScpiFault) => ({
    unit: { header, isQuery: false, parameters: [], fault, text: unitText },
    end,
  });
  if (!found) return bad(headerFault(unitText));
  if (header.split(/[:*]/).some((word) => word.length > LONGEST_MNEMONIC)) {
    return bad(scpiFault(-112, header));
  }
  const after = found[0].length;
  const next = unitText[after];
  if (next !== undefined && !isBlank(next)) return bad(scpiFault(-111, unitText));
  const parameters = lexParameters(unitText, after);
  if (isFault(parameters)) return bad(parameters);
  const isQuery = found[2] === '?';
  return { unit: { header, isQuery, parameters, fault: null, text: unitText }, end };
}

function headerFault(unitText: string): ScpiFault {
  return scpiFault(/^[:*]/.test(unitText) ? -110 : -101, unitText);
}

function lexParameters(unitText: string, from: number): ParameterToken[] | ScpiFault {
  const tokens: ParameterToken[] = [];
  let at = skipBlanks(unitText, from);
  while (at < unitText.length) {
    const lexed = lexParameter(unitText, at);
    if (isFault(lexed)) return lexed;
    tokens.push(lexed.token);
    at = skipBlanks(unitText, lexed.end);
    if (at === unitText.length) break;
    if (unitText[at] !== ',') return scpiFault(-103, unitText);
    at = skipBlanks(unitText, at + 1);
    if (at === unitText.length) return scpiFault(-102, unitText);
  }
  return tokens;
}

/** The place of the `;` that ends a unit: not one inside a string or a block. */
function endOfUnit(text: string, from: number): number {
  let at = from;
  while (at < text.length && text[at] !== ';') {
    const character = text[at];
    if (character === '"' || character === "'") {
      const close = text.indexOf(character, at + 1);
      at = close < 0 ? text.length : close + 1;
    } else if (character === '#') {
      const block = lexBlock(text, at);
      at = isFault(block) ? at + 1 : block.end;
    } else {
      at += 1;
    }
  }
  return at;
}
