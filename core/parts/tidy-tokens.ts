import type { PartToken } from './part-token.ts';

/** Spellings of one word that are read as another; places in the text stay those of the typed word. */
const RESPELLED: readonly (readonly [RegExp, string])[] = [
  // 10MEG, 2meg2, 1.5megohm: mega, because m is milli. Common practice, no source.
  [/^(\d+(?:[.,]\d+)?)meg(?:ohms?|r|Ω)?$/iu, '$1M'],
  [/^(\d+)meg(\d+)$/i, '$1M$2'],
  // 15mR, 5mΩ: milliohms with the letter of IEC 60062.
  [/^(\d*[.,]?\d+)m(?:R|Ω|\u2126)$/u, '$1mohm'],
  // 4R7uH, 2R2µH: the decimal place written R before a unit.
  [/^(\d+)R(\d+)([nuµμm]?H)$/u, '$1.$2$3'],
  // 1u5H, 2µ2H: the decimal place written as the prefix.
  [/^(\d+)([nuµμm])(\d+)H$/u, '$1.$3$2H'],
  // 0.1R: ohms.
  [/^(\d*[.,]\d+)R$/, '$1ohm'],
  // 600Z is an impedance on a bead, read with the other ohms.
  [/^(\d{1,4})Z$/, '$1R'],
  [/^(.{3,})-like$/i, '$1'],
  // The typed tolerance signs.
  [/^\+\/?[-\u2212](?=\d)/u, '±'],
];

/** Where a word holds two: a value and its rating, a value and its tolerance. */
const GLUED: readonly RegExp[] = [
  /^(.*?\d.*?)(?=±)/u,
  /^(\d{1,2}x)(?=\d*[.,]?\d+[pnuµμkKMR])/iu,
  /^(\d*[.,]?\d+[pnuµμ]F?)(?=\d+(?:[.,]\d+)?V\d?$)/iu,
  /^(\d*[.,]?\d+[kM]?(?:ohms?|Ω))(?=\d+(?:[.,]\d+)?%$)/iu,
];

/**
 * Words as the trade types them, made ready for reading: brackets and signs of "about" taken off,
 * glued words cut (`10uF25V`, `10k±1%`), a decimal R joined to its unit (`3R3 uH`), spellings of
 * mega and milliohm made one. Places still point into the typed text.
 */
export function tidyTokens(tokens: readonly PartToken[]): readonly PartToken[] {
  return joinUnits(tokens.flatMap(trimmed).flatMap(unglued)).map(respelled);
}

function trimmed(token: PartToken): readonly PartToken[] {
  const head = /^[([{<>≤~≈"'“]+/u.exec(token.text)?.[0].length ?? 0;
  const rest = token.text.slice(head);
  // A quote behind a case code says inch, and a closing bracket nothing.
  const text = rest.replace(/[)\]}'”?]+$/u, '');
  return text === '' ? [] : [{ text, at: token.at + head, end: token.at + head + text.length }];
}

function unglued(token: PartToken): readonly PartToken[] {
  for (const pattern of GLUED) {
    const first = pattern.exec(token.text)?.[1] ?? '';
    if (first === '' || first.length === token.text.length) continue;
    const cut = token.at + first.length;
    return [
      { text: first, at: token.at, end: cut },
      ...unglued({ text: token.text.slice(first.length), at: cut, end: token.end }),
    ];
  }
  return [token];
}

function joinUnits(tokens: readonly PartToken[]): readonly PartToken[] {
  const joined: PartToken[] = [];
  for (const token of tokens) {
    const last = joined.at(-1);
    if (last !== undefined && /^\d+R\d*$/.test(last.text) && /^[nuµμm]?H$/u.test(token.text)) {
      joined.pop();
      joined.push({ text: last.text + token.text, at: last.at, end: token.end });
    } else joined.push(token);
  }
  return joined;
}

function respelled(token: PartToken): PartToken {
  for (const [pattern, to] of RESPELLED) {
    if (pattern.test(token.text)) return { ...token, text: token.text.replace(pattern, to) };
  }
  return token;
}
