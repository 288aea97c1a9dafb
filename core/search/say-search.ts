import { WAITING_WORDS } from '../job/waiting-for.ts';
import { STAGE_WORDS } from '../stages/stage.ts';
import { shownTagCode } from '../tags/tag-code.ts';
import { formatQuantity } from '../units/format.ts';
import type { AmountRange, SearchTerm, SearchUnit } from './search-query.ts';

/** A range in words: `0.2 A to 0.3 A`, `more than 5 V`. */
export function sayRange(range: AmountRange, unit: SearchUnit): string {
  const say = (value: number) => formatQuantity(value, unit);
  const { low, high, isOpen } = range;
  if (low !== null && high !== null) {
    return low === high ? `exactly ${say(low)}` : `${say(low)} to ${say(high)}`;
  }
  if (low !== null) return `${isOpen ? 'more than' : 'at least'} ${say(low)}`;
  return high === null ? 'any' : `${isOpen ? 'less than' : 'at most'} ${say(high)}`;
}

/** A term of a search as it was understood, in a few words. */
export function sayTerm(term: SearchTerm): string {
  switch (term.kind) {
    case 'text':
      return term.isPhrase ? `the words “${term.words.join(' ')}”` : `“${term.words.join(' ')}…”`;
    case 'stage': {
      const amounts = [
        ...(term.amps === null ? [] : [sayRange(term.amps, 'A')]),
        ...(term.volts === null ? [] : [sayRange(term.volts, 'V')]),
      ];
      const stage = `stage ${STAGE_WORDS[term.stage].toLowerCase()}`;
      if (amounts.length > 0) return `${stage} at ${amounts.join(' and ')}`;
      return `${stage}, or those words`;
    }
    case 'amount':
      return `a reading or stage of ${sayRange(term.range, term.unit)}`;
    case 'rail': {
      const name = term.name.length === 0 ? 'any rail' : `rail “${term.name.join(' ')}…”`;
      const range = term.range === null ? '' : ` ${sayRange(term.range.range, term.range.unit)}`;
      return term.verdict === null
        ? `${name} read${range}`
        : `${name} judged ${term.verdict}${range === '' ? '' : `, read${range}`}`;
    }
    case 'liquid':
      return term.is === 'yes' ? 'liquid at intake, or that word' : 'no liquid at intake';
    case 'days':
      return sayDays(term.first, term.last);
    case 'number':
      return `job ${term.number}`;
    case 'tag':
      return `bag tag ${shownTagCode(term.code)}`;
    case 'state':
      return `${term.state} jobs`;
    case 'waiting':
      return `waiting for ${WAITING_WORDS[term.waitingFor]}`;
    case 'comeback':
      return 'comebacks';
  }
}

function sayDays(first: string | null, last: string | null): string {
  if (first !== null && first === last) return `taken in on ${first}`;
  if (first === null) return `taken in up to ${last ?? 'any day'}`;
  return last === null ? `taken in from ${first}` : `taken in ${first} to ${last}`;
}
