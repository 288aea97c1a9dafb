import { implyKind, type PartDraft, setField } from './part-draft.ts';
import { numberOf, readPartQuantity } from './part-quantity.ts';
import type { PartToken } from './part-token.ts';
import { sayFigure } from './say-part-value.ts';

/**
 * Takes `23m ESR`, `ESR 23m`, `ESR 0.023 ohm`: the ohms beside the word. The side is decided by which
 * neighbour can be ohms; after the word wins when both can, as in `62u ESR 23m`.
 */
export function takeEsr(tokens: readonly PartToken[], draft: PartDraft): readonly PartToken[] {
  const index = tokens.findIndex(({ text }) => /^ESR$/i.test(text));
  const word = tokens[index];
  if (word === undefined) return tokens;
  const after = tokens[index + 1];
  const before = tokens[index - 1];
  const value = [after, before].find((token) => token !== undefined && ohmsOf(token) !== null);
  const ohms = value === undefined ? null : ohmsOf(value);
  if (tokens.some(({ text }) => /^\d+(?:[.,]\d+)?[kM]?Hz$/i.test(text))) {
    draft.notes.push({ at: word.at, end: word.end, meaning: 'ESR of a crystal' });
    return tokens.filter((token) => token !== word && token !== value);
  }
  implyKind(draft, 'capacitor', word, 'ESR');
  if (value === undefined && /^(ultra-?)?low$/i.test(before?.text ?? '')) {
    draft.notes.push({ at: word.at, end: word.end, meaning: 'low ESR, figure not known' });
    return tokens.filter((token) => token !== word);
  }
  if (value === undefined || ohms === null) {
    draft.faults.push({
      at: word.at,
      end: word.end,
      what: 'There are no ohms beside ESR',
      todo: 'Type them like 23m ESR or ESR 0.023 ohm.',
    });
    return tokens.filter((token) => token !== word);
  }
  const span = { at: Math.min(word.at, value.at), end: Math.max(word.end, value.end) };
  setField(draft, 'esrOhm', ohms, span, `ESR ${sayFigure(ohms, 'Ω')}`);
  return tokens.filter((token) => token !== word && token !== value);
}

function ohmsOf(token: PartToken): number | null {
  const bare = /^(\d*[.,]?\d+)(m?)$/.exec(token.text);
  if (bare !== null) return numberOf(bare[1] ?? '0', bare[2] === 'm' ? -3 : 0);
  const coded = /^(\d*)([mR])(\d+)$/.exec(token.text);
  if (coded !== null) {
    return numberOf(`${coded[1] === '' ? '0' : coded[1]}.${coded[3]}`, coded[2] === 'm' ? -3 : 0);
  }
  const read = readPartQuantity(token.text);
  return read?.ok === true && read.quantity.unit === 'Ω' ? read.quantity.value : null;
}
